"""Members: the list, one member, new ones, and their sign-in links."""

from __future__ import annotations

from django.contrib import messages
from django.core.exceptions import PermissionDenied, ValidationError
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.cache import never_cache
from django.views.decorators.http import require_POST, require_safe

from plots import access, queries, service
from plots.forms.people import KnownMemberForm, MemberForm, NewMemberForm, RoleForm
from plots.models import Role, User
from plots.views.answers import form_page, page_with_form, saved, typed


@require_safe
def members(request: HttpRequest, slug: str) -> HttpResponse:
    """Names for every member; how to reach them for coordinators only."""
    garden = access.garden_to_see(request.user, slug)
    context = {
        "garden": garden,
        "may_run": access.may_run(request.user, garden),
        "members": queries.members_of(garden),
    }
    return render(request, "plots/members.html", context)


@page_with_form
def member_new(request: HttpRequest, slug: str) -> HttpResponse:
    garden = access.garden_to_run(request.user, slug)
    form = NewMemberForm(typed(request))
    if form.is_bound and form.is_valid():
        try:
            membership = service.add_member(
                garden=garden, user=form.save(commit=False), role=Role(form.cleaned_data["role"])
            )
        except ValidationError as error:
            form.add_error(None, error)
        else:
            _show_link_once(request, membership.pk, membership.user)
            return redirect("plots:member", slug, membership.pk)
    return form_page(request, "plots/member_new.html", form, garden=garden, known=KnownMemberForm())


@require_POST
def member_known(request: HttpRequest, slug: str) -> HttpResponse:
    """Adds a person who already has an account here."""
    garden = access.garden_to_run(request.user, slug)
    known = KnownMemberForm(request.POST)
    if known.is_valid():
        role = Role(known.cleaned_data["role"])
        try:
            membership = service.add_member(garden=garden, user=known.cleaned_data["account"], role=role)
        except ValidationError as error:
            known.add_error("account", error)
        else:
            return redirect("plots:member", slug, membership.pk)
    context = {"garden": garden, "form": NewMemberForm(), "known": known}
    return render(request, "plots/member_new.html", context, status=422)


@never_cache
@page_with_form
def member(request: HttpRequest, slug: str, pk: int) -> HttpResponse:
    """One member, for the coordinator: part in the garden, how to reach them, and their sign-in link."""
    garden = access.garden_to_run(request.user, slug)
    membership = access.member_to_see(request.user, garden, pk)
    shown = {"garden": garden, "membership": membership, "form": RoleForm(instance=membership)}
    form = RoleForm(typed(request), instance=access.member_to_see(request.user, garden, pk))
    if form.is_bound and form.is_valid():
        try:
            service.change_role(membership=membership, role=Role(form.cleaned_data["role"]))
        except ValidationError as error:
            form.add_error("role", error)
        else:
            return redirect("plots:member", slug, pk)
    shown |= {"form": form, "link": request.session.pop(f"link {pk}", None)}
    shown["may_change"] = access.may_change_person(request.user, membership)
    return render(request, "plots/member.html", shown, status=422 if form.errors else 200)


@page_with_form
def member_edit(request: HttpRequest, slug: str, pk: int) -> HttpResponse:
    garden = access.garden_to_run(request.user, slug)
    membership = access.person_to_change(request.user, garden, pk)
    form = MemberForm(typed(request), instance=User.objects.get(pk=membership.user_id))
    if form.is_bound and form.is_valid() and saved(form):
        return redirect("plots:member", slug, pk)
    return form_page(request, "plots/member_edit.html", form, garden=garden, membership=membership)


@require_POST
def member_link(request: HttpRequest, slug: str, pk: int) -> HttpResponse:
    garden = access.garden_to_run(request.user, slug)
    membership = access.person_to_change(request.user, garden, pk)
    _show_link_once(request, pk, membership.user)
    return redirect("plots:member", slug, pk)


@require_POST
def member_leave(request: HttpRequest, slug: str, pk: int) -> HttpResponse:
    garden = access.garden_to_run(request.user, slug)
    membership = access.member_to_see(request.user, garden, pk)
    try:
        service.remove_member(membership=membership)
    except ValidationError as error:
        raise PermissionDenied(error.message) from None
    messages.success(request, _("%(person)s is no longer a member.") % {"person": membership.user})
    return redirect("plots:members", slug)


def _show_link_once(request: HttpRequest, pk: int, user: User) -> None:
    # Kept in the coordinator's session until the next page shows it, so that reloading makes no second link.
    request.session[f"link {pk}"] = service.make_link(user=user)
