"""The yearly question to who waits, for whoever looks after the list."""

from __future__ import annotations

from django.contrib import messages
from django.core.exceptions import ValidationError
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy, ngettext
from django.views.decorators.cache import never_cache
from django.views.decorators.http import require_POST, require_safe

from plots import access, queries, service
from plots.forms.waiting import InterestForm
from plots.listing import Column, Filter, Listing
from plots.models import InterestAnswer, InterestRound, WaitingEntry
from plots.powers import Power
from plots.service import post
from plots.views.answers import form_page, list_page, page_with_form, typed
from plots.wording.waiting import Letter, interest_letter

ANSWERS = [
    ("silent", gettext_lazy("no answer yet")),
    ("yes", gettext_lazy("still interested")),
    ("no", gettext_lazy("no longer")),
]


WAYS = [
    ("email", gettext_lazy("email")),
    ("phone", gettext_lazy("telephone")),
    ("post", gettext_lazy("post")),
    ("none", gettext_lazy("cannot be reached")),
]


def _way(answer: InterestAnswer) -> str:
    """How the question reaches somebody: what they have, the quickest first."""
    entry = answer.entry
    return "email" if entry.email else "phone" if entry.phone else "post" if entry.address else "none"


def _word(answer: InterestAnswer) -> str:
    return "silent" if answer.still is None else "yes" if answer.still else "no"


ASKED: Listing[InterestAnswer] = Listing(
    columns=[
        Column("name", gettext_lazy("Name"), lambda answer: answer.entry.name),
        Column("phone", gettext_lazy("Telephone"), lambda answer: answer.entry.phone),
        Column("email", gettext_lazy("Email"), lambda answer: answer.entry.email, on_page=False),
        Column("address", gettext_lazy("Postal address"), lambda a: a.entry.address, on_page=False),
        Column("answer", gettext_lazy("Answer"), lambda answer: str(dict(ANSWERS)[_word(answer)])),
        Column("link", gettext_lazy("Link"), lambda a: service.place_link(a.entry), on_page=False),
    ],
    filters=[
        Filter("answer", gettext_lazy("Answer"), ANSWERS, lambda answer, word: _word(answer) == word),
        Filter("reach", gettext_lazy("Reached by"), WAYS, lambda answer, word: _way(answer) == word),
    ],
    text=lambda answer: f"{answer.entry.name} {answer.entry.phone} {answer.entry.email}",
)


@page_with_form
def interest_new(request: HttpRequest, slug: str) -> HttpResponse:
    garden = access.garden_to_run(request.user, slug, Power.WAITING)
    form = InterestForm(garden, typed(request))
    if form.is_bound and form.is_valid():
        try:
            round = service.ask_interest(
                garden=garden, answer_by=form.cleaned_data["answer_by"], by=request.user
            )
        except ValidationError as error:
            form.add_error(None, error)
        else:
            return redirect("plots:interest", slug, round.pk)
    count = garden.waiting.filter(place__isnull=False).count()
    rounds = garden.interest_rounds.all()
    return form_page(request, "plots/interest_new.html", form, garden=garden, count=count, rounds=rounds)


@never_cache
@require_safe
def interest(request: HttpRequest, slug: str, pk: int) -> HttpResponse:
    """Who was asked and what they said; who is silent stays until a person ticks them."""
    garden = access.garden_to_run(request.user, slug, Power.WAITING)
    round = get_object_or_404(garden.interest_rounds.select_related("garden"), pk=pk)
    rows = queries.asked_in_interest(round)
    silent = [row.entry for row in rows if row.still is None and row.entry.waits]
    if "letters" in request.GET:
        paper = {"round": round, "paper": _on_paper(round, silent)}
        return render(request, "plots/interest_letters.html", {"garden": garden, **paper})
    context = {
        "round": round,
        "counts": {word: sum(_word(row) == word for row in rows) for word, _title in ANSWERS},
        "silent": silent,
        **_to_email(round),
        "over": garden.today() > round.answer_by,
        "letter": interest_letter(round, silent[0], service.place_link(silent[0])) if silent else None,
    }
    return list_page(request, "plots/interest.html", ASKED, rows, garden=garden, **context)


def _to_email(round: InterestRound) -> dict[str, int]:
    """How many wait for the email, and how many for a reminder; none where nothing can be sent."""
    if not post.can_send() or round.closed_on is not None:
        return {}
    return {
        "unwritten": len(queries.to_be_emailed(round)),
        "to_remind": len(queries.to_be_emailed(round, reminder=True)),
    }


def _on_paper(round: InterestRound, silent: list[WaitingEntry]) -> list[tuple[Letter, str, WaitingEntry]]:
    """Letters to print for those whom no email reaches, each with its own link."""
    if round.closed_on is not None:
        return []
    rows = [(service.place_link(entry), entry) for entry in silent if not entry.email]
    return [(interest_letter(round, entry, link), link, entry) for link, entry in rows]


@require_POST
def interest_answer(request: HttpRequest, slug: str, pk: int, answer_pk: int) -> HttpResponse:
    """What somebody said by telephone, on paper or at the gate."""
    garden = access.garden_to_run(request.user, slug, Power.WAITING)
    answers = InterestAnswer.objects.filter(round__garden=garden, round=pk)
    answer = get_object_or_404(answers, pk=answer_pk)
    still = request.POST.get("still")
    if still in ("yes", "no"):
        try:
            service.answer_interest(answer=answer, still=still == "yes", by=request.user)
        except ValidationError as error:
            messages.error(request, error.messages[0])
    return redirect("plots:interest", slug, pk)


@require_POST
def interest_send(request: HttpRequest, slug: str, pk: int) -> HttpResponse:
    """Emails the question to the silent ones who have an address."""
    garden = access.garden_to_run(request.user, slug, Power.WAITING)
    round = get_object_or_404(garden.interest_rounds.filter(closed_on=None).select_related("garden"), pk=pk)
    reminder = request.POST.get("who") == "silent"
    sent, failed = service.send_interest(round=round, by=request.user, reminder=reminder)
    said = ngettext("%(n)d email went out.", "%(n)d emails went out.", sent) % {"n": sent}
    messages.success(request, said)
    if failed:
        said = ngettext(
            "%(n)d did not. Press again, or call them.", "%(n)d did not. Press again, or call them.", failed
        ) % {"n": failed}
        messages.error(request, said)
    return redirect("plots:interest", slug, pk)


@require_POST
def interest_close(request: HttpRequest, slug: str, pk: int) -> HttpResponse:
    garden = access.garden_to_run(request.user, slug, Power.WAITING)
    round = get_object_or_404(garden.interest_rounds.select_related("garden"), pk=pk)
    dropped = {int(word) for word in request.POST.getlist("drop") if word.isdecimal() and len(word) < 19}
    try:
        count = service.close_interest(round=round, dropped=dropped, by=request.user)
    except ValidationError as error:
        messages.error(request, error.messages[0])
        return redirect("plots:interest", slug, pk)
    said = ngettext("%(n)d place ended.", "%(n)d places ended.", count) % {"n": count}
    messages.success(request, _("The question is closed. %(said)s") % {"said": said})
    return redirect("plots:waiting", slug)
