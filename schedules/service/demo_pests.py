"""The demonstration's recent weather and rain, its guidance, one thing seen and one product used."""

from __future__ import annotations

from datetime import date, timedelta
from uuid import uuid4

from crops.models import Crop
from plots.models import Assignment, Garden, User
from schedules.days import DayWeather
from schedules.models import DailyWeather, Guidance
from schedules.scouting import Seen, Used
from schedules.service.guidance import keep_guidance
from schedules.service.logs import keep_logs
from schedules.service.rain import keep_rain
from schedules.service.weather import import_station
from schedules.stations import StationFile, StationFormat
from schedules.stations.findings import Findings

_A_DRY_YEAR = 2012  # the record's driest summer, and a leap year: each day of any year is in it
_DAYS = 60

GUIDANCE = [
    {
        "thing": "Holes in leaves",
        "signs": "Round holes, or eaten edges. Look at night with a lamp, and under the leaves.",
        "tolerate": "Old outer leaves may have holes: the plant grows faster than it is eaten. Wait a week.",
        "prevent": "Water in the morning, not in the evening. Lay a fine net over young cabbage plants.",
        "by_hand": "Pick caterpillars and slugs off, every second day.",
        "ask": "Ask the coordinator before anything is sprayed or strewn.",
        "source": "This garden, five summers",
        "reach_m": 7.62,
    },
    {
        "thing": "Aphids",
        "signs": "Small soft insects in crowds on tips and under leaves; the leaves curl and are sticky.",
        "tolerate": "Where ladybirds and their young are at work, leave them to it for two weeks.",
        "by_hand": "Rinse them off with water on three mornings.",
        "ask": "Ask the coordinator before anything is sprayed.",
        "source": "This garden, five summers",
    },
]


def see_pests(garden: Garden, people: list[User], today: date) -> None:
    """Everything goes through the services that the pages use; `people` begin with the coordinator."""
    thermometer = StationFile(layout=StationFormat.PLAIN, days=_lately(garden, today), findings=Findings())
    import_station(garden=garden, station=thermometer, name="Thermometer at the shed", plan_by_it=False)
    for days, mm in ((12, 9.0), (4, 4.0)):
        day = today - timedelta(days=days)
        keep_rain(garden=garden, day=day, since=day - timedelta(days=3), mm=mm, by=people[1])
    for guidance in GUIDANCE:
        keep_guidance(guidance=Guidance(garden=garden, **guidance), by=people[0])
    held = list(Assignment.objects.on(today).filter(plot__garden=garden).order_by("plot__label"))
    kale = Crop.objects.get(garden=None, slug="kale")
    _log(
        held[0],
        "scout",
        kale,
        today - timedelta(days=5),
        seen=Seen("Holes in leaves", "outer leaves", "some"),
    )
    _log(held[-1], "treat", kale, today - timedelta(days=1), used=Used("Alder Soap (invented)", 5, "Marisol"))


def _lately(garden: Garden, today: date) -> tuple[DayWeather, ...]:
    """The last weeks of a thermometer of the garden's own: those days of a dry year, moved to this one."""
    end = today - timedelta(days=1)
    last = date(_A_DRY_YEAR, end.month, end.day)
    first = last - timedelta(days=_DAYS - 1)
    then = DailyWeather.objects.filter(record__garden=garden, day__range=(first, last)).order_by("day")
    return tuple(DayWeather(end - (last - row.day), row.tmin_c, row.tmax_c, row.precip_mm) for row in then)


def _log(held: Assignment, work: str, crop: Crop, day: date, **told: Seen | Used) -> None:
    person = {"person": held.holder, "by": held.holder}
    garden, plots = held.plot.garden, [held.plot]
    keep_logs(garden=garden, plots=plots, work=work, crop=crop, day=day, key=uuid4(), **person, **told)
