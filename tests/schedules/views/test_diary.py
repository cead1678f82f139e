"""Reading back: diaries, the year at a glance and figures, each by who may know what."""

from __future__ import annotations

from datetime import date, timedelta
from uuid import uuid4

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from plots.models import HoursDone
from plots.photos import Picture
from schedules.models import WorkLog
from schedules.service.logs import keep_logs
from schedules.service.photos import keep_log_photo
from tests.conftest import Cast
from tests.factories import AssignmentFactory, CropFactory, GardenFactory, MembershipFactory, PlotFactory
from tests.pictures import jpeg

HERE = "/g/linden-row/"
NOTHING = "Nothing was logged in"


@pytest.fixture(autouse=True)
def today(time_machine):
    time_machine.move_to("2024-09-05T18:00Z", tick=False)


def logged(cast: Cast, work: str, day: date, **told: object) -> WorkLog:
    at = {"garden": cast.garden, "plots": [cast.plot], "person": cast.holder, "by": cast.coordinator}
    return keep_logs(work=work, day=day, key=uuid4(), **{**at, **told}).rows[0]


def a_season(cast: Cast) -> None:
    """Two crops, water known and unknown, a gift, work and hours."""
    kale, leek = CropFactory(name="Kale"), CropFactory(name="Leek")
    logged(cast, "water", date(2024, 6, 1), amount=90, unit="L")
    logged(cast, "water", date(2024, 6, 8))
    logged(cast, "harvest", date(2024, 7, 4), crop=kale, amount=2, unit="lb")
    gift = {"given_away": True, "given_to": "the pantry"}
    logged(cast, "harvest", date(2024, 8, 4), crop=leek, amount=12, unit="pcs", **gift)
    logged(cast, "weed", date(2024, 7, 4), minutes=45, note="=SUM(A1)")
    logged(cast, "hours", date(2024, 8, 1), minutes=120, plots=[])


def page(client, address: str) -> str:
    answer = client.get(HERE + address)
    assert answer.status_code == 200
    return " ".join(answer.content.decode().replace("\u00a0", " ").split())


def test_a_diary_tells_filters_and_goes_into_a_spreadsheet(cast: Cast, as_user) -> None:
    a_season(cast)
    told = WorkLog.objects.get(work="weed")
    keep_log_photo(logs=[told], picture=Picture(jpeg(8, 6), jpeg(8, 6), 8, 6), by=cast.holder)
    holder, diary = as_user(cast.holder), f"plots/{cast.plot.pk}/diary/"
    shown = page(holder, diary)
    assert (
        shown.index("August 2024</h2>")
        < shown.index("Picked Leek, 12 pieces")
        < shown.index("June 2024</h2>")
    )
    assert shown.count("/thumb.jpg") == 1
    assert "Watered plot" not in shown  # the page is about this plot
    assert "Picked Kale" not in page(holder, f"{diary}?crop=Leek")
    assert "1 of 5" in page(holder, f"{diary}?with=photos")
    assert "2 of 5" in page(holder, f"{diary}?month=2024-06")
    assert "1 of 5" in page(holder, f"{diary}?q=sum")
    by_work = page(holder, f"{diary}?sort=work")
    assert "August 2024</h2>" not in by_work
    table = holder.get(f"{HERE}{diary}?as=csv").content.decode()
    assert "'=SUM(A1)" in table
    assert "2024-08-04,Picked,Leek,Hollis," in table
    assert NOTHING in page(holder, f"{diary}?year=2023")
    # the garden's diary has the hours, too: at no plot, and one's own
    assert "Hours for the garden, 2 h" in page(holder, "diary/")
    assert "Watered plot A1, 90 L" in page(as_user(cast.coordinator), "diary/?plot=A1")
    assert NOTHING in page(as_user(cast.member), "diary/")


def test_history_stays_with_the_plot_and_names_stay_with_those_who_knew_them(cast: Cast, as_user) -> None:
    a_season(cast)
    pantry = WorkLog.objects.get(given_away=True)
    own = logged(cast, "note", date(2024, 8, 20), note="Good ground", person=cast.co_gardener)
    cast.assignment.ended_on = date(2024, 8, 31)
    cast.assignment.save()
    nel = MembershipFactory(garden=cast.garden, user__name="Nel New").user
    AssignmentFactory(plot=cast.plot, holder=nel, season=cast.assignment.season, began_on=date(2024, 9, 1))
    logged(cast, "weed", date(2024, 9, 2), person=cast.helper)
    new = as_user(nel)
    plot = f"plots/{cast.plot.pk}/"
    lists = [f"{plot}diary/", "diary/", f"{plot}glance/", "figures/?by=crop"]
    addresses = [*lists, f"logs/{pantry.pk}/", f"logs/{own.pk}/"]
    pages = [page(new, address) for address in addresses]
    files = [new.get(HERE + address, {"as": "csv"}).content.decode() for address in lists]
    for text in [*pages, *files]:
        assert not [name for name in ("Hollis", "Corin", "the pantry") if name in text]
    assert "Good ground" in pages[0]
    assert "an earlier gardener" in pages[0]
    assert "Hilde" in pages[0]  # looks after the garden
    assert "2 h" not in pages[0]  # somebody else's hours
    assert "Leek" in pages[2]
    assert "By member" not in pages[3]
    # what others did before is read, and not changed
    assert new.get(f"{HERE}logs/{pantry.pk}/edit/").status_code == 403
    assert new.post(f"{HERE}logs/{pantry.pk}/remove/").status_code == 403
    assert new.post(f"{HERE}log/{pantry.key}/photos/").status_code == 403

    # names are spared without asking for each log
    with CaptureQueriesContext(connection) as few:
        new.get(f"{HERE}{plot}diary/")
    for day in (date(2024, 6, 2), date(2024, 6, 3)):
        logged(cast, "weed", day)
    with CaptureQueriesContext(connection) as more:
        new.get(f"{HERE}{plot}diary/")
    assert len(more) == len(few)

    # who gave the plot up no longer sees it, and still reads what they did themselves
    before = as_user(cast.holder)
    assert before.get(f"{HERE}plots/{cast.plot.pk}/diary/").status_code == 404
    kept = page(before, "diary/")
    assert "Picked Leek, plot A1" in kept
    assert "given away to the pantry" in kept
    assert "Good ground" not in kept
    assert "Hollis" in page(as_user(cast.coordinator), f"plots/{cast.plot.pk}/diary/")


def test_a_year_at_a_glance_draws_sums_and_says_what_it_leaves_out(cast: Cast, as_user) -> None:
    a_season(cast)
    address = f"plots/{cast.plot.pk}/glance/"
    shown = page(as_user(cast.holder), address)
    # 90 L over 18 square metres are 5 mm
    assert "Worked on 4 days, last on Aug. 4, 2024." in shown
    assert "24 gal, 0.2 in over the plot" in shown
    assert "2 lb and 12 pieces" in shown
    assert "1 watering is not in the water" in shown
    assert shown.count('role="img"') == 2
    assert shown.index('<th scope="row">Kale</th>') < shown.index('<th scope="row">Leek</th>')
    assert "the pantry" in shown
    table = as_user(cast.holder).get(f"{HERE}{address}?as=csv").content.decode().splitlines()
    assert table[0].startswith("\ufeffMonth,Watered,Picked,Weeded,Logs,")
    assert table[6].startswith("June 2024,2,,,2,23.8,1,")
    assert len(table) == 13
    assert NOTHING in page(as_user(cast.holder), f"{address}?year=2020")


def test_figures_of_the_garden_count_hours_wherever_they_were_kept(cast: Cast, as_user) -> None:
    a_season(cast)
    day = cast.garden.workdays.create(name="Paths", day=date(2024, 5, 4))
    kept = {"garden": cast.garden, "day": day.day, "workday": day}
    HoursDone.objects.create(**kept, guest="Gus", minutes=60)
    HoursDone.objects.create(**kept, person=cast.member, minutes=180)
    run = as_user(cast.coordinator)
    shown = page(run, "figures/")
    assert "1 of 1 plots have logs" in shown
    assert '<dt>Hours for the garden</dt><dd class="figures">6 h</dd>' in shown
    by_member = run.get(f"{HERE}figures/?by=member").context["shown"]
    assert [(row.name, row.totals.garden_minutes) for row in by_member.every] == [
        ("Hollis", 120),
        ("Maren", 180),
        ("guests", 60),
    ]
    assert [row.name for row in run.get(f"{HERE}figures/?by=month").context["shown"].every] == [
        "May 2024", "June 2024", "July 2024", "August 2024"
    ]  # fmt: skip
    table = run.get(f"{HERE}figures/?by=plot&as=csv").content.decode().splitlines()
    assert table[1].startswith("A1,4,2024-08-04,5,23.8,1,2.0,12,0,0.0,12,45,0,")
    # a helper without the power reads no hours and nobody's sums
    helper = page(as_user(cast.helper), "figures/?by=member")
    assert "Hours for the garden</dt>" not in helper
    assert "By member" not in helper
    assert "1 of 1 plots" not in page(as_user(cast.holder), "figures/")


def test_south_of_the_equator_the_year_runs_over_new_year(cast: Cast, as_user, time_machine) -> None:
    south = GardenFactory(slug="south", latitude=-42.0, units="metric")
    plot = PlotFactory(garden=south, label="1")
    run = MembershipFactory(garden=south, role="coordinator").user
    time_machine.move_to("2025-02-05T18:00Z", tick=False)
    at = {"garden": south, "plots": [plot], "person": run, "by": run}
    for day in (date(2024, 6, 30), date(2024, 7, 1), date(2025, 1, 31)):
        keep_logs(work="weed", day=day, key=uuid4(), **at)
    answer = as_user(run).get(f"/g/south/plots/{plot.pk}/glance/").content.decode()
    assert "Plot 1: 2024/25 at a glance" in answer
    assert "Worked on 2 days" in answer


@pytest.mark.parametrize("count", [1, 3])
def test_reading_back_asks_as_often_for_three_as_for_one(
    cast: Cast, as_user, count: int, django_assert_num_queries
) -> None:
    picture = Picture(jpeg(8, 6), jpeg(8, 6), 8, 6)
    for number in range(count):
        plot = cast.plot if number == 0 else PlotFactory(garden=cast.garden)
        person = MembershipFactory(garden=cast.garden).user
        told = {"plots": [plot], "person": person, "crop": CropFactory(), "amount": 1, "unit": "lb"}
        log = logged(cast, "harvest", date(2024, 7, 4) + timedelta(days=number), **told)
        keep_log_photo(logs=[log], picture=picture, by=cast.holder)
    client = as_user(cast.coordinator)
    asked = {
        "diary/": 10,
        f"plots/{cast.plot.pk}/diary/": 11,
        f"plots/{cast.plot.pk}/glance/": 8,
        "figures/": 12,
        "figures/?by=crop": 12,
        "figures/?by=member": 12,
    }
    for address, queries in asked.items():
        with django_assert_num_queries(queries, info=address):
            client.get(HERE + address)
