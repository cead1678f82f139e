"""Workshops: planning them, choosing what is handed out, writing down how many came."""

from __future__ import annotations

from collections.abc import Collection, Iterable

from django.db import transaction
from django.utils import timezone
from django.utils.translation import gettext as _

from crops.models import Crop, Workshop
from crops.wording.names import crop_label
from plots.models import Change, DateKind, GardenDate, User
from plots.powers import Power
from plots.service import keep_date, remove_date, restore_date
from plots.service.history import fields_of, record, record_fields
from plots.service.undo import put_back, thing_of, undoable
from schedules.wording.topics import TOPICS

# Names of those who mean to come are not part of the history: they go once it is known who came.
_TOLD = ("title", "on", "starts_at", "ends_at", "place", "language", "expected", "note", "public")


@transaction.atomic
def keep_workshop(*, workshop: Workshop, by: User) -> Workshop:
    """Saves a workshop, new or changed, and keeps its day among the garden's dates if it stands there."""
    if workshop.pk is None:
        workshop.made_by = by
        workshop.save()
        record(
            garden=workshop.garden, by=by, about=workshop, what="workshop-made", after={"day": workshop.on}
        )
    else:
        former = Workshop.objects.select_for_update(of=("self",)).get(pk=workshop.pk)
        workshop.save(update_fields=[*_TOLD, "names"])
        record_fields(
            garden=workshop.garden, by=by, about=workshop, what="workshop-changed",
            before=fields_of(former, _TOLD),
        )  # fmt: skip
    _keep_calendar(workshop, by)
    return workshop


@undoable("workshop-changed", power=Power.WORKDAYS)
def _as_before(change: Change, by: User) -> None:
    put_back(change, by)
    _keep_calendar(Workshop.objects.get(pk=change.about_pk), by)


@transaction.atomic
def choose_pack(
    *, workshop: Workshop, topics: Collection[str], crops: Iterable[Crop], title_page: bool, by: User
) -> None:
    """Keeps which sheets are handed out, in the order of all topics, and of which crops they tell."""
    current = Workshop.objects.select_for_update(of=("self",)).get(pk=workshop.pk)
    before = _pack_of(current)
    current.topics, current.title_page = [code for code in TOPICS if code in topics], title_page
    current.save(update_fields=["topics", "title_page"])
    current.crops.set(crops)
    after = _pack_of(current)
    changed = [name for name in after if after[name] != before[name]]
    if changed:
        old, new = ({name: values[name] for name in changed} for values in (before, after))
        record(garden=current.garden, by=by, about=current, what="workshop-pack", before=old, after=new)


def _pack_of(workshop: Workshop) -> dict[str, object]:
    """The pack in names, as its history tells it."""
    return {
        "sheets": [str(TOPICS[code].name) for code in workshop.topics if code in TOPICS],
        "crops": [crop_label(crop) for crop in workshop.crops.all()],
        "title_page": workshop.title_page,
    }


@transaction.atomic
def write_attendance(*, workshop: Workshop, attended: int | None, by: User) -> None:
    """Keeps how many came, `None` for not known; once they are, the names for the tags go."""
    current = Workshop.objects.select_for_update(of=("self",)).get(pk=workshop.pk)
    before = fields_of(current, ["attended"])
    current.attended = attended
    if attended is not None:
        current.names = ""
    current.save(update_fields=["attended", "names"])
    record_fields(garden=current.garden, by=by, about=current, what="workshop-attendance", before=before)


undoable("workshop-attendance", power=Power.WORKDAYS)(put_back)


@transaction.atomic
def remove_workshop(*, workshop: Workshop, by: User) -> None:
    """Takes a workshop off the list and out of the garden's dates. Twice changes nothing."""
    if Workshop.objects.standing().filter(pk=workshop.pk).update(removed_at=timezone.now()):
        record(
            garden=workshop.garden,
            by=by,
            about=workshop,
            what="workshop-removed",
            before={"day": workshop.on},
        )
        _keep_calendar(Workshop.objects.get(pk=workshop.pk), by)


@transaction.atomic
def restore_workshop(*, workshop: Workshop, by: User) -> None:
    """Puts a removed workshop back. Twice changes nothing."""
    if Workshop.objects.filter(pk=workshop.pk, removed_at__isnull=False).update(removed_at=None):
        record(
            garden=workshop.garden,
            by=by,
            about=workshop,
            what="workshop-restored",
            after={"day": workshop.on},
        )
        _keep_calendar(Workshop.objects.get(pk=workshop.pk), by)


@undoable("workshop-removed", power=Power.WORKDAYS)
def _back_on_the_list(change: Change, by: User) -> None:
    workshop = thing_of(change)
    workshop.removed_at = None
    workshop.save(update_fields=["removed_at"])
    _keep_calendar(workshop, by)


def _keep_calendar(workshop: Workshop, by: User) -> None:
    """The date says what the workshop says; whoever follows the garden's dates learns of every move."""
    row = workshop.calendar_date
    if not workshop.public or workshop.removed_at is not None:
        if row is not None:
            remove_date(row=row, by=by)
        return
    row = row or GardenDate(garden=workshop.garden, kind=DateKind.OTHER)
    if row.removed_at is not None:
        restore_date(row=row, by=by)
        row.refresh_from_db()
    row.title = (_("Workshop: %(title)s") % {"title": workshop})[:100]
    row.day, row.starts_at, row.place = workshop.on, workshop.starts_at, workshop.place
    if row.last_day is not None and row.last_day <= row.day:
        row.last_day = None
    keep_date(row=row, by=by)
    if workshop.calendar_date_id != row.pk:
        workshop.calendar_date = row
        workshop.save(update_fields=["calendar_date"])
