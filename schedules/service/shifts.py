"""Trying a change before it is kept: what it moves of all dates, and keeping what was told until then."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from django.db import transaction
from django.db.models import Q

from crops.models import Planting
from crops.service import change_planting
from plots.models import Change, Garden, User
from plots.service.history import record as keep_change
from schedules.entries import Entry
from schedules.models import DateBefore, DatesMoved
from schedules.queries import plantings_of
from schedules.service.calendar import GardenDates, years_around
from schedules.shifts import Dates, Shift, shifts
from schedules.wording.climate import climate_source_text

Write = Callable[[], object]
"""A verb of a service with all that it needs; it may be called twice."""
_EVERY = Q()


def moved_by(garden: Garden, change: Write) -> tuple[Shift, ...]:
    """The dates that a change would move from today on; it is made and rolled back, so that nothing is kept.

    Whatever the change itself raises comes through.
    """
    old = _known(garden, GardenDates.of(garden))
    with transaction.atomic():
        change()
        changed = Garden.objects.get(pk=garden.pk)
        new = _known(changed, GardenDates.of(changed))
        transaction.set_rollback(True)
    return _between(garden, old, new)  # reckoned once others may write again


@dataclass(frozen=True)
class _Known:
    """All that a garden's dates are reckoned from, read; nothing is asked of the database after it."""

    dates: GardenDates
    plantings: tuple[Planting, ...]

    def entries(self) -> list[Entry]:
        return [row for planting in self.plantings for row in self.dates.planting(planting).entries]


def _known(garden: Garden, dates: GardenDates | None, only: Q = _EVERY) -> _Known | None:
    """What a garden tells now; plantings are read anew, as their holders' nerve comes with them."""
    if dates is None:
        return None
    plots = garden.plots.filter(retired_on__isnull=True)
    plantings = plantings_of(garden, plots, years_around(garden.today()))
    return _Known(dates, tuple(plantings.filter(only)))


def _between(garden: Garden, old: _Known | None, new: _Known | None) -> tuple[Shift, ...]:
    if old is None or new is None:
        return ()
    return shifts(old.entries(), new.entries(), today=garden.today())


@transaction.atomic
def keep_moving(*, garden: Garden, change: Write, moved: Sequence[Shift], by: User) -> DatesMoved | None:
    """Makes the change for good, and keeps the dates that people had been told until then."""
    Garden.objects.select_for_update().get(pk=garden.pk)
    source = climate_source_text(garden)
    newest = garden.changes.order_by("-pk").values_list("pk", flat=True).first() or 0
    change()
    if not moved:
        return None
    told = garden.changes.filter(pk__gt=newest).order_by("-pk").first()
    return keep_told(garden=garden, change=told or _unnamed(garden, source, by), moved=moved)


@transaction.atomic
def keep_told(*, garden: Garden, change: Change, moved: Sequence[Shift]) -> DatesMoved:
    """Keeps the dates that people had been told until a change moved them."""
    kept = DatesMoved.objects.create(garden=garden, change=change)
    DateBefore.objects.bulk_create(_row(kept, row) for row in moved)
    return kept


def note_moved(
    *, garden: Garden, before: GardenDates | None, keep: Callable[[], Change], only: Q = _EVERY
) -> DatesMoved | None:
    """Keeps the dates told before something moved them by itself: new weather, read soil, a first picking.

    Only if it did; then `keep` gives the change that is named for it. Where it can move `only` some
    plantings, saying so spares reckoning the others.
    """
    moved = _between(garden, *(_known(garden, dates, only) for dates in (before, GardenDates.of(garden))))
    if not moved:
        return None
    with transaction.atomic():
        return keep_told(garden=garden, change=keep(), moved=moved)


def change_planned(planting: Planting, *, by: User, **changes: object) -> Planting:
    """Changes a planting as `crops.service` does, and keeps the dates that were told of it until then."""
    garden, only = planting.plot.garden, Q(pk=planting.pk)
    dates = GardenDates.of(garden)
    before = _known(garden, dates, only)
    told = [] if before is None else before.entries()
    with transaction.atomic():
        changed = change_planting(planting, by=by, **changes)
        after = _known(garden, dates, only)
        moved = () if after is None else shifts(told, after.entries(), today=garden.today())
        if moved:
            change = keep_change(garden=garden, by=by, about=changed, what="planting-changed")
            keep_told(garden=garden, change=change, moved=moved)
    return changed


def _unnamed(garden: Garden, source: str, by: User) -> Change:
    """For a change that keeps no history of itself, as of typed frost dates."""
    now = climate_source_text(Garden.objects.get(pk=garden.pk))
    told = [{"frost_dates": text} if source != now else {} for text in (source, now)]
    return keep_change(
        garden=garden, by=by, about=garden, what="frost-dates-changed", before=told[0], after=told[1]
    )


def _row(kept: DatesMoved, row: Shift) -> DateBefore:
    return DateBefore(
        moved=kept,
        planting_id=row.planting,
        operation=row.operation.value,
        succession=row.succession,
        **_days("old", row.before),
        **_days("new", row.after),
    )


def _days(when: str, dates: Dates | None) -> dict[str, object]:
    names = (f"{when}_earliest", f"{when}_best", f"{when}_latest")
    return {} if dates is None else dict(zip(names, dates, strict=True))
