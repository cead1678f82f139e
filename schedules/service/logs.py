"""Keeping what was done at the plots: each log once, however often it is sent; undo puts all of it back."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date
from uuid import UUID, uuid5

from django.core.exceptions import ValidationError
from django.db import IntegrityError, transaction
from django.db.models import QuerySet
from django.utils import timezone
from django.utils.translation import gettext as _

from crops.models import Crop, Planting
from plots.access import days_to_log
from plots.models import Garden, HoursDone, Plot, User
from plots.service.history import fields_of, record, record_fields
from schedules.amounts import AmountError, Measured, worked_out
from schedules.intervals import hold_on
from schedules.models import HoseFlow, WorkLog
from schedules.plausible import Days, Done, Doubt, Ground, Sown, Told, doubts
from schedules.scouting import Seen, Used
from schedules.service.measures import area_of, measured_for
from schedules.service.scouting import attach, treated_at
from schedules.wording.intervals import hold_sentence
from schedules.wording.logs import doubt_sentence
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
        return same_plots and asked == was


def kept_before(*, key: UUID, by: User) -> Kept | None:
    """What this person's logs with this key are, if they arrived already, taken back or not."""
    rows = list(_rows().filter(sent=key, made_by=by).order_by("pk"))
    return Kept(rows, is_new=False) if rows else None


def keep_logs(
    *,
    garden: Garden,
    work: str,
    plots: Sequence[Plot],
    day: date,
    person: User,
    by: User,
    key: UUID,
    planting: Planting | None = None,
    succession: int | None = None,
    crop: Crop | None = None,
    amount: float | None = None,
    unit: str = "",
    hose: HoseFlow | None = None,
    minutes: int | None = None,
    given_away: bool = False,
    given_to: str = "",
    note: str = "",
    seen: Seen | None = None,
    used: Used | None = None,
) -> Kept:
    """Keeps one log for each plot, all or none; for hours and notes there may be no plot.

    The caller has asked `plots.access` whether `by` may write logs of these plots. A key that came before
    from the same person gives what was kept then, whatever else is said. Raises `ValidationError` by field.
    """
    if before := kept_before(key=key, by=by):
        return before
    shared = WorkLog(
        garden=garden, work=work, day=day, person=person, planting=planting, succession=succession,
        crop=crop, amount=amount, unit=unit if amount is not None else "", hose=hose, minutes=minutes,
        given_away=given_away, given_to=given_to, note=note.strip(), made_by=by, changed_by=by,
    )  # fmt: skip
    rows = _one_for_each(shared, plots, key)
    try:
        with transaction.atomic():
            _check(rows, by=by)
            for row in rows:
                row.hours_done = _hours_of(row)
            WorkLog.objects.bulk_create(rows)
            if seen or used:
                for row in rows:
                    attach(log=row, seen=seen, used=used)
    except IntegrityError:
        # The same request came a moment earlier through another door.
        if before := kept_before(key=key, by=by):
            return before
        raise
    return Kept(rows, is_new=True)


CHANGEABLE = (
    "work", "plot", "planting", "succession", "crop", "day", "person", "amount", "unit", "hose", "minutes",
    "given_away", "given_to", "note",
)  # fmt: skip


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
    before = fields_of(row, CHANGEABLE)
    for name, value in changes.items():
        setattr(row, name, value)
    row.unit = row.unit if row.amount is not None else ""
    row.changed_by, row.changed_at = by, timezone.now()
    _check([row], by=by)
    if any(before[name] != getattr(row, name) for name in ("work", "day", "person", "minutes", "plot")):
        _stop_counting(row, by=by)
        row.hours_done = _hours_of(row)
    row.save()
    attach(log=row, seen=seen, used=used)
    record_fields(garden=row.garden, by=by, about=row, what="log-changed", before=before)
    return row


@transaction.atomic
def remove_log(*, log: WorkLog, by: User, why: str = "") -> WorkLog:
    """Takes a log back with all that it did; it is kept for `restore_log`. Twice is harmless."""
    row = _locked(log)
    if row.removed_at is None:
        row.removed_by, row.removed_at = by, timezone.now()
        _save_standing(row)
        if row.hours_done:
            HoursDone.objects.filter(pk=row.hours_done.pk).update(removed_by=by, removed_at=row.removed_at)
        record(garden=row.garden, by=by, about=row, what="log-removed", why=why)
    return row


@transaction.atomic
def restore_log(*, log: WorkLog, by: User) -> WorkLog:
    """Puts a log back, if it may still stand; raises `ValidationError` by field. Twice is harmless."""
    row = _locked(log)
    if row.removed_at is not None:
        _check([row], by=by)
        row.removed_by, row.removed_at = None, None
        _save_standing(row)
        if row.hours_done:
            HoursDone.objects.filter(pk=row.hours_done.pk).update(removed_by=None, removed_at=None)
        record(garden=row.garden, by=by, about=row, what="log-restored")
    return row


def sent_with(log: WorkLog) -> list[WorkLog]:
    """The logs that came together with this one, itself among them."""
    return list(_rows().filter(sent=log.sent, garden=log.garden_id).order_by("pk"))


def _save_standing(row: WorkLog) -> None:
    row.changed_at = timezone.now()  # calendars read this as "changed"
    row.save(update_fields=["removed_by", "removed_at", "changed_at"])


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
        row.garden, row.plot, row.planting, row.crop = shared.garden, plot, shared.planting, shared.crop
        row.person, row.hose = shared.person, shared.hose
        row.sent, row.key = key, key if len(plots) < 2 or plot is None else uuid5(key, str(plot.pk))
        rows.append(row)
    return rows


def _check(rows: Sequence[WorkLog], *, by: User) -> None:
    """Works out the amounts and refuses what cannot be; all of it, by field."""
    first = rows[0]
    plots = [row.plot for row in rows if row.plot]
    faults: dict[str, list[str]] = _faults_of_the_whole(first, plots)
    days = days_to_log(by, first.garden, plots)
    treated = treated_at(plots) if first.work == Work.PICK else []
    sown = _sown(first)
    measured = measured_for(first) if first.amount is not None else None
    for row in rows:
        found = _work_out(row, measured) + doubts(_told(row), _ground(row, days, sown))
        told = [(doubt.where, doubt_sentence(doubt, first.garden.units)) for doubt in found]
        crop = row.crop_grown.pk if row.crop_grown else None
        if row.plot and (held := hold_on(
            treated, plot=row.plot.pk, planting=row.planting_id, crop=crop, day=row.day
        )):  # fmt: skip
            told.append(("day", hold_sentence(held)))
        for field, sentence in told:
            if len(plots) > 1:
                sentence = _("Plot %(plot)s: %(sentence)s") % {"plot": row.plot, "sentence": sentence}
            faults.setdefault(field, []).append(sentence)
    if faults:
        raise ValidationError(faults)
    first.clean_fields(exclude=["made_by", "changed_by", "removed_by", "person", "plot", "planting", "crop"])


def _faults_of_the_whole(first: WorkLog, plots: Sequence[Plot]) -> dict[str, list[str]]:
    if not plots and first.work not in {Work.HOURS, Work.NOTE}:
        return {"plot": [_("At which plot?")]}
    if len(plots) > 1 and first.planting:
        return {"planting": [_("Several plots at once: name the crop instead of one plot's planting.")]}
    if len(plots) > 1 and first.work == Work.HOURS:
        return {"plot": [_("Hours count once: choose one plot, or none.")]}
    if first.planting and plots and first.planting.plot_id != plots[0].pk:
        return {"planting": [_("This planting is at another plot.")]}
    return {}


def _work_out(row: WorkLog, measured: Measured | None) -> list[Doubt]:
    row.litres = row.grams = row.pieces = None
    if row.amount is None or measured is None:
        row.hose = None
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
        today=today, area_m2=area_of(plot), given_up_on=plot.retired_on, days=spans, planting=sown
    )  # fmt: skip


def _sown(row: WorkLog) -> Sown | None:
    """The planting that a log is about, with what else is known of it; holds it until the log is kept."""
    if row.planting is None:
        return None
    planting = Planting.objects.select_for_update().get(pk=row.planting.pk)
    others = WorkLog.objects.standing().filter(planting=planting).exclude(pk=row.pk)
    done = [Done(*values) for values in others.values_list("work", "day", "succession")]
    return Sown(planting.year, planting.successions, done, row.planting.crop.perennial)


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
    if row.hours_done:
        HoursDone.objects.filter(pk=row.hours_done.pk).update(removed_by=by, removed_at=timezone.now())
