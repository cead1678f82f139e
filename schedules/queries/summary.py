"""What a summary reads of a garden, each kind of row in one query however long the period is."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import date
from functools import reduce
from operator import or_

from django.db.models import F, Q, QuerySet, Sum

from crops.models import Workshop
from plots.models import Assignment, Garden, Membership, PlotKind, User, WaitingEntry, Workday
from schedules.access import Known
from schedules.models import LogPhoto, WorkLog
from schedules.queries.diary import hours_done, work_logged
from schedules.summary import GardenKnown, Ground, Period, RowPicked, Tenure, Waiting, WorkshopHeld
from schedules.work import Work


def garden_known(garden: Garden, first: date, last: date) -> GardenKnown:
    """All that the garden's figures of the days from `first` to `last` are counted from; seven queries."""
    logs = WorkLog.objects.standing().filter(garden=garden, day__range=(first, last))
    return GardenKnown(
        ground=_ground(garden),
        tenures=_tenures(garden),
        waiting=_waiting(garden),
        languages=dict(Membership.objects.filter(garden=garden).values_list("user", "user__language")),
        workdays=[one.on for one in Workday.objects.filter(garden=garden) if not one.is_off],
        workshops=workshops_held(garden, first, last),
        logs=[
            *work_logged(logs.exclude(work=Work.HOURS), Known()),
            *hours_done(garden, first, last),
        ],
    )


def _ground(garden: Garden) -> list[Ground]:
    rows = garden.plots.filter(kind=PlotKind.PERSONAL).values_list("pk", "width_m", "length_m", "retired_on")
    return [
        Ground(plot, width * length if width and length else None, retired)
        for plot, width, length, retired in rows
    ]


def _tenures(garden: Garden) -> list[Tenure]:
    held = Assignment.objects.filter(plot__garden=garden).prefetch_related("co_gardeners")
    return [
        Tenure(
            one.plot_id,
            (one.holder_id, *sorted(person.pk for person in one.co_gardeners.all())),
            one.began_on,
            one.ended_on,
        )
        for one in held
    ]


def _waiting(garden: Garden) -> list[Waiting]:
    zone = garden.zone
    rows = WaitingEntry.objects.filter(garden=garden).values_list("joined_at", "left_at")
    return [
        Waiting(joined.astimezone(zone).date(), left.astimezone(zone).date() if left else None)
        for joined, left in rows
    ]


def workshops_held(garden: Garden, first: date, last: date) -> list[WorkshopHeld]:
    rows = Workshop.objects.standing().filter(garden=garden, on__range=(first, last)).order_by("on", "pk")
    return [WorkshopHeld(one.on, one.title, one.place, one.expected, one.attended) for one in rows]


def assignments_of(garden: Garden, person: User) -> list[Assignment]:
    """What a member holds, shares, held or shared in the garden, with the plots."""
    mine = Assignment.objects.filter(Q(holder=person) | Q(co_gardeners=person), plot__garden=garden)
    held = list(mine.select_related("plot").distinct())
    for one in held:
        one.plot.garden = garden
    return held


def logs_of_member(garden: Garden, person: User) -> QuerySet[WorkLog]:
    """What was done at a member's plots while they held or shared them, and what they did anywhere."""
    at = [
        Q(plot=one.plot_id, day__gte=one.began_on) & (Q(day__lte=one.ended_on) if one.ended_on else Q())
        for one in assignments_of(garden, person)
    ]
    return WorkLog.objects.standing().filter(
        (Q(garden=garden) & (reduce(or_, at, Q(person=person)))) & (~Q(work=Work.HOURS) | Q(person=person))
    )


def hours_of_member(garden: Garden, person: User, period: Period) -> Iterable[tuple[date, int]]:
    rows = garden.hours_done.filter(
        person=person, removed_at__isnull=True, day__range=(period.first, period.last)
    )
    return list(rows.values_list("day", "minutes"))


def rows_picked(logs: QuerySet[WorkLog]) -> list[RowPicked]:
    """Of each planting whose row is known, what was weighed of its pickings."""
    weighed = logs.filter(work=Work.PICK, grams__isnull=False, planting__row_length_m__isnull=False)
    sums = weighed.order_by().values(
        "planting", crop_key=F("planting__crop"), row=F("planting__row_length_m")
    )
    return [RowPicked(one["crop_key"], one["row"], one["total"]) for one in sums.annotate(total=Sum("grams"))]


def photos_to_show(logs: QuerySet[WorkLog], most: int) -> Sequence[LogPhoto]:
    """At most so many of the photos that may stand in a report, spread over the period, each picture once."""
    found = LogPhoto.objects.standing().filter(log__in=logs, may_show=True).select_related("log__plot")
    by_picture = {photo.image.name: photo for photo in found.order_by("-log__day", "-pk")}
    photos = sorted(by_picture.values(), key=lambda photo: (photo.log.day, photo.pk))
    if len(photos) <= most:
        return photos
    return [photos[round(n * (len(photos) - 1) / (most - 1))] for n in range(most)]
