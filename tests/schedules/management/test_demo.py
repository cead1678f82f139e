import socket
from datetime import date

import pytest
from django.core.management import CommandError, call_command

from crops.models import Planting
from plots import access
from plots.models import Assignment, Garden, Plot, User
from schedules.management.commands import demo
from schedules.service import GardenDates, garden_climate, weeks_ahead, years_around
from schedules.service.demo import build_demo

LEAP_DAY = date(2024, 2, 29)


@pytest.mark.django_db
def test_the_demo_has_what_it_promises():
    made = build_demo(today=LEAP_DAY)
    north, south = Garden.objects.order_by("-latitude")
    assert [str(g.place) for g in (north, south)] == ["Alder Crossing, Nebraska", "Wattle Ferry"]
    assert [garden_climate(g).basis for g in (north, south)] == ["record", "table"]
    assert (Plot.objects.filter(garden=north).count(), north.memberships.count()) == (14, 10)
    assert access.may_run(made.coordinator, north)
    assert [str(plot) for plot in access.own_plots(made.member, north)] == ["A1", "B4"]
    assert access.own_plots(made.southern_member, south).exists()
    plan = Planting.objects.filter(plot__label="A1", year=2024)
    assert (plan.count(), set(plan.values_list("turn", flat=True))) == (8, {"spring", "autumn"})
    assert Assignment.objects.filter(ended_on__isnull=True).values("plot").distinct().count() == 15
    assert not User.objects.exclude(password__startswith="!").exists()
    assert idle_months() == []


def idle_months() -> list[int]:
    """Months in the middle of which there is no work in either garden."""
    worked: dict[int, int] = {}
    for garden in Garden.objects.all():
        dates = GardenDates.of(garden)
        entries = dates.entries(garden.plots.all(), years_around(LEAP_DAY))
        for month in range(1, 13):
            ahead = weeks_ahead(entries, date(2024, month, 15))
            jobs = [job for week in (ahead.this, *ahead.coming) for job in week.jobs]
            worked[month] = worked.get(month, 0) + len(jobs)
    return [month for month, jobs in worked.items() if not jobs]


@pytest.mark.django_db
def test_it_touches_no_database_but_its_own():
    with pytest.raises(CommandError, match=r"started with: python3 manage\.py demo"):
        call_command("demo")
    assert not User.objects.exists()


@pytest.mark.parametrize(
    ("made_on", "today", "version", "fresh"),
    [
        ("2024-05-01", date(2024, 5, 7), "v", True),
        ("2024-05-01", date(2024, 5, 8), "v", False),
        ("2024-05-01", date(2024, 4, 30), "v", False),
        ("2023-12-31", date(2024, 1, 1), "v", False),
        ("2024-05-01", date(2024, 5, 1), "other", False),
        ("yesterday", date(2024, 5, 1), "v", False),
    ],
)
def test_when_it_has_gone_stale(tmp_path, monkeypatch, made_on, today, version, fresh):
    monkeypatch.setattr(demo, "_version", lambda: "v")
    stamp = tmp_path / "demo.stamp"
    assert not demo._is_fresh(stamp, today)
    stamp.write_text(f"{made_on} {version}")
    assert demo._is_fresh(stamp, today) is fresh


def test_a_port_in_use_is_named_with_another_to_try():
    with socket.socket() as busy:
        busy.bind(("127.0.0.1", 0))
        busy.listen()
        port = busy.getsockname()[1]
        with pytest.raises(CommandError, match=f"Port {port} cannot be used.*--port"):
            demo._keep_port_free(port)
    demo._keep_port_free(port)
    with pytest.raises(CommandError, match="Port 70000 cannot be used"):
        demo._keep_port_free(70000)
