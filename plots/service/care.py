"""Care rounds, pauses and private matters; every step is one that a person took."""

from __future__ import annotations

from datetime import date, timedelta

from django.core.exceptions import ValidationError
from django.db import IntegrityError, transaction
from django.utils import timezone
from django.utils.translation import gettext as _

from plots.care import rubric_lines
from plots.models import (
    Assignment,
    CareRound,
    Finding,
    Garden,
    Matter,
    MatterStep,
    Outcome,
    Pause,
    PauseWhy,
    Plot,
    StepKind,
    User,
)
from plots.service.history import fields_of, record, record_fields


@transaction.atomic
def begin_round(*, garden: Garden, on: date, by: User) -> CareRound:
    """The round of this day: a new one, or the one that somebody has begun already."""
    return CareRound.objects.get_or_create(garden=garden, day=on, defaults={"made_by": by})[0]


@transaction.atomic
def keep_finding(*, round: CareRound, plot: Plot, line: int, note: str, by: User) -> Finding:
    """Keeps how a plot was found, in the words of the rubric of today; found twice on a day, once kept."""
    lines = rubric_lines(round.garden.rules.rubric)
    if not 1 <= line <= len(lines):
        raise ValidationError(_("The rubric has changed. Please choose again."))
    found = Finding.objects.select_for_update().filter(round=round, plot=plot).first()
    if found is None:
        kept = {"line": line, "words": lines[line - 1][:200], "note": note, "made_by": by}
        return Finding.objects.create(round=round, plot=plot, **kept)
    before = fields_of(found, ["words", "note"])
    found.line, found.words, found.note, found.made_by = line, lines[line - 1][:200], note, by
    found.save()
    record_fields(garden=round.garden, by=by, about=found, what="finding-changed", before=before)
    return found


@transaction.atomic
def pause(*, assignment: Assignment, why: PauseWhy, until: date | None, on: date, by: User) -> Pause:
    """Nobody expects the people of this plot until that day; `None` is until somebody ends the pause."""
    garden = Garden.objects.select_for_update().get(pk=assignment.plot.garden_id)
    if until is not None and until < on:
        raise ValidationError(_("This day is over."))
    running = [one for one in assignment.pauses.all() if one.covers(on)]
    if running:
        raise ValidationError(_("There is a pause already. End it first."))
    made = Pause.objects.create(assignment=assignment, why=why, from_on=on, until_on=until, made_by=by)
    record(garden=garden, by=by, about=made, what="pause-made", after={"from_on": on, "until_on": until})
    return made


@transaction.atomic
def end_pause(*, pause: Pause, on: date, by: User) -> None:
    """The pause has its last day yesterday; one that began today is as if it never was."""
    current = Pause.objects.select_for_update().get(pk=pause.pk)
    if not current.covers(on):
        return
    garden, before = current.assignment.plot.garden, fields_of(current, ["until_on"])
    if current.from_on == on:
        record(garden=garden, by=by, about=current, what="pause-ended", before={"from_on": on})
        current.delete()
        return
    current.until_on = on - timedelta(days=1)
    current.save(update_fields=["until_on"])
    record_fields(garden=garden, by=by, about=current, what="pause-ended", before=before)


def open_matter(*, assignment: Assignment, finding: Finding | None, on: date, by: User) -> Matter:
    """Opens a matter with the people of a plot; one that is open already goes on."""
    found = Matter.objects.filter(assignment=assignment, closed_on=None).first()
    if found is not None:
        return found
    try:
        with transaction.atomic():
            made = Matter.objects.create(assignment=assignment, finding=finding, opened_on=on, opened_by=by)
            record(garden=assignment.plot.garden, by=by, about=made, what="matter-opened")
    except IntegrityError:  # somebody opened it in this very moment
        return Matter.objects.get(assignment=assignment, closed_on=None)
    return made


@transaction.atomic
def take_step(*, step: MatterStep, by: User, outcome: Outcome | None = None) -> MatterStep:
    """Adds a step to an open matter; the last one, an outcome, closes it."""
    matter = Matter.objects.select_for_update().get(pk=step.matter_id)
    if matter.closed_on is not None:
        raise ValidationError(_("This matter is closed. Take the last step back to open it again."))
    if (step.kind == StepKind.OUTCOME) != (outcome is not None):
        raise ValidationError(_("Say how the matter ended."))
    step.matter, step.made_by = matter, by
    step.save()
    if outcome is not None:
        matter.closed_on, matter.outcome = step.day, outcome
        matter.save(update_fields=["closed_on", "outcome"])
    record(
        garden=matter.assignment.plot.garden, by=by, about=matter, what="matter-step",
        after={"step": str(step.get_kind_display()), "due_on": step.due_on},
    )  # fmt: skip
    return step


@transaction.atomic
def take_step_back(*, step: MatterStep, by: User) -> None:
    """Marks the last standing step as taken in error; an outcome taken back opens the matter again."""
    matter = Matter.objects.select_for_update().get(pk=step.matter_id)
    last = matter.steps.filter(taken_back_at=None).last()
    if last is None or last.pk != step.pk:
        raise ValidationError(_("Only the last step can be taken back."))
    if step.kind == StepKind.OUTCOME:
        others = Matter.objects.filter(assignment=matter.assignment_id, closed_on=None)
        if others.exists():
            raise ValidationError(_("There is an open matter already."))
        matter.closed_on, matter.outcome = None, ""
        matter.save(update_fields=["closed_on", "outcome"])
    last.taken_back_by, last.taken_back_at = by, timezone.now()
    last.save(update_fields=["taken_back_by", "taken_back_at"])
    record(
        garden=matter.assignment.plot.garden, by=by, about=matter, what="matter-step-back",
        before={"step": str(last.get_kind_display())},
    )  # fmt: skip
