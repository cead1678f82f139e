"""The demonstration: two gardens with people and plans, dated around the day they are made.

People and towns are invented. The first garden has the weather of a real, open record (`fixtures/stations/`);
the second lies south of the equator, measures in metres, and has only frost dates that somebody typed in.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from itertools import cycle, islice
from pathlib import Path
from typing import NamedTuple

from django.db import transaction

from crops.catalogue import load_catalogue
from crops.models import Crop, Variety
from crops.service import add_planting, save_variety, update_catalogue
from plots.models import Assignment, Change, Garden, Membership, Paper, Plot, Role, Season, Units, User
from schedules.bases import TableDate
from schedules.seasons import Side
from schedules.service.demo_care import look_after
from schedules.service.demo_climate import read_thermometers
from schedules.service.demo_ground import draw_north, draw_south
from schedules.service.demo_logs import log_work
from schedules.service.demo_people import tell_about_people
from schedules.service.demo_pests import see_pests
from schedules.service.demo_rules import decide_rules
from schedules.service.demo_turn import turn_season
from schedules.service.demo_waiting import let_people_wait
from schedules.service.demo_work import add_work
from schedules.service.demo_workshops import hold_workshops
from schedules.service.weather import import_station, save_frost_table
from schedules.stations import read_station

FOOT = 0.3048
RECORD = Path(__file__).resolve().parents[2] / "fixtures" / "stations" / "champion_daily.csv"


class Person(NamedTuple):
    name: str
    sign_in_name: str
    role: Role = Role.MEMBER
    email: str = ""


class Sown(NamedTuple):
    """A crop as the demonstration plants it, in each of its years."""

    crop: str
    turn: str
    start: str
    successions: int = 1
    row_m: float = 3.0


NORTH = [
    Person("Marisol Núñez", "marisol", Role.COORDINATOR, "marisol@example.org"),
    Person("Đặng Thu Hà", "ha", email="ha@example.org"),
    Person("Βασιλική Καρρά", "vasiliki"),
    Person("Оксана Гнатюк", "oksana"),
    Person("Jürgen Vößler", "juergen", Role.HELPER),
    Person("Żaneta Mączka", "zaneta"),
    Person("Ifẹ́olúwa Adébáyọ̀", "ife"),
    Person("Çiğdem Şahinli", "cigdem"),
    Person("Tom Beckwith", "tom"),
    Person("Rosalie Ombre", "rosalie"),
]
SOUTH = [
    Person("Fergus Tindall", "fergus", Role.COORDINATOR),
    Person("Leilani Prowse", "leilani"),
    Person("Hứa Minh Châu", "chau"),
    Person("Owain Trevean", "owain"),
]

OWN_PLAN = [
    Sown("pea-snap", "spring", "sow"),
    Sown("lettuce-leaf", "spring", "sow", 3, 1.5),
    Sown("tomato", "spring", "transplant", row_m=4.5),
    Sown("bean-bush", "spring", "sow", 2),
    Sown("leek", "spring", "transplant"),
    Sown("carrot", "autumn", "sow"),
    Sown("kale", "autumn", "transplant"),
    Sown("garlic", "autumn", "sow"),
]
OTHER_PLANS = [
    [
        Sown("onion-transplants", "spring", "transplant"),
        Sown("parsnip", "spring", "sow"),
        Sown("squash-winter", "spring", "sow"),
    ],
    [
        Sown("potato", "spring", "sow", row_m=6.0),
        Sown("spinach", "autumn", "sow"),
        Sown("beet", "autumn", "sow"),
    ],
    [Sown("pepper-sweet", "spring", "transplant"), Sown("basil", "spring", "transplant", row_m=1.0)],
    [
        Sown("radish", "spring", "sow", 4, 1.0),
        Sown("cucumber", "spring", "sow"),
        Sown("garlic", "autumn", "sow"),
    ],
    [
        Sown("cabbage", "autumn", "transplant"),
        Sown("celery", "spring", "transplant"),
        Sown("kale", "spring", "sow"),
    ],
]
TABLE = [
    (0.0, Side.LAST, {90: (9, 22), 50: (10, 16), 10: (11, 9)}),
    (0.0, Side.FIRST, {10: (4, 8), 50: (5, 3), 90: (5, 27)}),
    (-2.2, Side.LAST, {90: (8, 20), 50: (9, 14), 10: (10, 10)}),
    (-2.2, Side.FIRST, {10: (5, 4), 50: (5, 30), 90: (6, 24)}),
]


@dataclass(frozen=True)
class Demo:
    """Whom the visitor can be."""

    coordinator: User
    member: User
    southern_member: User


@transaction.atomic
def build_demo(*, today: date) -> Demo:
    """Fills an empty database; plans run from last year's to next year's, so that no day finds them empty."""
    update_catalogue(load_catalogue())
    north = _garden_in_nebraska(today)
    south = _garden_in_the_south()
    north_people = _people(north, NORTH)
    south_people = _people(south, SOUTH)
    User.objects.filter(pk=north_people[0].pk).update(is_staff=True)
    _run(north, north_people, [f"{bed}{number}" for bed in "AB" for number in range(1, 7)], today)
    _run(south, south_people, ["1", "2", "3", "4", "5"], today)
    decide_rules(north, north_people[0])
    add_work(north, north_people, today)
    add_work(south, south_people, today)
    draw_north(north, north_people[0])
    draw_south(south, south_people[0])
    tell_about_people(north, north_people, today)
    turn_season(north, north_people, today)
    let_people_wait(north, north_people, today)
    look_after(north, north_people, today)
    see_pests(north, north_people, today)
    read_thermometers(north, north_people, today)
    log_work(north, north_people, today)
    hold_workshops(north, north_people, today)
    log_work(south, south_people, today)
    Change.objects.filter(what="lesson-learned").delete()  # nobody was told other dates before
    return Demo(north_people[0], north_people[1], south_people[1])


def _garden_in_nebraska(today: date) -> Garden:
    garden = Garden.objects.create(
        name="Linnet Lane Garden",
        slug="linnet-lane",
        place="Alder Crossing, Nebraska",
        time_zone="America/Denver",
        latitude=40.40,
        longitude=-101.73,
        elevation_m=1071.9816,  # 3,517 ft
        units=Units.US,
        paper=Paper.LETTER,
        public_line="Grown by neighbours. Please look, and ask before you pick.",
    )
    with RECORD.open("rb") as stream:
        station = read_station(stream, today=today, latitude=garden.latitude)
    import_station(garden=garden, station=station, name="Champion, Nebraska")
    save_variety(
        garden=garden,
        crop=Crop.objects.get(garden=None, slug="tomato"),
        variety=Variety(
            name="Alder Early",
            maturity_days_low=52,
            maturity_days_high=60,
            note="Invented for the demonstration: ripens early and stays low.",
        ),
    )
    return garden


def _garden_in_the_south() -> Garden:
    garden = Garden.objects.create(
        name="Quince Terrace",
        slug="quince-terrace",
        place="Wattle Ferry",
        time_zone="Australia/Hobart",
        latitude=-42.3,
        longitude=147.1,
        elevation_m=85,
        units=Units.METRIC,
        paper=Paper.A4,
    )
    dates = [
        TableDate(celsius=celsius, side=side, percent=percent, month=month, day=day)
        for celsius, side, chances in TABLE
        for percent, (month, day) in chances.items()
    ]
    save_frost_table(garden=garden, dates=dates, counts_passed=False, source="Invented for the demonstration")
    return garden


def _people(garden: Garden, people: list[Person]) -> list[User]:
    users = []
    for person in people:
        user = User.objects.create_user(person.sign_in_name, name=person.name, email=person.email or None)
        Membership.objects.create(garden=garden, user=user, role=person.role)
        users.append(user)
    return users


def _run(garden: Garden, people: list[User], labels: list[str], today: date) -> None:
    """Seasons, plots with their holders, the last plot free, and a plan for each plot that is held."""
    last, now = (
        Season.objects.create(
            garden=garden, name=str(year), starts_on=date(year, 1, 1), ends_on=date(year, 12, 31)
        )
        for year in (today.year - 1, today.year)
    )
    plans = cycle(OTHER_PLANS)
    members = people[1:]
    for label, holder in zip(labels, islice(cycle(members), len(labels) - 1), strict=False):
        plot = _plot(garden, label)
        old = Assignment.objects.create(
            plot=plot, season=last, holder=holder, began_on=last.starts_on, ended_on=last.ends_on
        )
        current = Assignment.objects.create(plot=plot, season=now, holder=holder, began_on=now.starts_on)
        if label == labels[0]:
            old.co_gardeners.add(members[-1])
            current.co_gardeners.add(members[-1])
        _plant(plot, OWN_PLAN if label == labels[0] else next(plans), holder, today)
    _plot(garden, labels[-1])


def _plot(garden: Garden, label: str) -> Plot:
    raised = label.startswith("B")
    return Plot.objects.create(
        garden=garden,
        label=label,
        width_m=4 * FOOT if raised else 10 * FOOT,
        length_m=12 * FOOT if raised else 20 * FOOT,
        note="Raised bed, reached from a firm path." if raised else "",
    )


def _plant(plot: Plot, plan: list[Sown], by: User, today: date) -> None:
    """The plan of this year and the next; of last year only what may still stand over winter."""
    crops = {crop.slug: crop for crop in Crop.objects.filter(garden=None)}
    early = plot.garden.varieties.filter(crop__slug="tomato").first()
    for year in (today.year - 1, today.year, today.year + 1):
        for sown in plan:
            if year < today.year and sown.turn == "spring":
                continue
            add_planting(
                plot=plot,
                crop=crops[sown.crop],
                variety=early if sown.crop == "tomato" else None,
                year=year,
                turn=sown.turn,
                start=sown.start,
                successions=sown.successions,
                row_length_m=sown.row_m,
                by=by,
            )
