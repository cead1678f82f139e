"""Hours kept by hand, and members who are excused from some."""

from __future__ import annotations

from datetime import date

from django.core.exceptions import ValidationError
from django.db import IntegrityError, transaction
from django.utils import timezone
from django.utils.translation import gettext as _

from plots.models import Change, Garden, HoursDone, HoursExcused, Season, User
from plots.powers import Power
from plots.service.history import record
from plots.service.undo import undoable


def add_hours(*, garden: Garden, person: User, day: date, minutes: int, what: str, by: User) -> HoursDone:
    """Counts work that was done on no workday."""
    return HoursDone.objects.create(
        garden=garden, person=person, day=day, minutes=minutes, what=what, made_by=by
    )


@transaction.atomic
def remove_hours(*, hours: HoursDone, by: User) -> None:
    """Counts them no more; they stay on the list, struck through, with who did so. Twice changes nothing."""
    rows = HoursDone.objects.filter(pk=hours.pk, removed_at=None)
    rows.update(removed_by=by, removed_at=timezone.now())


def restore_hours(*, hours: HoursDone) -> None:
    """Counts them again, unless others of the same person stand for the same work by now."""
    try:
        with transaction.atomic():
            HoursDone.objects.filter(pk=hours.pk).update(removed_by=None, removed_at=None)
    except IntegrityError:
        raise ValidationError(_("Other hours have been kept for this meanwhile.")) from None


@transaction.atomic
def excuse(*, season: Season, person: User, minutes: int | None, by: User) -> None:
    """Excuses somebody from so many minutes of a season, from all of them with `None`, from none with 0."""
    Garden.objects.select_for_update().get(pk=season.garden_id)
    former = season.hours_excused.filter(person=person).first()
    before = _excused(former)
    now = None
    if minutes == 0:
        season.hours_excused.filter(person=person).delete()
    else:
        now, _made = HoursExcused.objects.update_or_create(
            season=season, person=person, defaults={"minutes": minutes}
        )
    after = _excused(now)
    if before != after:
        record(
            garden=season.garden, by=by, about=person, what="hours-excused",
            before={"season": season, **before}, after={"season": season, **after},
        )  # fmt: skip


def _excused(row: HoursExcused | None) -> dict[str, object]:
    """For the history: minutes, or `"all"`."""
    return {"excused_minutes": 0 if row is None else row.minutes or "all"}


@undoable("hours-excused", power=Power.WORKDAYS)
def _excused_as_before(change: Change, by: User) -> None:
    season = Season.objects.filter(pk=change.before["season"]["pk"]).first()
    if season is None:
        raise ValidationError(_("This season is no longer there."))
    rows = season.hours_excused.filter(person=change.about_pk)
    if _excused(rows.first())["excused_minutes"] != change.after["excused_minutes"]:
        raise ValidationError(_("It was changed again since."))
    former = change.before["excused_minutes"]
    rows.delete()
    if former:
        minutes = None if former == "all" else former
        HoursExcused.objects.create(season=season, person_id=change.about_pk, minutes=minutes)
