"""What a summary reads of a garden, each kind of row in one query however long the period is."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import date
from functools import reduce
from operator import or_

from django.db.models import Count, F, Min, Q, QuerySet, Sum, Value
from django.db.models.functions import Coalesce

from crops.models import Workshop
from plots.models import (
    Assignment,
    Garden,
    HoursDone,
    Membership,
    Plot,
    PlotKind,
    User,
    WaitingEntry,
    Workday,
)
from schedules.access import Known
from schedules.models import LogPhoto, WorkLog
from schedules.queries.diary import work_logged
from schedules.summary import GardenKnown, Ground, Period, Tenure, Waiting, WorkshopHeld
from schedules.time_given import TimeGiven
from schedules.work import Work
from schedules.yields import RowPicked


def garden_known(garden: Garden, first: date, last: date) -> GardenKnown:
    """All that the garden's figures of the days from `first` to `last` are counted from."""
    hours = time_given(garden, first, last)
    logs = WorkLog.objects.standing().filter(garden=garden, day__range=(first, last))
    return GardenKnown(
        ground=_ground(garden),
        tenures=_tenures(garden),
        waiting=_waiting(garden),
        languages=dict(_holders(garden).exclude(language="").values_list("pk", "language")),
        workdays=[one.on for one in Workday.objects.filter(garden=garden) if not one.is_off],
        workshops=workshops_held(garden, first, last),
        logs=[
            *work_logged(logs.exclude(work=Work.HOURS), Known()),
            *(one.logged for one in hours),
        ],
        hours=hours,
        households=dict(
            Membership.objects.filter(garden=garden, household__isnull=False).values_list("user", "household")
        ),
        paid=[
            (day, float(amount))
            for day, amount in garden.dues.filter(paid_on__range=(first, last)).values_list(
                "paid_on", "amount"
            )
        ],
        since=garden.made_at.astimezone(garden.zone).date(),
    )


def _ground(garden: Garden) -> list[Ground]:
    """The plots; one that was added later than the garden stands from that day, or since somebody held it."""
    made = garden.changes.filter(what="plot-made", about_model=Plot._meta.label_lower)
    days = {pk: at.astimezone(garden.zone).date() for pk, at in made.values_list("about_pk", "at")}
    begun = Min("assignments__began_on")
    rows = garden.plots.annotate(begun=begun).values_list(
        "pk", "width_m", "length_m", "retired_on", "begun", "kind"
    )
    return [
        Ground(
            plot,
            width * length if width and length else None,
            retired,
            min(days[plot], held or days[plot]) if plot in days else None,
            bed=kind != PlotKind.PERSONAL,
        )
        for plot, width, length, retired, held, kind in rows
    ]


def _holders(garden: Garden) -> QuerySet[User]:
    """Everybody who holds, shares, held or shared a plot, with each but once."""
    held = Assignment.objects.filter(plot__garden=garden)
    shared = Assignment.co_gardeners.through.objects.filter(assignment__plot__garden=garden)
    return User.objects.filter(Q(pk__in=held.values("holder")) | Q(pk__in=shared.values("user")))


def time_given(garden: Garden, first: date, last: date) -> list[TimeGiven]:
    """All hours for the garden that stand, with the workday or task they were for."""
    rows = HoursDone.objects.filter(garden=garden, removed_at__isnull=True, day__range=(first, last))
    columns = rows.order_by("day", "pk").values_list(
        "day", "minutes", "person", "guest", Coalesce("workday__name", Value("")),
        Coalesce("task__name", Value("")), "log__plot",
    )  # fmt: skip
    return [TimeGiven(*row) for row in columns]


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
    """Of each planting whose row is known and whose every picking was weighed, what it gave."""
    picked = logs.filter(work=Work.PICK, planting__row_length_m__isnull=False)
    sums = picked.order_by().values("planting", crop_key=F("planting__crop"), row=F("planting__row_length_m"))
    told = sums.annotate(total=Sum("grams"), unweighed=Count("pk", filter=Q(grams__isnull=True)))
    return [RowPicked(one["crop_key"], one["row"], one["total"]) for one in told.filter(unweighed=0)]


def photos_to_show(logs: QuerySet[WorkLog], most: int) -> Sequence[LogPhoto]:
    """At most so many of the photos that may stand in a report, spread over the period, each picture once."""
    found = LogPhoto.objects.standing().filter(log__in=logs, may_show=True).select_related("log__plot")
    by_picture = {photo.image.name: photo for photo in found.order_by("-log__day", "-pk")}
    photos = sorted(by_picture.values(), key=lambda photo: (photo.log.day, photo.pk))
    if len(photos) <= most:
        return photos
    return [photos[round(n * (len(photos) - 1) / (most - 1))] for n in range(most)]
