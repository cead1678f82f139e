"""The season turn: asking who stays, deciding, and who could have what came free."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

from django.contrib import messages
from django.core.exceptions import ValidationError
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy, ngettext
from django.views.decorators.http import require_POST, require_safe

from plots import access, queries, service
from plots.forms.turn import AnswerForm, RoundForm
from plots.listing import Column, Filter, Listing
from plots.models import Decision, Garden, Renewal, RenewalRound, WishChoice
from plots.powers import Power
from plots.queries import Asked
from plots.renewal import Advice
from plots.views.answers import form_page, list_page, page_with_form, typed
from plots.wording.renewal import advice_text, reason_text


@require_safe
def turn(request: HttpRequest, slug: str) -> HttpResponse:
    """The season turn at a glance, with its next step."""
    garden = access.garden_to_run(request.user, slug, Power.PLOTS)
    round = queries.open_round_of(garden)
    coming = round.season if round else queries.next_season(garden)
    closed = list(queries.closed_rounds(garden))
    asked = round or next((one for one in closed if one.season == coming), None)
    held = queries.held_in(round) if round else []
    context = {
        "garden": garden,
        "season": queries.season_now(garden),
        "next_season": coming,
        "round": round,
        "asked_in": asked,
        "asked": len(held),
        "answered": sum(1 for row in held if row.wish or row.decision),
        "counts": queries.count_by_standing(held),
        "free": queries.free_plots(garden, coming) if asked else [],
        **_papers(garden),
        "may_money": access.may_run(request.user, garden, Power.MONEY),
        "may_people": access.may_run(request.user, garden, Power.PEOPLE),
        "closed": closed,
    }
    return render(request, "plots/turn.html", context)


def _papers(garden: Garden) -> dict[str, object]:
    version = queries.agreement_of(garden)
    signers = queries.signers_of(garden, version) if version else []
    return {
        "version": version,
        "unsigned": sum(1 for signer in signers if signer.signature is None),
        "open_dues": queries.open_dues(garden).count(),
    }


@page_with_form
def round_new(request: HttpRequest, slug: str) -> HttpResponse:
    """Asks everybody who holds a plot."""
    garden = access.garden_to_run(request.user, slug, Power.PLOTS)
    form = RoundForm(garden, typed(request))
    if form.is_bound and form.is_valid():
        try:
            round = service.open_round(round=form.save(commit=False), by=request.user)
        except ValidationError as error:
            form.add_error(None, error)
        else:
            messages.success(request, _("Everybody who holds a plot finds the question under “Your season”."))
            return redirect("plots:round", slug, round.pk)
    return form_page(request, "plots/round_new.html", form, garden=garden)


STANDINGS = [
    (Advice.RENEW, gettext_lazy("proposed: renew")),
    (Advice.FREE, gettext_lazy("proposed: free the plot")),
    (Advice.TALK, gettext_lazy("talk first")),
    (Advice.REMIND, gettext_lazy("no answer in time")),
    (Advice.WAIT, gettext_lazy("no answer yet")),
    (Decision.RENEWED, gettext_lazy("decided: renewed")),
    (Decision.FREED, gettext_lazy("decided: freed")),
]
WORDS = {str(word.value): title for word, title in STANDINGS}
CONTACTS: list[Column[Asked]] = [
    Column("email", gettext_lazy("Email"), lambda row: row.assignment.holder.email, on_page=False),
    Column("phone", gettext_lazy("Telephone"), lambda row: row.assignment.holder.phone, on_page=False),
]
RENEWALS: Listing[Asked] = Listing(
    columns=[
        Column("plot", gettext_lazy("Plot"), lambda row: row.assignment.plot.label),
        Column("holder", gettext_lazy("Held by"), lambda row: row.assignment.holder.name),
        Column(
            "answer",
            gettext_lazy("Answer"),
            lambda row: row.renewal.get_wish_display() if row.renewal else "",
        ),
        Column(
            "answered_on",
            gettext_lazy("Answered on"),
            lambda row: row.renewal and row.renewal.answered_on,
            on_page=False,
        ),
        Column("standing", gettext_lazy("Proposed or decided"), lambda row: str(WORDS[row.standing])),
        Column(
            "why",
            gettext_lazy("Why"),
            lambda row: " ".join(reason_text(reason) for reason in row.advised.reasons),
            on_page=False,
        ),
    ],
    filters=[
        Filter(
            "standing",
            gettext_lazy("Stands at"),
            [(str(word.value), title) for word, title in STANDINGS],
            lambda row, word: row.standing == word,
        )
    ],
    text=lambda row: f"{row.assignment.plot.label} {row.assignment.holder.name}",
)


def round_of(garden: Garden, pk: int) -> RenewalRound:
    return get_object_or_404(
        RenewalRound.objects.select_related("season__garden"), season__garden=garden, pk=pk
    )


@page_with_form
def round(request: HttpRequest, slug: str, pk: int) -> HttpResponse:
    """Everybody who was asked, with the answer, the proposal and its rule; here a person decides."""
    garden = access.garden_to_run(request.user, slug, Power.PLOTS)
    round = round_of(garden, pk)
    if request.method != "POST":
        proposed = request.GET.get("standing", "") in (Advice.RENEW, Advice.FREE)
        return _round_page(request, round, {"all_ticked": proposed})
    wrong, left = _decide_ticked(request, round)
    if not wrong:
        return redirect(request.get_full_path())
    answer = _round_page(request, round, {"wrong": wrong, "left": left, "why": request.POST.get("why", "")})
    answer.status_code = 422
    return answer


def _round_page(request: HttpRequest, round: RenewalRound, ticked: dict[str, object]) -> HttpResponse:
    garden = round.season.garden
    held = queries.held_in(round)
    context = {
        **ticked,
        "undecided": sum(1 for row in held if not row.decision),
        "round": round,
        "today": garden.today(),
        "changes": queries.changes_of(garden, round),
        "may_run": True,
        "words": WORDS,
    }
    listing = RENEWALS
    if access.may_run(request.user, garden, Power.PEOPLE):  # who does not keep the roster gets no addresses
        listing = replace(RENEWALS, columns=[*RENEWALS.columns, *CONTACTS])
    return list_page(request, "plots/round.html", listing, held, garden=garden, **context)


def _decide_ticked(request: HttpRequest, round: RenewalRound) -> tuple[list[str], set[int]]:
    """Renews or frees the ticked plots. Says what cannot be, and which assignments are left as they were."""
    today = round.season.garden.today()
    decision = Decision.RENEWED if request.POST.get("do") == "renew" else Decision.FREED
    ticked = set(request.POST.getlist("plot"))
    rows = [row for row in queries.held_in(round) if str(row.assignment.pk) in ticked]
    wrong = {}
    for row in rows:
        try:
            _decide(round, row, decision, request, today)
        except ValidationError as error:
            wrong[row.assignment.pk] = " ".join(error.messages)
    if done := len(rows) - len(wrong):
        words = ngettext("%(count)s plot is decided.", "%(count)s plots are decided.", done)
        messages.success(request, words % {"count": done})
    return list(wrong.values()) if rows else [_("Tick the plots first.")], set(wrong)


def _decide(round: RenewalRound, row: Asked, decision: Decision, request: HttpRequest, today: date) -> None:
    why = request.POST.get("why", "")[:300]
    proposed = {Decision.RENEWED: Advice.RENEW, Decision.FREED: Advice.FREE}[decision]
    if row.advised.advice != proposed and not why.strip():
        words = {"plot": row.assignment.plot, "proposed": advice_text(row.advised.advice)}
        raise ValidationError(
            _("Plot %(plot)s: the proposal is to %(proposed)s. Say why it is to be otherwise.") % words
        )
    verb = service.renew if decision == Decision.RENEWED else service.free_plot
    verb(round=round, assignment=row.assignment, on=today, by=request.user, why=why)


@page_with_form
def round_answer(request: HttpRequest, slug: str, pk: int, assignment_pk: int) -> HttpResponse:
    """Keeps an answer that came by telephone, on paper or at the gate."""
    garden = access.garden_to_run(request.user, slug, Power.PLOTS)
    round = round_of(garden, pk)
    assignment = get_object_or_404(queries.asked_in(round), pk=assignment_pk)
    form = AnswerForm(typed(request))
    if form.is_bound and form.is_valid():
        answer = {"wish": WishChoice(form.cleaned_data["wish"]), "note": form.cleaned_data["note"]}
        try:
            service.answer_renewal(
                round=round, assignment=assignment, on=garden.today(), by=request.user, **answer
            )
        except ValidationError as error:
            form.add_error(None, error)
        else:
            return redirect("plots:round", slug, pk)
    return form_page(
        request,
        "plots/round_answer.html",
        form,
        garden=garden,
        round=round,
        assignment=assignment,
        may_people=access.may_run(request.user, garden, Power.PEOPLE),
    )


@require_POST
def renewal_undo(request: HttpRequest, slug: str, pk: int, renewal_pk: int) -> HttpResponse:
    garden = access.garden_to_run(request.user, slug, Power.PLOTS)
    renewals = Renewal.objects.select_related(
        "assignment__plot__garden", "assignment__holder", "round__season"
    )
    renewal = get_object_or_404(renewals, round=round_of(garden, pk), pk=renewal_pk)
    try:
        service.undo_decision(renewal=renewal, by=request.user)
    except ValidationError as error:
        messages.error(request, " ".join(error.messages))
    else:
        messages.success(request, _("Plot %(plot)s is undecided again.") % {"plot": renewal.assignment.plot})
    return redirect("plots:round", slug, pk)


@require_POST
def round_close(request: HttpRequest, slug: str, pk: int) -> HttpResponse:
    garden = access.garden_to_run(request.user, slug, Power.PLOTS)
    service.close_round(round=round_of(garden, pk), on=garden.today(), by=request.user)
    messages.success(request, _("The renewals are closed. Nobody lost a plot by that."))
    return redirect("plots:turn", slug)


@require_POST
def round_remind(request: HttpRequest, slug: str, pk: int) -> HttpResponse:
    """Drafts the notice to whoever is silent; whoever gives notices out reads it over and sends it."""
    garden = access.garden_to_run(request.user, slug, Power.PLOTS)
    try:
        draft = service.draft_reminder(round=round_of(garden, pk), by=request.user)
    except ValidationError as error:
        messages.error(request, error.messages[0])
        return redirect("plots:round", slug, pk)
    people = draft.picked.count()
    if access.may_run(request.user, garden, Power.NOTICES):
        words = ngettext(
            "A reminder to %(count)s person is drafted. Read it over, then give it out.",
            "A reminder to %(count)s people is drafted. Read it over, then give it out.",
            people,
        )
        messages.success(request, words % {"count": people})
        return redirect("plots:notice", slug, draft.pk)
    messages.success(request, _("The reminder is drafted. Somebody trusted with notices gives it out."))
    return redirect("plots:round", slug, pk)
