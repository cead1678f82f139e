import re
import socket
import subprocess
import sys
from datetime import date
from http.cookiejar import CookieJar
from pathlib import Path
from urllib.parse import urlencode
from urllib.request import HTTPCookieProcessor, build_opener

import pytest
from django.core.management import CommandError, call_command

from crops.models import Planting
from plots import access
from plots.models import Assignment, Garden, Plot, User
from schedules.management.commands import demo
from schedules.service import GardenDates, garden_climate, weeks_ahead, years_around
from schedules.service.demo import build_demo

ROOT = Path(__file__).resolve().parents[3]
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
        plots = list(garden.plots.all())
        for month in range(1, 13):
            day = date(2024, month, 15)
            ahead = weeks_ahead(dates.entries(plots, years_around(day)), day)
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


def free_port() -> int:
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return probe.getsockname()[1]


def command(folder, *options):
    # The address and the database of a real garden, which the demo has to leave alone.
    environment = {
        "DATA_DIR": str(folder),
        "DATABASE_URL": "postgres://nobody@127.0.0.1:1/real",
        "SITE_URL": "https://x.example",
    }
    return {
        "args": [sys.executable, str(ROOT / "manage.py"), "demo", *options],
        "env": environment,
        "text": True,
    }


def test_it_is_served_and_its_links_let_one_in(tmp_path):
    port = free_port()
    server = subprocess.Popen(**command(tmp_path, "--port", str(port)), stdout=subprocess.PIPE)
    try:
        said = ""
        while "Serving at" not in said:
            line = server.stdout.readline()
            assert line, said
            said += line
        links = re.findall(rf"http://127\.0\.0\.1:{port}/link/\S+/", said)
        assert len(links) == 3
        page = sign_in(links[1])
        assert "Linnet Lane Garden" in page
        assert "Signed in as" in page
        again = subprocess.run(
            **command(tmp_path, "--no-serve", f"--port={port}"), capture_output=True, check=True
        )
        new_links = re.findall(rf"http://127\.0\.0\.1:{port}/link/\S+/", again.stdout)
        assert len(set(links) | set(new_links)) == 6
        assert "Making the demo garden" not in again.stdout
    finally:
        server.terminate()
        server.wait(10)
        server.stdout.close()


def sign_in(link: str) -> str:
    jar = CookieJar()
    browser = build_opener(HTTPCookieProcessor(jar))
    for _try in range(50):
        try:
            browser.open(link, timeout=10).close()
            break
        except OSError:
            subprocess.run(["sleep", "0.2"], check=True)
    token = next(cookie.value for cookie in jar if cookie.name == "csrf")
    with browser.open(link, urlencode({"csrfmiddlewaretoken": token}).encode(), timeout=20) as answer:
        return answer.read().decode()
