"""Keeping what was done at the plots: each log once, however often it is sent; undo puts all of it back."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date
from typing import TypedDict, Unpack
from uuid import UUID, uuid5

from django.core.exceptions import ValidationError
from django.db import IntegrityError, transaction
from django.db.models import QuerySet
from django.utils import timezone
from django.utils.text import capfirst
from django.utils.translation import gettext as _

from crops.models import Crop, Planting
from plots.access import days_to_log
from plots.models import Garden, HoursDone, Plot, User
from plots.service.history import fields_of, record
from schedules.amounts import AmountError, Measured, worked_out
from schedules.anchors import TELLING
from schedules.intervals import Treated, hold_on
from schedules.models import HoseFlow, Sighting, Treatment, WorkLog
from schedules.plausible import Days, Done, Doubt, Ground, Sown, Told, doubts
from schedules.scouting import Seen, Used
from schedules.service.lessons import learn_from_logs
from schedules.service.log_plantings import find_plantings, sown_at
from schedules.service.measures import area_of, measured_for
from schedules.service.scouting import attach, treated_at
from schedules.wording.intervals import hold_sentence
from schedules.wording.logs import doubt_sentence, plots_text
from schedules.work import Work


@dataclass(frozen=True)
class Kept:
    """The logs that came together; `is_new` is false where they were there already."""

    rows: list[WorkLog]
    is_new: bool

    def same_as(self, *, plots: Sequence[Plot], **told: object) -> bool:
        """Whether this is what is told now, so that keeping it twice would be once too often."""
        first = self.rows[0]
        asked = {name: value for name, value in told.items() if name in CHANGEABLE}
        was = {name: getattr(first, name) for name in asked}
        same_plots = {row.plot_id for row in self.rows} == ({plot.pk for plot in plots} or {None})
        if asked.get("amount") is None:
            asked = {**asked, "unit": "", "hose": None}
        if len(self.rows) > 1 and asked.get("crop"):  # each plot's planting was found by its crop
            was = {**was, "planting": None, "crop": first.crop_grown}
        return same_plots and asked == was


def kept_before(*, key: UUID, by: User) -> Kept | None:
    """What this person's logs with this key are, if they arrived already, taken back or not."""
    # Most keys are new: that is asked without all that is told of a log.
    if not WorkLog.objects.filter(sent=key, made_by=by).exists():
        return None
    return Kept(list(_rows().filter(sent=key, made_by=by).order_by("pk")), is_new=False)


class Telling(TypedDict, total=False):
    """What a log may tell beside work, plots, day and people; see `WorkLog`."""

    planting: Planting | None
    succession: int | None
    crop: Crop | None
    amount: float | None
    unit: str
    hose: HoseFlow | None
    minutes: int | None
    given_away: bool
    given_to: str
    note: str
    from_paper: bool


def keep_logs(
    *,
    garden: Garden,
    work: str,
    plots: Sequence[Plot],
    day: date,
    person: User,
    by: User,
    key: UUID,
    seen: Seen | None = None,
    used: Used | None = None,
    **told: Unpack[Telling],
) -> Kept:
    """Keeps one log for each plot, all or none; for hours and notes there may be no plot.

    The caller has asked `plots.access` whether `by` may write logs of these plots. A key that came before
    from the same person gives what was kept then, whatever else is said. Raises `ValidationError` by field.
    """
    if before := kept_before(key=key, by=by):
        return before
    people = {"person": person, "made_by": by, "changed_by": by}
    rows = _one_for_each(WorkLog(garden=garden, work=work, day=day, **people, **told), plots, key)
    find_plantings(rows)
    try:
        with transaction.atomic():
            _check(rows, by=by)
            for row in rows:
                row.hours_done = _hours_of(row)
            WorkLog.objects.bulk_create(rows)
            for row in rows if seen or used else []:
                attach(log=row, seen=seen, used=used)
            learn_from_logs(rows)
    except (IntegrityError, ValidationError) as failure:
        # The same request came a moment earlier through another door, and is what this one is refused for.
        if before := kept_before(key=key, by=by):
            return before
        if isinstance(failure, ValidationError):
            raise
        raise ValidationError(_("Somebody else has sent a log with this key.")) from None
    return Kept(rows, is_new=True)


CHANGEABLE = (
    "work", "plot", "planting", "succession", "crop", "day", "person", "amount", "unit", "hose", "minutes",
    "given_away", "given_to", "note",
)  # fmt: skip
_MEASURED_BY = frozenset({"work", "plot", "planting", "crop", "amount", "unit", "hose"})
_HELD_BY = frozenset({"work", "plot", "planting", "crop", "day"})
_COUNTED_BY = frozenset({"work", "plot", "day", "person", "minutes", "note"})
_TOLD_OF_BY = frozenset({"work", "plot", "planting", "crop"})


@transaction.atomic
def change_log(
    *, log: WorkLog, by: User, seen: Seen | None = None, used: Used | None = None, **changes: object
) -> WorkLog:
    """Changes any of `CHANGEABLE`, with its effects; what it was before is kept in its history.

    Raises `ValidationError` by field for what cannot be, and for a log that was taken back.
    """
    unknown = changes.keys() - set(CHANGEABLE)
    if unknown:
        raise TypeError(f"a log has no changeable {sorted(unknown)}")
    row = _locked(log)
    if row.removed_at:
        raise ValidationError(_("This log was taken back; put it back first."))
    told_of = _told_of(row)
    before, worked_out_before = _told_by(row), fields_of(row, ("litres", "grams", "pieces"))
    for name, value in changes.items():
        setattr(row, name, value)
    row.changed_by, row.changed_at = by, timezone.now()
    # A picking that a product logged later holds may still be told better; picked it was.
    _check([row], by=by, held=any(before[name] != getattr(row, name) for name in _HELD_BY))
    changed = {name for name in CHANGEABLE if before[name] != getattr(row, name)}
    if not changed & _MEASURED_BY:
        for name, value in worked_out_before.items():
            setattr(row, name, value)
    if changed & _COUNTED_BY:
        _stop_counting(row, by=by)
        row.hours_done = _hours_of(row)
    row.save()
    if changed & _TOLD_OF_BY:
        told_of.update(changed_at=row.changed_at)  # their dates change with what is told of them no more
    attach(log=row, seen=seen, used=used)
    _record_change(row, before, by=by)
    learn_from_logs([row, WorkLog(planting=before["planting"])])
    return row


@transaction.atomic
def remove_log(*, log: WorkLog, by: User, why: str = "") -> WorkLog:
    """Takes a log back with all that it did; it is kept for `restore_log`. Twice is harmless."""
    row = _locked(log)
    if row.removed_at is None:
        row.removed_by, row.removed_at = by, timezone.now()
        _save_standing(row)
        _stop_counting(row, by=by)
        record(garden=row.garden, by=by, about=row, what="log-removed", why=why)
        learn_from_logs([row])
    return row


@transaction.atomic
def restore_log(*, log: WorkLog, by: User) -> WorkLog:
    """Puts a log back, if it may still stand; raises `ValidationError` by field. Twice is harmless."""
    row = _locked(log)
    if row.removed_at is not None:
        _check([row], by=by)
        # Hours that somebody struck off the list of hours stay off it.
        gone = {"removed_at": row.removed_at, "removed_by": row.removed_by}
        with_it = HoursDone.objects.filter(pk=row.hours_done_id, **gone)
        with_it.update(removed_by=None, removed_at=None)
        row.removed_by, row.removed_at = None, None
        _save_standing(row)
        record(garden=row.garden, by=by, about=row, what="log-restored")
        learn_from_logs([row])
    return row


@transaction.atomic
def remove_logs(*, logs: Sequence[WorkLog], by: User) -> list[WorkLog]:
    """`remove_log` for all of them or none."""
    return [remove_log(log=log, by=by) for log in logs]


@transaction.atomic
def restore_logs(*, logs: Sequence[WorkLog], by: User) -> list[WorkLog]:
    """`restore_log` for all of them or, where one may not stand any more, none."""
    return [restore_log(log=log, by=by) for log in logs]


def sent_with(log: WorkLog) -> list[WorkLog]:
    """The logs that came together with this one, itself among them."""
    return list(_rows().filter(sent=log.sent, garden=log.garden_id).order_by("pk"))


def _save_standing(row: WorkLog) -> None:
    row.changed_at = timezone.now()  # calendars read this as "changed"
    row.save(update_fields=["removed_by", "removed_at", "changed_at"])


def _told_of(row: WorkLog) -> QuerySet[Planting]:
    """The plantings whose dates the log moves as it is now."""
    if row.clears_all:
        return Planting.objects.filter(plot=row.plot_id)
    return Planting.objects.filter(pk=row.planting_id if row.work in TELLING else None)


def _rows() -> QuerySet[WorkLog]:
    return WorkLog.objects.select_related("garden", "plot", "planting__crop", "planting__variety", "crop")


def _locked(log: WorkLog) -> WorkLog:
    return _rows().select_for_update(of=("self",)).get(pk=log.pk)


def _one_for_each(shared: WorkLog, plots: Sequence[Plot], key: UUID) -> list[WorkLog]:
    """The same log at every plot; one alone has the key itself, so that a phone knows it again."""
    names = [field.attname for field in WorkLog._meta.concrete_fields if not field.primary_key]
    rows = []
    for plot in plots or [None]:
        row = WorkLog(**{name: getattr(shared, name) for name in names})
        row.note = row.note.strip()
        row.garden, row.plot, row.planting, row.crop = shared.garden, plot, shared.planting, shared.crop
        row.person, row.hose = shared.person, shared.hose
        row.sent, row.key = key, key if len(plots) < 2 or plot is None else uuid5(key, str(plot.pk))
        rows.append(row)
    return rows


def _check(rows: Sequence[WorkLog], *, by: User, held: bool = True) -> None:
    """Works out the amounts and refuses what cannot be; all of it, by field.

    With `held`, also a picking that the label of a product forbids.
    """
    first = rows[0]
    plots = [row.plot for row in rows if row.plot]
    faults: dict[str, list[str]] = _faults_of_the_whole(rows, plots)
    days = days_to_log(by, first.garden, plots)
    treated = treated_at(plots) if held and first.work == Work.PICK else []
    sown = sown_at(rows)
    measured = measured_for(first) if first.amount is not None else None
    refused: dict[tuple[str, str], list[str]] = {}
    for row in rows:
        here = None if row.planting_id is None else sown[row.planting_id]
        found = _work_out(row, measured) + doubts(_told(row), _ground(row, days, here))
        told = [(doubt.where, doubt_sentence(doubt, first.garden.units)) for doubt in found]
        if holding := _held(row, treated):
            told.append(("day", hold_sentence(holding)))
        for fault in told:
            refused.setdefault(fault, []).append(str(row.plot))
    for (field, sentence), labels in refused.items():
        where = {"plots": capfirst(plots_text(labels)), "sentence": sentence}
        told_where = sentence if len(labels) == len(rows) else _("%(plots)s: %(sentence)s") % where
        faults.setdefault(field, []).append(told_where)
    if faults:
        raise ValidationError(faults)
    first.clean_fields(exclude=["made_by", "changed_by", "removed_by", "person", "plot", "planting", "crop"])


def _held(row: WorkLog, treated: Sequence[Treated]) -> Treated | None:
    """The product whose label forbids picking that day."""
    if row.plot is None:
        return None
    crop = row.crop_grown.pk if row.crop_grown else None
    return hold_on(treated, plot=row.plot.pk, planting=row.planting_id, crop=crop, day=row.day)


def _faults_of_the_whole(rows: Sequence[WorkLog], plots: Sequence[Plot]) -> dict[str, list[str]]:
    first = rows[0]
    if not plots and first.work not in {Work.HOURS, Work.NOTE}:
        return {"plot": [_("At which plot?")]}
    elsewhere = any(row.planting and row.plot and row.planting.plot_id != row.plot.pk for row in rows)
    if len(plots) > 1 and elsewhere:
        return {"planting": [_("Several plots at once: name the crop instead of one plot's planting.")]}
    if len(plots) > 1 and first.work == Work.HOURS:
        return {"plot": [_("Hours count once: choose one plot, or none.")]}
    if elsewhere:
        return {"planting": [_("This planting is at another plot.")]}
    return {}


def _work_out(row: WorkLog, measured: Measured | None) -> list[Doubt]:
    row.litres = row.grams = row.pieces = None
    if row.amount is None or measured is None:
        row.unit, row.hose = "", None
        return []
    try:
        found = worked_out(row.amount, row.unit, replace(measured, area_m2=area_of(row.plot)))
    except AmountError as error:
        return [Doubt("amount", error.code)] if row.unit else []
    row.litres = found.litres if row.work == Work.WATER else None
    row.grams = found.grams if row.work == Work.PICK else None
    row.pieces = found.pieces
    return []


def _told(row: WorkLog) -> Told:
    return Told(
        work=row.work, day=row.day, succession=row.succession, amount=row.amount, unit=row.unit,
        litres=row.litres, grams=row.grams, pieces=row.pieces, minutes=row.minutes,
        given_away=row.given_away, given_to=row.given_to, names_a_crop=row.crop is not None,
    )  # fmt: skip


def _ground(
    row: WorkLog, days: Mapping[int, Sequence[tuple[date, date | None]]] | None, sown: Sown | None
) -> Ground:
    plot, today = row.plot, row.garden.today()
    if plot is None:
        return Ground(today=today, planting=sown)
    spans = None if days is None or plot.pk not in days else [Days(*span) for span in days[plot.pk]]
    return Ground(
        today=today, area_m2=area_of(plot), given_up_on=plot.retired_on, days=spans, planting=sown,
        plantings=_known_at(plot, row) if row.clears_all else (),
    )  # fmt: skip


def _known_at(plot: Plot, row: WorkLog) -> list[list[Done]]:
    """What other logs tell of each planting of the plot."""
    found: dict[int, list[Done]] = {}
    others = WorkLog.objects.standing().filter(plot=plot, planting__isnull=False).exclude(pk=row.pk)
    for planting, *values in others.values_list("planting", "work", "day", "succession"):
        found.setdefault(planting, []).append(Done(*values))
    return list(found.values())


def _hours_of(row: WorkLog) -> HoursDone | None:
    """The hours that a log counts for; none where it is about other work."""
    if row.work != Work.HOURS or row.minutes is None:
        return None
    what = row.note or (_("plot %(plot)s") % {"plot": row.plot} if row.plot else "")
    return HoursDone.objects.create(
        garden=row.garden, person=row.person, day=row.day, minutes=row.minutes, what=what[:160],
        made_by=row.changed_by,
    )  # fmt: skip


def _stop_counting(row: WorkLog, *, by: User) -> None:
    counting = HoursDone.objects.filter(pk=row.hours_done_id, removed_at=None)
    counting.update(removed_by=by, removed_at=row.removed_at or timezone.now())


def _told_by(row: WorkLog) -> dict[str, object]:
    """All that a log tells, what was seen or used at its side too."""
    told = fields_of(row, CHANGEABLE)
    if saw := Sighting.objects.filter(log=row).first():
        told.update(fields_of(saw, ("seen", "seen_on", "severity")))
    if used := Treatment.objects.filter(log=row).first():
        told.update(fields_of(used, ("product", "label_days", "asked")))
    return told


def _record_change(row: WorkLog, before: dict[str, object], *, by: User) -> None:
    """Keeps what of a log is otherwise than before."""
    after = _told_by(row)
    names = [name for name in {**before, **after} if before.get(name) != after.get(name)]
    if names:
        old, new = ({name: told.get(name) for name in names} for told in (before, after))
        record(garden=row.garden, by=by, about=row, what="log-changed", before=old, after=new)
