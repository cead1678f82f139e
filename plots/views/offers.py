"""Offers, for whoever looks after the list: making one, and what is done with it."""

from __future__ import annotations

from functools import partial
from urllib.parse import quote

from django.contrib import messages
from django.core.exceptions import ValidationError
from django.forms import BaseForm
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect
from django.utils import timezone
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy
from django.views.decorators.cache import never_cache
from django.views.decorators.http import require_POST, require_safe

from plots import access, queries, service
from plots.forms.waiting import ExtendForm, OfferForm, ReasonForm
from plots.models import Garden, Offer, ToldHow
from plots.powers import Power
from plots.service import post
from plots.views.answers import form_page, page_with_form, typed
from plots.wording import waiting as words

# What a person did to tell them, beside the email that goes out from here.
TELL = {
    ToldHow.PHONE: gettext_lazy("Told them by telephone"),
    ToldHow.PERSON: gettext_lazy("Told them in person"),
    ToldHow.POST: gettext_lazy("Posted the letter"),
    ToldHow.EMAIL: gettext_lazy("Wrote an email"),
}


def _chosen(request: HttpRequest, garden: Garden) -> tuple[queries.WaitingList, queries.Stand | None]:
    """The list now and the plot that `?plot=&season=` names, if it is free in that season."""
    plot, season = request.GET.get("plot", ""), request.GET.get("season", "")
    list_now = queries.waiting_list(garden)
    if not (plot.isdecimal() and len(plot) < 19):
        return list_now, None
    known = season.isdecimal() and len(season) < 19
    wanted = garden.seasons.filter(pk=season).first() if known else queries.season_now(garden)
    found = queries.stands(list_now, wanted) if wanted else []
    return list_now, next((one for one in found if one.plot.pk == int(plot)), None)


@page_with_form
def offer_new(request: HttpRequest, slug: str) -> HttpResponse:
    """Who is next for a plot and why; the offer goes to them, or with a reason to somebody else."""
    garden = access.garden_to_run(request.user, slug, Power.WAITING)
    list_now, stand = _chosen(request, garden)
    if stand is None:
        messages.error(request, _("This plot is not free. Choose one that is."))
        return redirect("plots:waiting", slug)
    first_day = max(queries.free_from(stand.plot, garden.today()) or garden.today(), stand.season.starts_on)
    given = {"may_send": post.can_send(), "initial": {"begins_on": first_day}}
    form = OfferForm(garden, list_now.rows, stand, typed(request), **given)
    if form.is_bound and form.is_valid() and (offer := _made(request, garden, stand, form)):
        messages.success(request, _("The offer is made."))
        if form.cleaned_data.get("send") and offer.entry.email:
            _send(request, offer)
        return redirect("plots:offer", slug, offer.pk)
    return form_page(request, "plots/offer_new.html", form, garden=garden, **_passed_over(list_now, stand))


def _passed_over(list_now: queries.WaitingList, stand: queries.Stand) -> dict[str, object]:
    """How it stands with the plot, and who is ahead of the next in line and why it is not their turn."""
    proposal = stand.situation.proposal
    names = {row.entry.pk: row.entry.name for row in list_now.rows}
    passed = words.passed_texts(proposal.passed) if proposal else []
    first = list_now.in_turn(stand.situation.plot)
    return {
        "first": first if first != stand.next_row else None,
        "stand": stand,
        "passed": [(one, names[one.entry_pk]) for one in passed],
        "text": words.stand_text(stand.situation, list_now.garden),
    }


def _made(request: HttpRequest, garden: Garden, stand: queries.Stand, form: OfferForm) -> Offer | None:
    said = form.cleaned_data
    try:
        return service.make_offer(
            entry=garden.waiting.get(pk=said["entry"]),
            plot=stand.plot,
            season=stand.season,
            begins_on=said["begins_on"],
            ends_at=said["ends_at"],
            by=request.user,
            why=said["why"],
        )
    except ValidationError as error:
        form.add_error(None, error)
        return None


def _offer(request: HttpRequest, slug: str, pk: int) -> tuple[Garden, Offer]:
    garden = access.garden_to_run(request.user, slug, Power.WAITING)
    rows = Offer.objects.select_related("entry__garden", "plot__garden", "season", "next_in_line", "made_by")
    return garden, get_object_or_404(rows, plot__garden=garden, pk=pk)


@never_cache
@require_safe
def offer(request: HttpRequest, slug: str, pk: int) -> HttpResponse:
    """The offer: how it stands, its letter to send, print or read out, and the answer taken for them."""
    garden, offer = _offer(request, slug, pk)
    return _offer_page(request, garden, offer)


def _offer_page(
    request: HttpRequest, garden: Garden, offer: Offer, form: BaseForm | None = None
) -> HttpResponse:
    open_now = offer.is_open_at(timezone.now())
    context = {
        **_to_tell(offer),
        "offer": offer,
        "open": open_now,
        "ran_out": offer.place_id is not None and not open_now,
        "ends": words.moment_text(offer.ends_at, garden),
        "can_send": open_now and post.can_send() and offer.entry.email,
        "account": _account(garden, offer),
        "after_silence": garden.rules.get_after_silence_display(),
        "after_decline": garden.rules.get_after_decline_display(),
        "extend": form if isinstance(form, ExtendForm) else ExtendForm(offer),
    }
    reason = form if form is not None and not isinstance(form, ExtendForm) else ReasonForm()
    status = 422 if form is not None else 200
    response = form_page(request, "plots/offer.html", reason, garden=garden, **context)
    response.status_code = status
    return response


def _to_tell(offer: Offer) -> dict[str, object]:
    """The words and the link to hand over, the same for one's own mail, and what one did to tell them."""
    link = service.place_link(offer.entry)
    mail = words.offer_letter(offer, service.place_link(offer.entry, emailed=True))
    return {
        "link": link,
        "letter": words.offer_letter(offer, link),
        "mail": f"mailto:{offer.entry.email}?subject={quote(mail.subject)}&body={quote(mail.body)}",
        "tell": list(TELL.items()),
    }


def _account(garden: Garden, offer: Offer) -> str:
    """Whose account has the person's email address, in words; empty where nobody's has."""
    account = queries.account_of(offer.entry)
    if account is None:
        return ""
    here = garden.memberships.filter(user=account).exists()
    return account.name if here else _("somebody of another garden")


@require_POST
def offer_answer(request: HttpRequest, slug: str, pk: int) -> HttpResponse:
    """What the person said by telephone, on paper or at the gate."""
    garden, offer = _offer(request, slug, pk)
    same = {"yes": True, "no": False}.get(request.POST.get("same", ""))
    verbs = {
        "yes": partial(service.accept_offer, is_account=same),
        "no": service.decline_offer,
        "silence": service.settle_offer,
    }
    verb = verbs.get(request.POST.get("answer", ""))
    if verb is None:
        return redirect("plots:offer", slug, pk)
    try:
        offer = verb(offer=offer, by=request.user)
    except ValidationError as error:
        form = ReasonForm({"reason": "-"})
        form.add_error(None, error)
        return _offer_page(request, garden, offer, form)
    kept = {"person": offer.entry, "answer": offer.get_answer_display()}
    messages.success(request, _("%(person)s: %(answer)s.") % kept)
    return redirect("plots:offer", slug, pk)


@require_POST
def offer_send(request: HttpRequest, slug: str, pk: int) -> HttpResponse:
    _garden, offer = _offer(request, slug, pk)
    _send(request, offer)
    return redirect("plots:offer", slug, pk)


def _send(request: HttpRequest, offer: Offer) -> None:
    """Emails the offer, and says whether it went out."""
    words = {"person": offer.entry}
    if service.send_offer(offer=offer, by=request.user):
        messages.success(request, _("The offer went to %(person)s by email.") % words)
    else:
        messages.error(request, _("No email went out. Call, print or copy the words instead."))


@require_POST
def offer_told(request: HttpRequest, slug: str, pk: int) -> HttpResponse:
    """That somebody told them of the offer otherwise than by our email."""
    _garden, offer = _offer(request, slug, pk)
    how = request.POST.get("how", "")
    if how in TELL:
        try:
            service.tell_offer(offer=offer, how=ToldHow(how), by=request.user)
        except ValidationError as error:
            messages.error(request, error.messages[0])
        else:
            messages.success(request, _("Kept: %(person)s knows of it.") % {"person": offer.entry})
    return redirect("plots:offer", slug, pk)


@require_POST
def offer_extend(request: HttpRequest, slug: str, pk: int) -> HttpResponse:
    garden, offer = _offer(request, slug, pk)
    form = ExtendForm(offer, request.POST)
    if form.is_valid():
        try:
            service.extend_offer(offer=offer, ends_at=form.cleaned_data["ends_at"], by=request.user)
        except ValidationError as error:
            form.add_error(None, error)
        else:
            messages.success(request, _("There is more time to answer."))
            return redirect("plots:offer", slug, pk)
    return _offer_page(request, garden, offer, form)


@require_POST
def offer_withdraw(request: HttpRequest, slug: str, pk: int) -> HttpResponse:
    garden, offer = _offer(request, slug, pk)
    form = ReasonForm(request.POST)
    if not form.is_valid():
        return _offer_page(request, garden, offer, form)
    service.withdraw_offer(offer=offer, by=request.user, why=form.cleaned_data["reason"])
    messages.success(request, _("The offer is taken back. The place stays where it was."))
    return redirect("plots:offer", slug, pk)
