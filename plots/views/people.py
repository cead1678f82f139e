"""Members: the list, one member, new ones, and their sign-in links."""

from __future__ import annotations

from functools import partial

from django.contrib import messages
from django.core.exceptions import PermissionDenied, ValidationError
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.cache import never_cache
from django.views.decorators.http import require_POST, require_safe

from plots import access, queries, service
from plots.forms.people import KnownMemberForm, MemberForm, NewMemberForm, RoleForm
from plots.models import Garden, Membership, Role, User
from plots.powers import Power
from plots.service import post
from plots.views.answers import form_page, list_page, page_with_form, saved, typed
from plots.views.invitations import show_link_once
from plots.views.roster_list import roster_list
from plots.wording import roster as wording


@require_safe
def members(request: HttpRequest, slug: str) -> HttpResponse:
    """Names for every member, and what each lets others see; all addresses for who keeps the roster."""
    garden = access.garden_to_see(request.user, slug)
    keeper = access.may_run(request.user, garden, Power.PEOPLE)
    return list_page(
        request,
        "plots/members.html",
        roster_list(garden, keeper=keeper),
        queries.roster_of(garden, keeper=keeper, today=garden.today()),
        garden=garden,
        may_run=keeper,
    )


@page_with_form
def member_new(request: HttpRequest, slug: str) -> HttpResponse:
    garden = access.garden_to_run(request.user, slug, Power.PEOPLE)
    roles = access.roles_to_give(request.user, garden)
    form = NewMemberForm(typed(request), roles=roles)
    if form.is_bound and form.is_valid():
        try:
            user, role = form.save(commit=False), Role(form.cleaned_data["role"])
            membership = service.add_member(garden=garden, user=user, role=role, by=request.user)
        except ValidationError as error:
            form.add_error(None, error)
        else:
            show_link_once(request, membership)
            return redirect("plots:member", slug, membership.pk)
    return form_page(
        request, "plots/member_new.html", form, garden=garden, known=KnownMemberForm(roles=roles)
    )


@require_POST
def member_known(request: HttpRequest, slug: str) -> HttpResponse:
    """Adds a person who already has an account here."""
    garden = access.garden_to_run(request.user, slug, Power.PEOPLE)
    roles = access.roles_to_give(request.user, garden)
    known = KnownMemberForm(request.POST, roles=roles)
    if known.is_valid():
        role = Role(known.cleaned_data["role"])
        try:
            user = known.cleaned_data["account"]
            membership = service.add_member(garden=garden, user=user, role=role, by=request.user)
        except ValidationError as error:
            known.add_error("account", error)
        else:
            return redirect("plots:member", slug, membership.pk)
    context = {"garden": garden, "form": NewMemberForm(roles=roles), "known": known}
    return render(request, "plots/member_new.html", context, status=422)


@never_cache
@page_with_form
def member(request: HttpRequest, slug: str, pk: int) -> HttpResponse:
    """One member: part in the garden (which coordinators change), addresses, and their sign-in link."""
    garden = access.garden_to_run(request.user, slug, None if request.method == "POST" else Power.PEOPLE)
    membership = access.member_to_see(request.user, garden, pk)
    form = RoleForm(typed(request), instance=access.member_to_see(request.user, garden, pk))
    if form.is_bound and form.is_valid():
        given = form.cleaned_data
        try:
            service.change_role(
                membership=membership,
                role=Role(given["role"]),
                powers=given["powers"],
                by=request.user,
                why=given["why"],
            )
        except ValidationError as error:
            form.add_error("role", error)
        else:
            return redirect("plots:member", slug, pk)
    return form_page(request, "plots/member.html", form, **_shown(request, garden, membership))


def _shown(request: HttpRequest, garden: Garden, membership: Membership) -> dict[str, object]:
    """What the page shows of the member besides the form."""
    today = garden.today()
    return {
        "garden": garden,
        "membership": membership,
        "link": request.session.pop(f"link {membership.pk}", None),
        "asked_at": queries.open_requests(garden).get(membership.user_id),
        "held": queries.held_by(membership, today=today),
        "household": queries.housemates_of(membership),
        "contacts": wording.contact_lines(membership, shared=garden.rules.share_contacts),
        "may_run": access.may_run(request.user, garden),
        "may_change": access.may_change_person(request.user, membership),
        "changes": queries.changes_of(garden, membership.user),
        "link_days": garden.rules.link_days,
        "post_works": post.can_send(),
    }


@page_with_form
def member_edit(request: HttpRequest, slug: str, pk: int) -> HttpResponse:
    garden = access.garden_to_run(request.user, slug, Power.PEOPLE)
    membership = access.person_to_change(request.user, garden, pk)
    household = {"household": str(membership.household or "")}
    form = MemberForm(typed(request), instance=User.objects.get(pk=membership.user_id), initial=household)
    if form.is_bound and form.is_valid():
        keep = partial(
            service.change_person,
            membership=membership,
            person=form.instance,
            household=form.cleaned_data["household"],
            by=request.user,
        )
        if saved(form, keep):
            return redirect("plots:member", slug, pk)
    context = {"garden": garden, "membership": membership, "households": garden.households.all()}
    return form_page(request, "plots/member_edit.html", form, **context)


@require_POST
def member_leave(request: HttpRequest, slug: str, pk: int) -> HttpResponse:
    garden = access.garden_to_run(request.user, slug)
    membership = access.member_to_see(request.user, garden, pk)
    try:
        service.remove_member(membership=membership, by=request.user, why=request.POST.get("why", "")[:300])
    except ValidationError as error:
        raise PermissionDenied(error.message) from None
    messages.success(request, _("%(person)s is no longer a member.") % {"person": membership.user})
    return redirect("plots:members", slug)
