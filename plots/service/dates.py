"""The dates that a garden writes down for a year."""

from __future__ import annotations

from django.core.exceptions import ValidationError
from django.db import transaction
from django.utils import timezone
from django.utils.translation import gettext as _

from plots.dates import in_later_year
from plots.models import Change, DateKind, Garden, GardenDate, User
from plots.powers import Power
from plots.service.history import record, save_changes
from plots.service.undo import put_back, thing_of, undoable


def _by_hand(change: Change) -> None:
    """Refuses what would part a date from the workshop, or whatever else, that keeps it."""
    row = GardenDate.objects.filter(pk=change.about_pk).first()
    if row is not None and row.kept_by is not None:
        raise ValidationError(
            _("“%(date)s” follows what keeps it: %(keeper)s. Change that.")
            % {"date": row, "keeper": row.kept_by}
        )


@undoable("date-changed", power=Power.WORKDAYS)
def _as_before(change: Change, by: User) -> None:
    _by_hand(change)
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
    _by_hand(change)
    row = thing_of(change)
    row.removed_at, row.changed_at = None, timezone.now()
    row.save(update_fields=["removed_at", "changed_at"])


@transaction.atomic
def copy_year(*, garden: Garden, to_year: int, by: User) -> list[GardenDate]:
    """Writes the dates of the year before again, for somebody to look over; what stands there already stays.

    Deadlines keep their date, meetings and the like their day of the week. What something else keeps, a
    workshop, is planned anew there.
    """
    Garden.objects.select_for_update().get(pk=garden.pk)
    present = set(garden.dates.filter(day__year=to_year, removed_at=None).values_list("kind", "title"))
    copies = []
    for copy in garden.dates.filter(day__year=to_year - 1, removed_at=None):
        if (copy.kind, copy.title) in present or copy.kept_by is not None:
            continue
        same_weekday = copy.kind in (DateKind.MEETING, DateKind.OTHER)
        lasts = copy.last_day - copy.day if copy.last_day else None
        copy.pk, copy._state.adding = None, True
        copy.day = in_later_year(copy.day, 1, same_weekday=same_weekday)
        copy.last_day = copy.day + lasts if lasts else None
        copies.append(keep_date(row=copy, by=by))
    return copies
