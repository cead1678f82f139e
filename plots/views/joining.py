"""The waiting list for who waits: the public form, and each person's own page, reached by its link."""

from __future__ import annotations

from functools import partial

from django.contrib import messages
from django.contrib.auth.decorators import login_not_required
from django.core.exceptions import ValidationError
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.cache import never_cache
from django.views.decorators.http import require_POST, require_safe

from plots import access, queries, service
from plots.forms.waiting import JoinForm
from plots.models import InterestAnswer, LeftWhy, Offer, WaitingEntry
from plots.views.answers import form_page, page_with_form, typed
from plots.wording import waiting as words


@login_not_required
@never_cache
@page_with_form
def join(request: HttpRequest, slug: str) -> HttpResponse:
    """Signing up; for anybody where the garden says so, for its members always."""
    garden, member = access.garden_to_join(request.user, slug)
    own = member and garden.waiting.filter(member=member, place__isnull=False).first()
    if own:
        return redirect(service.place_path(own))
    about = {"name": member.name, "email": member.email, "phone": member.phone} if member else {}
    form = JoinForm(garden, typed(request), initial=about)
    if form.is_bound and form.is_valid():
        if not service.count_attempt(request=request, account=f"join {slug}"):
            form.add_error(None, _("Too many people signed up from here. Try again in a quarter of an hour."))
        else:
            entry = form.save(commit=False)
            entry.member = member
            try:
                service.join_list(entry=entry, choices=form.chosen(), by=member)
            except ValidationError as error:
                form.add_error(None, error)
            else:
                return redirect(service.place_path(entry))
    return form_page(request, "plots/join.html", form, waiting_at=garden)


@require_safe
def waiting_own(request: HttpRequest, slug: str) -> HttpResponse:
    """A member's own place, or the form to ask for one."""
    garden = access.garden_to_see(request.user, slug)
    entry = garden.waiting.filter(member=request.user, place__isnull=False).first()
    return redirect(service.place_path(entry)) if entry else redirect("plots:join", slug)


def _entry(token: str) -> WaitingEntry:
    entry = service.entry_of_token(token)
    if entry is None:
        raise Http404
    return entry


@login_not_required
@never_cache
@require_safe
def place(request: HttpRequest, token: str) -> HttpResponse:
    """Opening the link only shows: the place and why, an offer, a question. Buttons decide."""
    return _place_page(request, _entry(token), token)


def _place_page(request: HttpRequest, entry: WaitingEntry, token: str, error: str = "") -> HttpResponse:
    garden = entry.garden
    list_now = queries.waiting_list(garden)
    row = next((row for row in queries.marked_rows(list_now) if row.entry.pk == entry.pk), None)
    offer = entry.offers.select_related("plot", "season").first()
    question = InterestAnswer.objects.filter(entry=entry, round__closed_on__isnull=True)
    context = {
        "entry": entry,
        "token": token,
        "row": row,
        "error": error,
        "waiting_at": garden,
        "place": words.place_text(row.place) if row and row.place else "",
        "ahead": words.ahead_text(list_now.ahead_of(row)) if row else [],
        "waiters": len(list_now.places),
        "offer": offer,
        "open": offer is not None and offer.is_open_at(list_now.now),
        "ends": words.moment_text(offer.ends_at, garden) if offer else "",
        "after_decline": words.after_text(garden.rules.after_decline),
        "after_silence": words.after_text(garden.rules.after_silence),
        "question": question.select_related("round").first(),
    }
    with timezone.override(garden.zone):
        return render(request, "plots/place.html", context, status=422 if error else 200)


@login_not_required
@never_cache
@require_POST
def place_offer(request: HttpRequest, token: str, pk: int) -> HttpResponse:
    """The person's own yes or no to an offer."""
    entry = _entry(token)
    offer = get_object_or_404(Offer.objects.select_related("plot__garden"), entry=entry, pk=pk)
    is_account = _is_account(request, entry, token)
    verbs = {"yes": partial(service.accept_offer, is_account=is_account), "no": service.decline_offer}
    verb = verbs.get(request.POST.get("answer", ""))
    if verb is not None:
        try:
            verb(offer=offer)
        except ValidationError as error:
            return _place_page(request, _entry(token), token, error.messages[0])
        messages.success(request, _("Thank you. The garden knows your answer."))
    return redirect("plots:place", token)


def _is_account(request: HttpRequest, entry: WaitingEntry, token: str) -> bool | None:
    """Whether who answers owns the account with their email address; `None` where nothing proves it."""
    account = queries.account_of(entry)
    proved = service.proves_email(token=token, entry=entry) or request.user == account
    return True if account is not None and proved else None


@login_not_required
@never_cache
@require_POST
def place_interest(request: HttpRequest, token: str, pk: int) -> HttpResponse:
    entry = _entry(token)
    answer = get_object_or_404(InterestAnswer, entry=entry, pk=pk)
    still = request.POST.get("still")
    if still in ("yes", "no"):
        try:
            service.answer_interest(answer=answer, still=still == "yes")
        except ValidationError as error:
            return _place_page(request, entry, token, error.messages[0])
        messages.success(request, _("Thank you. The garden knows your answer."))
    return redirect("plots:place", token)


@login_not_required
@never_cache
@require_POST
def place_leave(request: HttpRequest, token: str) -> HttpResponse:
    service.leave_list(entry=_entry(token), why=LeftWhy.CANCELLED, by=None)
    return redirect("plots:place", token)
