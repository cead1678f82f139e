"""What was changed, latest first, in words."""

from __future__ import annotations

from collections.abc import Collection, Iterable
from datetime import datetime
from functools import partial

from django.db.models import Model
from django.utils.functional import SimpleLazyObject

from plots.models import Change, Garden
from plots.service.undo import UNDO
from plots.wording.history import Told, tell

OF_ONE_THING = 100


def changes_of(garden: Garden, thing: Model, *, only: Collection[str] = ()) -> list[Told]:
    """The history of one thing; what may still be undone is marked, when nothing newer stands on it.

    `only` these codes, on a page whose readers may not know of everything about a person.
    """
    rows = Change.objects.filter(
        garden=garden, about_model=thing._meta.label_lower, about_pk=thing.pk
    ).select_related("undone_by")
    if only:
        rows = rows.filter(what__in=only)
    return _told(garden, rows[:OF_ONE_THING])


def removed_from(garden: Garden, code: str) -> list[Told]:
    """What was taken off a list of the garden and can be put back, latest first: it has no page any more."""
    rows = garden.changes.filter(what=code, undone_by=None).select_related("undone_by")
    return [told for change in rows[:OF_ONE_THING] for told in _told(garden, [change])]


def _told(garden: Garden, changes: Iterable[Change]) -> list[Told]:
    """Changes of one thing, latest first, in words."""
    told: list[Told] = []
    later: set[str] = set()
    for change in changes:
        change.garden = garden
        touched = {*change.before, *change.after}
        settled = hasattr(change, "undone_by") or change.undoes_id is not None
        how = UNDO.get(change.what)
        open_ = how is not None and how.fits(change) and not settled and not touched & later
        told.append(tell(change, undoable=open_))
        if not settled:
            later |= touched
    return told


def changes_in(garden: Garden, year: int) -> list[Change]:
    """What was changed in a garden in a year of its own clock; `told` puts one in words on demand."""
    first, last = (datetime(day, 1, 1, tzinfo=garden.zone) for day in (year, year + 1))
    rows = garden.changes.filter(at__gte=first, at__lt=last).select_related("undone_by")
    for change in rows:
        change.garden = garden
        change.told = SimpleLazyObject(partial(tell, change))  # thousands a year, of which a page shows some
    return list(rows)


def years_of_changes(garden: Garden) -> list[int]:
    moments = garden.changes.datetimes("at", "year", order="DESC", tzinfo=garden.zone)
    return [moment.year for moment in moments]
