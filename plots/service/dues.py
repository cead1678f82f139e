"""Dues: drawn up by the garden's rates, and settled as paid or waived. No proof is asked and none is kept."""

from __future__ import annotations

from datetime import date, timedelta

from django.db import transaction

from plots.dues import SQUARE_METRES, Rates, plot_dues
from plots.models import Assignment, Due, DueKind, Garden, Season, User
from plots.powers import Power
from plots.service.history import record, record_fields
from plots.service.undo import put_back, undoable

undoable("due-paid", "due-waived", "due-due", power=Power.MONEY)(put_back)


@transaction.atomic
def draw_up_dues(*, season: Season, by: User | None, today: date) -> int:
    """What each plot held this season costs, for those not drawn up yet; says how many were."""
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
        if (amount := plot_dues(rates, area_m2=_area(held)))
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


def rates_of(garden: Garden) -> Rates:
    rules = garden.rules
    return Rates(rules.dues_per_plot, rules.dues_per_area, SQUARE_METRES[rules.dues_area])


def _not_drawn_up(season: Season) -> list[Assignment]:
    drawn_up = Due.objects.filter(season=season, kind=DueKind.PLOT).values("assignment")
    return list(season.assignments.exclude(pk__in=drawn_up).select_related("plot", "holder"))


def _area(held: Assignment) -> float | None:
    width, length = held.plot.width_m, held.plot.length_m
    return width * length if width and length else None
