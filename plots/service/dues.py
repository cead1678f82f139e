"""Dues: drawn up by the garden's rates, and settled as paid or waived. No proof is asked and none is kept."""

from __future__ import annotations

from datetime import date, timedelta
from decimal import Decimal

from django.core.exceptions import ValidationError
from django.db import transaction
from django.utils.translation import gettext as _

from plots.models import Assignment, Due, DueKind, Season, User
from plots.powers import Power
from plots.queries.dues import rates_of, share_of, whole_dues
from plots.service.history import record, record_fields
from plots.service.undo import put_back, undoable

undoable("due-paid", "due-waived", "due-due", "due-changed", power=Power.MONEY)(put_back)


@transaction.atomic
def draw_up_dues(*, season: Season, by: User | None, today: date) -> int:
    """What each plot held all this season costs, for those not drawn up yet; says how many were.

    Those held for a part of it wait for a person, where the garden's rule asks a part: see `keep_part_due`.
    """
    # Who draws them up at the same moment waits here, and then finds nothing left to do.
    season = Season.objects.select_for_update().select_related("garden").get(pk=season.pk)
    garden = season.garden
    rates = rates_of(garden)
    due_on = max(today, season.starts_on) + timedelta(days=garden.rules.dues_days)
    new = [
        Due(
            garden=garden,
            season=season,
            person=held.holder,
            assignment=held,
            kind=DueKind.PLOT,
            amount=amount,
            due_on=due_on,
        )
        for held in _not_drawn_up(season)
        if share_of(held, season).is_whole and (amount := whole_dues(held, rates))
    ]
    Due.objects.bulk_create(new)
    if new:
        record(garden=garden, by=by, about=season, what="dues-drawn-up", after={"count": len(new)})
    return len(new)


@transaction.atomic
def add_due(*, due: Due, by: User | None) -> Due:
    """One more thing that somebody owes, such as a deposit or a lost key."""
    due.kind = DueKind.OTHER
    due.save()
    owed = {"person": due.person, "amount": due.amount, "due_on": due.due_on}
    record(garden=due.garden, by=by, about=due, what="due-added", after=owed)
    return due


@transaction.atomic
def settle_due(*, due: Due, state: str, on: date, by: User | None) -> Due:
    """Makes it `"paid"`, `"waived"` or `"due"` again; the last may correct either of the others."""
    due = Due.objects.select_for_update().get(pk=due.pk)
    before = {"paid_on": due.paid_on, "waived_on": due.waived_on}
    if due.state != state:
        due.paid_on = on if state == "paid" else None
        due.waived_on = on if state == "waived" else None
        due.save(update_fields=["paid_on", "waived_on"])
        record_fields(garden=due.garden, by=by, about=due, what=f"due-{state}", before=before)
    return due


@transaction.atomic
def keep_part_due(*, assignment: Assignment, amount: Decimal, by: User | None, today: date) -> Due:
    """What a plot held for a part of the season costs, as a person confirmed it; twice changes nothing.

    Raises `ValidationError` where the dues are settled already: money goes back by hand, outside.
    """
    rows = Season.objects.select_for_update(of=("self",)).select_related("garden__rules")
    season = rows.get(pk=assignment.season_id)
    # Who settles them at the same moment is waited for: what is paid keeps its amount.
    due = Due.objects.select_for_update().filter(assignment=assignment, kind=DueKind.PLOT).first()
    if due is None:
        first = max(today, season.starts_on, assignment.began_on)
        due = Due.objects.create(
            garden=season.garden, season=season, person=assignment.holder, assignment=assignment,
            kind=DueKind.PLOT, amount=amount, due_on=first + timedelta(days=season.garden.rules.dues_days),
        )  # fmt: skip
        owed = {"person": due.person, "amount": due.amount, "due_on": due.due_on}
        record(garden=season.garden, by=by, about=due, what="due-added", after=owed)
        return due
    if due.state != "due":
        raise ValidationError(_("These dues are paid or waived already."))
    before = {"amount": due.amount}
    due.amount = amount
    due.save(update_fields=["amount"])
    record_fields(garden=season.garden, by=by, about=due, what="due-changed", before=before)
    return due


def _not_drawn_up(season: Season) -> list[Assignment]:
    drawn_up = Due.objects.filter(season=season, kind=DueKind.PLOT).values("assignment")
    return list(season.assignments.exclude(pk__in=drawn_up).select_related("plot", "holder"))
