"""The dates that a garden writes down for a year."""

from __future__ import annotations

from django.db import transaction
from django.utils import timezone

from plots.dates import in_later_year
from plots.models import Change, DateKind, GardenDate, User
from plots.powers import Power
from plots.service.history import record, save_changes
from plots.service.undo import put_back, thing_of, undoable


@undoable("date-changed", power=Power.WORKDAYS)
def _as_before(change: Change, by: User) -> None:
    put_back(change, by)
    _touch(change.about_pk)


def _touch(pk: int) -> None:
    """Calendars on phones take over what is newer than what they have."""
    GardenDate.objects.filter(pk=pk).update(changed_at=timezone.now())


@transaction.atomic
def keep_date(*, row: GardenDate, by: User) -> GardenDate:
    """Saves a date, new or changed."""
    if row.pk is not None:
        if save_changes(garden=row.garden, by=by, row=row, what="date-changed"):
            _touch(row.pk)
        return row
    row.save()
    record(garden=row.garden, by=by, about=row, what="date-made", after={"day": row.day})
    return row


@transaction.atomic
def remove_date(*, row: GardenDate, by: User) -> None:
    """Takes a date off the calendar; it is kept for who wants it back. Twice changes nothing."""
    if GardenDate.objects.filter(pk=row.pk, removed_at=None).update(removed_at=timezone.now()):
        record(garden=row.garden, by=by, about=row, what="date-removed", before={"day": row.day})


@transaction.atomic
def restore_date(*, row: GardenDate, by: User) -> None:
    """Puts a removed date back. Twice changes nothing."""
    now = timezone.now()
    removed = GardenDate.objects.filter(pk=row.pk, removed_at__isnull=False)
    if removed.update(removed_at=None, changed_at=now):
        record(garden=row.garden, by=by, about=row, what="date-restored", after={"day": row.day})


@undoable("date-removed", power=Power.WORKDAYS)
def _back_on_the_calendar(change: Change, by: User) -> None:
    row = thing_of(change)
    row.removed_at, row.changed_at = None, timezone.now()
    row.save(update_fields=["removed_at", "changed_at"])


@transaction.atomic
def copy_dates(*, rows: list[GardenDate], years: int, by: User) -> list[GardenDate]:
    """Writes the same dates again, so many years later, for somebody to look over.

    Deadlines keep their date, meetings and the like their day of the week.
    """
    copies = []
    for row in rows:
        same_weekday = row.kind in (DateKind.MEETING, DateKind.OTHER)
        copy = GardenDate.objects.get(pk=row.pk)
        copy.pk, copy._state.adding = None, True
        copy.day = in_later_year(row.day, years, same_weekday=same_weekday)
        if row.last_day is not None:
            copy.last_day = copy.day + (row.last_day - row.day)
        copies.append(keep_date(row=copy, by=by))
    return copies
