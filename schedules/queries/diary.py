"""What diaries and figures read of logs, each in a bounded number of queries."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import date

from django.db.models import Exists, Max, OuterRef, Prefetch, QuerySet, prefetch_related_objects
from django.db.models.functions import Coalesce

from crops.models import Crop
from plots.models import Garden, HoursDone, Plot, User
from schedules.access import Known
from schedules.figures import Logged
from schedules.models import LogPhoto, WorkLog
from schedules.work import Work


def latest_day(rows: QuerySet[WorkLog]) -> date | None:
    """The day of the latest log."""
    latest: date | None = rows.aggregate(day=Max("day"))["day"]
    return latest


def diary_of(rows: QuerySet[WorkLog], known: Known) -> list[WorkLog]:
    """The logs ready to be told, latest first; each crop and person is read once however many logs name it.

    `pictured` says whether there is a photo; `with_photos` reads those of one page.
    """
    pictured = Exists(LogPhoto.objects.standing().filter(log=OuterRef("pk")))
    found = rows.annotate(pictured=pictured).select_related("sighting", "treatment")
    logs = list(found.prefetch_related("plot", "person", "crop", "planting__crop", "planting__variety"))
    for log in logs:
        spare_names(log, known)
    return logs


def spare_names(log: WorkLog, known: Known) -> None:
    """Takes the names of others out of a log's words, where who did it is not to be named either."""
    log.named = log.person_id in known
    if not log.named:
        log.given_to = ""
        if hasattr(log, "treatment"):
            log.treatment.asked = ""


def with_photos(logs: Sequence[WorkLog]) -> None:
    """Reads the photos of logs, as `shown_photos`."""
    shown = Prefetch("photos", LogPhoto.objects.standing(), to_attr="shown_photos")
    prefetch_related_objects([log for log in logs if log.pictured], shown)


def work_logged(rows: QuerySet[WorkLog], known: Known) -> list[Logged]:
    """The logs as figures take them; one query. People that are not to be named stand for nobody."""
    columns = rows.order_by("day", "pk").values_list(
        "day", "work", "plot_id", Coalesce("planting__crop_id", "crop_id"), "person_id", "litres", "grams",
        "pieces", "minutes", "given_away", "given_to",
    )  # fmt: skip
    return [
        Logged(*row[:4], row[4] if named else None, *row[5:10], row[10] if named else "")
        for row in columns
        for named in [row[4] in known]
    ]


def hours_done(garden: Garden, first: date, last: date) -> list[Logged]:
    """All hours for the garden, those of workdays and guests too; the logs of hours are among them."""
    rows = HoursDone.objects.filter(garden=garden, removed_at__isnull=True, day__range=(first, last))
    columns = rows.values_list("day", "log__plot_id", "person_id", "minutes")
    return [
        Logged(day, Work.HOURS, plot=plot, person=person, minutes=minutes)
        for day, plot, person, minutes in columns
    ]


def crops_by_key(keys: Iterable[int | None]) -> dict[int, Crop]:
    return Crop.objects.in_bulk([key for key in set(keys) if key is not None])


def people_by_key(keys: Iterable[int | None]) -> dict[int, User]:
    return User.objects.in_bulk([key for key in set(keys) if key is not None])


def plots_by_key(garden: Garden, keys: Iterable[int | None]) -> dict[int, Plot]:
    return garden.plots.in_bulk([key for key in set(keys) if key is not None])
