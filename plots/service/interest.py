"""The yearly question to who waits: asked, answered by link, on paper or by telephone, and closed."""

from __future__ import annotations

from datetime import date

from django.core.exceptions import ValidationError
from django.db import IntegrityError, transaction
from django.utils.translation import gettext as _

from plots.models import Garden, InterestAnswer, InterestRound, LeftWhy, User
from plots.service import post
from plots.service.history import record
from plots.service.offers import leave_list
from plots.service.waiting import name_unless, place_link
from plots.wording.waiting import interest_letter


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


def send_interest(*, round: InterestRound, by: User) -> tuple[int, int]:
    """Emails the question to who has not answered and has an address: how many went out, how many did not."""
    silent = round.answers.filter(still__isnull=True, entry__place__isnull=False).exclude(entry__email="")
    letters = []
    for answer in silent.select_related("entry"):
        letter = interest_letter(round, answer.entry, place_link(answer.entry))
        letters.append(post.Message(answer.pk, answer.entry.email, letter.subject, letter.body))
    sent = sum(went for _pk, went in post.send_all(letters, seconds=20))
    if sent:
        record(garden=round.garden, by=by, about=round, what="interest-sent", after={"count": sent})
    return sent, len(letters) - sent


@transaction.atomic
def answer_interest(*, answer: InterestAnswer, still: bool, by: User | None = None) -> InterestAnswer:
    """Yes keeps the place; no ends it. The last answer counts while the round is open."""
    answer = InterestAnswer.objects.select_related("round", "entry__garden").get(pk=answer.pk)
    if answer.round.closed_on is not None:
        raise ValidationError(_("This question is closed."))
    entry = answer.entry
    if not entry.waits:
        raise ValidationError(_("%(person)s is no longer on the list.") % {"person": entry})
    answer.still, answer.answered_on = still, entry.garden.today()
    answer.save()
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
