"""The yearly question to who waits: asked, answered by link, on paper or by telephone, and closed."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import date

from django.core.exceptions import ValidationError
from django.db import IntegrityError, transaction
from django.utils import timezone
from django.utils.translation import gettext as _

from plots import queries
from plots.models import Garden, InterestAnswer, InterestRound, LeftWhy, User
from plots.service import post
from plots.service.history import record
from plots.service.offers import leave_list
from plots.service.waiting import name_unless, place_link
from plots.wording.waiting import interest_letter

# A request may take this long; what is left then waits for the button to be pressed again.
SENDING_SECONDS = 15.0


def ask_interest(*, garden: Garden, answer_by: date, by: User) -> InterestRound:
    """Asks everybody who waits, as of today."""
    if answer_by < garden.today():
        raise ValidationError({"answer_by": _("The last day to answer cannot lie in the past.")})
    try:
        with transaction.atomic():
            round = InterestRound.objects.create(garden=garden, asked_on=garden.today(), answer_by=answer_by)
            InterestAnswer.objects.bulk_create(
                InterestAnswer(round=round, entry=entry)
                for entry in garden.waiting.filter(place__isnull=False)
            )
            asked = {"answer_by": answer_by, "count": round.answers.count()}
            record(garden=garden, by=by, about=round, what="interest-asked", after=asked)
            return round
    except IntegrityError:
        raise ValidationError(_("The question is being asked already.")) from None


def send_interest(*, round: InterestRound, by: User, reminder: bool = False) -> tuple[int, int]:
    """Emails the question, or a reminder of it: how many letters went out, and how many did not.

    Outside a transaction: each is marked before it goes, so that pressing twice at once sends nothing twice.
    """
    due = {answer.pk: answer for answer in queries.to_be_emailed(round, reminder=reminder)}
    sent = 0
    for pk, went in post.send_all(_claimed(round, due.values()), seconds=SENDING_SECONDS):
        sent += went
        if not went:
            InterestAnswer.objects.filter(pk=pk).update(emailed_at=due[pk].emailed_at)
    if sent:
        record(garden=round.garden, by=by, about=round, what="interest-sent", after={"count": sent})
    return sent, len(due) - sent


def _claimed(round: InterestRound, answers: Iterable[InterestAnswer]) -> Iterator[post.Message[int]]:
    for answer in answers:
        unclaimed = InterestAnswer.objects.filter(
            pk=answer.pk, emailed_at=answer.emailed_at, still__isnull=True
        )
        if unclaimed.update(emailed_at=timezone.now()):
            entry = answer.entry
            letter = interest_letter(round, entry, place_link(entry, emailed=True))
            yield post.Message(answer.pk, entry.email, letter.subject, letter.body)


@transaction.atomic
def answer_interest(*, answer: InterestAnswer, still: bool, by: User | None = None) -> InterestAnswer:
    """Yes keeps the place; no ends it. The last answer counts while the round is open."""
    # Whoever closes the round at the same moment waits, or is waited for: nobody who said yes is dropped.
    InterestRound.objects.select_for_update().get(pk=answer.round_id)
    answer = InterestAnswer.objects.select_related("round", "entry__garden").get(pk=answer.pk)
    if answer.round.closed_on is not None:
        raise ValidationError(_("This question is closed."))
    entry = answer.entry
    if not entry.waits:
        raise ValidationError(_("%(person)s is no longer on the list.") % {"person": entry})
    answer.still, answer.answered_on = still, entry.garden.today()
    answer.save(update_fields=["still", "answered_on"])
    record(
        garden=entry.garden, by=by, by_name=name_unless(by, entry), about=entry, what="interest-answered",
        after={"still": still},
    )  # fmt: skip
    if not still:
        leave_list(entry=entry, why=LeftWhy.CANCELLED, by=by)
    return answer


@transaction.atomic
def close_interest(*, round: InterestRound, dropped: set[int], by: User) -> int:
    """Closes the round and ends the places of those silent people whom the person ticked."""
    if not InterestRound.objects.filter(pk=round.pk, closed_on__isnull=True).update(
        closed_on=round.garden.today()
    ):
        raise ValidationError(_("This question is closed."))
    silent = round.answers.filter(still__isnull=True, entry__place__isnull=False, entry__pk__in=dropped)
    answers = list(silent.select_related("entry__garden"))
    if answers and round.garden.today() <= round.answer_by:
        raise ValidationError(_("There is still time to answer. Nobody loses a place before that."))
    for answer in answers:
        leave_list(entry=answer.entry, why=LeftWhy.SILENT, by=by)
    record(garden=round.garden, by=by, about=round, what="interest-closed", after={"count": len(answers)})
    return len(answers)
