"""Learning from what ripened, and setting aside what was learned."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from functools import partial

from django.db import transaction
from django.db.models import Q

from crops.models import Crop, Planting, Variety
from crops.queries import plantings_with_facts
from plots.models import Garden, User
from plots.service.history import record
from schedules.models import Ripening, WorkLog
from schedules.queries import lessons_of, with_telling_logs
from schedules.service.calendar import GardenDates, PlantingDates
from schedules.service.shifts import note_moved
from schedules.windows import Operation, Start, Turn, anchored
from schedules.windows.happened import Happened, Stage
from schedules.work import Work

_BEGUN = {Start.SOW: Stage.SOW, Start.TRANSPLANT: Stage.TRANSPLANT}


def learn_from_logs(logs: Iterable[WorkLog]) -> None:
    """Brings what is known of the logs' plantings up to date, after logs were kept, changed or taken back.

    Dates that this moves are kept as they were told before.
    """
    plantings = {log.planting_id for log in logs if log.planting_id is not None}
    if not plantings:
        return
    picked = WorkLog.objects.filter(planting__in=plantings, work=Work.PICK).values_list("planting", flat=True)
    found = list(Planting.objects.filter(pk__in=set(picked)).select_related("plot__garden", "crop"))
    if not found:
        return
    garden = found[0].plot.garden
    before = GardenDates.of(garden)
    for planting in found:
        learn_from(planting)
    if before is None or lessons_of(garden) == before.lessons:
        return
    for crop in {planting.crop for planting in found}:
        about = {"about": crop, "what": "lesson-learned"}  # nobody is named: who picked is the plot's own
        keep = partial(record, garden=garden, by=None, **about)
        note_moved(garden=garden, before=before, keep=keep, only=Q(crop=crop))


@transaction.atomic
def learn_from(planting: Planting) -> None:
    """Keeps how long each sowing of a planting took, beside what published figures expected of it."""
    garden = planting.plot.garden
    dates = GardenDates.of(garden, taught=False)
    found = with_telling_logs(plantings_with_facts(garden).filter(pk=planting.pk)).first()
    if dates is None or found is None:
        return
    known = {row.succession: row for row in planting.ripenings.all()}
    dated = dates.planting(found)
    for row in _ripened(dated, dates):
        former = known.pop(row.succession, None)
        if former is not None:
            row.pk, row.counts = former.pk, former.counts
        row.save()
    Ripening.objects.filter(pk__in=[row.pk for row in known.values()]).delete()


def _ripened(dated: PlantingDates, dates: GardenDates) -> Iterator[Ripening]:
    planting, start = dated.planting, dated.told.start
    course = dates.course_for(planting, Turn(planting.turn), start)
    if course.overwinters:  # lengthening days ripen it, whenever it was set
        return
    for number, told in dated.told.happened.items():
        begun, picked = told.on(_BEGUN[start]), told.on(Stage.HARVEST)
        if begun is None or picked is None or picked.day <= begun.day:
            continue
        alone = anchored((), course, {number: Happened({_BEGUN[start]: begun})})
        ripe = [window.best for window in alone if window.operation is Operation.HARVEST and window.best]
        if ripe and ripe[0] > begun.day:
            yield Ripening(
                planting=planting,
                succession=number,
                begun_on=begun.day,
                picked_on=picked.day,
                expected_days=(ripe[0] - begun.day).days,
            )


@transaction.atomic
def set_lessons_aside(*, garden: Garden, crop: Crop, variety: Variety | None, by: User) -> int:
    """Lets nothing count that was learned so far of a crop or a variety; how many sowings that were."""
    return _count(garden, crop, variety, by, counts=False, what="lesson-set-aside")


@transaction.atomic
def take_lessons_up(*, garden: Garden, crop: Crop, variety: Variety | None, by: User) -> int:
    """Lets all that was learned count again."""
    return _count(garden, crop, variety, by, counts=True, what="lesson-taken-up")


def _count(garden: Garden, crop: Crop, variety: Variety | None, by: User, *, counts: bool, what: str) -> int:
    rows = Ripening.objects.filter(planting__plot__garden=garden, planting__crop=crop, counts=not counts)
    if variety is not None:
        rows = rows.filter(planting__variety=variety)
    changed = rows.update(counts=counts)
    if changed:
        record(garden=garden, by=by, about=variety or crop, what=what, after={"sowings": changed})
    return changed
