"""The dates that a garden writes down for a year."""

from __future__ import annotations

from datetime import date

from django.db import transaction
from django.utils import timezone

from plots.models import GardenDate, User
from plots.powers import Power
from plots.service.history import record, save_changes
from plots.service.undo import put_back, thing_of, undoable

undoable("date-changed", power=Power.WORKDAYS)(put_back)


@transaction.atomic
def keep_date(*, row: GardenDate, by: User) -> GardenDate:
    """Saves a date, new or changed."""
    row.changed_at = timezone.now()
    if row.pk is not None:
        save_changes(garden=row.garden, by=by, row=row, what="date-changed")
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
def _back_on_the_calendar(change, by) -> None:
    row = thing_of(change)
    row.removed_at, row.changed_at = None, timezone.now()
    row.save(update_fields=["removed_at", "changed_at"])


@transaction.atomic
def copy_dates(*, rows: list[GardenDate], years: int, by: User) -> list[GardenDate]:
    """Writes the same dates again, so many years later, for somebody to look over."""
    return [
        keep_date(
            row=GardenDate(
                garden=row.garden,
                kind=row.kind,
                title=row.title,
                day=_later(row.day, years),
                last_day=row.last_day and _later(row.last_day, years),
                starts_at=row.starts_at,
                place=row.place,
                note=row.note,
                public=row.public,
            ),
            by=by,
        )
        for row in rows
    ]


def _later(day: date, years: int) -> date:
    """The same weekday in the same week of a later year: meetings are on Saturdays, not on the 14th."""
    target = day.replace(year=day.year + years, day=min(day.day, 28))
    target += day - day.replace(day=min(day.day, 28))
    nearest = (day.weekday() - target.weekday() + 3) % 7 - 3
    return date.fromordinal(target.toordinal() + nearest)
