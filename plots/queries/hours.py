"""Hours of work: where everybody stands in a season, and what was done."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from django.db.models import Q, QuerySet

from plots.hours import HOUR, HoursRule, OwedBy, Standing, State, Tenure, Worked, standings
from plots.models import Assignment, Garden, HoursDone, Membership, Plot, Season, User
from plots.month_days import within
from plots.spelling import natural_key


@dataclass(frozen=True)
class HoursRow:
    """One standing with the people and plots that it is about."""

    standing: Standing
    state: State
    people: list[User]
    plots: list[Plot]


def hours_rule(season: Season) -> HoursRule:
    """What the garden's rules ask for in this season."""
    rules = season.garden.rules
    return HoursRule(
        minutes=round(rules.hours_owed * HOUR),
        by=OwedBy(rules.hours_owed_by),
        prorata=rules.hours_prorata,
        step=rules.hours_step,
        first=season.starts_on,
        last=season.ends_on,
        due=within(rules.hours_due, season.starts_on, season.ends_on) or season.ends_on,
    )


def season_hours(season: Season, *, today: date) -> list[HoursRow]:
    """Everybody who owes hours in the season or did some, by the label of their first plot."""
    held = list(
        Assignment.objects.filter(season=season)
        .select_related("plot")
        .prefetch_related("co_gardeners")
        .order_by("began_on", "pk")
    )
    found = _standings(season, held, today)
    people = User.objects.in_bulk({person for one in found for person in one.people})
    by_key = {assignment.pk: assignment for assignment in held}
    rows = [_row(one, people, by_key, today) for one in found]
    return sorted(rows, key=_order)


def hours_left(season: Season, *, today: date) -> dict[int, int]:
    """Minutes still owed, by the assignments of the season."""
    held = Assignment.objects.filter(season=season).prefetch_related("co_gardeners")
    left: dict[int, int] = {}
    for one in _standings(season, held, today):
        for key in one.tenures:
            left[key] = max(left.get(key, 0), one.left)
    return left


def _standings(season: Season, held: Iterable[Assignment], today: date) -> list[Standing]:
    tenures = [
        Tenure(
            key=assignment.pk,
            plot=assignment.plot_id,
            people=(
                assignment.holder_id,
                *sorted(person.pk for person in assignment.co_gardeners.all()),
            ),
            began=assignment.began_on,
            until=assignment.ended_on,
        )
        for assignment in held
    ]
    done = HoursDone.objects.filter(
        garden=season.garden_id, removed_at=None, person__isnull=False,
        day__range=(season.starts_on, season.ends_on),
    ).values_list("person", "minutes", "day")  # fmt: skip
    excused = dict(season.hours_excused.values_list("person", "minutes"))
    grouped = Membership.objects.filter(garden=season.garden_id, household__isnull=False)
    return standings(
        hours_rule(season),
        tenures,
        [Worked(*row) for row in done],
        excused,
        today=today,
        households=dict(grouped.values_list("user", "household")),
    )


def _row(one: Standing, people: dict[int, User], held: dict[int, Assignment], today: date) -> HoursRow:
    plots = {held[key].plot_id: held[key].plot for key in one.tenures}
    return HoursRow(
        standing=one,
        state=one.state(today),
        people=[people[person] for person in one.people],
        plots=sorted(plots.values(), key=lambda plot: natural_key(plot.label)),
    )


def _order(row: HoursRow) -> tuple[object, ...]:
    """By plot, those without one last by name."""
    first = natural_key(row.plots[0].label) if row.plots else ()
    return (not row.plots, first, row.people[0].name)


def hours_of(person: User, garden: Garden, season: Season | None = None) -> QuerySet[HoursDone]:
    """What the person did, the removed too, latest first."""
    rows = HoursDone.objects.filter(garden=garden, person=person).select_related("workday", "task", "made_by")
    if season is not None:
        rows = rows.filter(day__range=(season.starts_on, season.ends_on))
    return rows


def guests_of(garden: Garden, season: Season) -> QuerySet[HoursDone]:
    """What people from outside did in the season."""
    return HoursDone.objects.filter(
        Q(person=None), garden=garden, removed_at=None, day__range=(season.starts_on, season.ends_on)
    ).select_related("workday")
