"""The calendar on paper, and that page, paper and feed agree on every date."""

from __future__ import annotations

import json
import re
from io import BytesIO, StringIO

import pytest
from django.core.management import call_command
from django.test import Client
from icalendar import Calendar
from pypdf import PdfReader

from crops.models import Crop
from crops.service.catalogue import update_catalogue
from schedules.service import make_feed, plot_season
from schedules.service.member_plans import holding_of_plots, member_plans
from schedules.windows import Window
from schedules.wording.calendar import day_text
from tests.conftest import Cast
from tests.schedules.samples import carrot, planted, set_mean_frost, tomato


@pytest.fixture
def holder(cast: Cast, as_user, time_machine) -> Client:
    """The plot's holder, on a Wednesday in April 2026, in a garden with mean frost dates."""
    time_machine.move_to("2026-04-22T18:00Z", tick=False)
    set_mean_frost(cast.garden)
    return as_user(cast.holder)


def rows_of(cast: Cast):
    today = cast.garden.today()
    holdings = holding_of_plots(cast.garden, [cast.plot], today)
    (planned,) = member_plans(cast.garden, holdings, year=2026, today=today, paper="letter")
    return tuple(planned.plan.rows)


def pdf_text(holder: Client, cast: Cast) -> str:
    response = holder.get(f"/g/linden-row/print/calendar.pdf?plots={cast.plot.pk}&year=2026")
    assert (response.status_code, response.headers["Content-Type"]) == (200, "application/pdf")
    return "\n".join(page.extract_text() for page in PdfReader(BytesIO(response.content)).pages)


def test_the_sheet_names_plot_people_source_and_crops(cast: Cast, holder: Client) -> None:
    planted(cast.plot, carrot())
    text = pdf_text(holder, cast)
    for words in ("Plot A1 in 2026", "Hollis, Corin", "Linden Row", "Carrot", "Mean frost dates"):
        assert words in text


def test_the_sheet_of_an_empty_plan_is_a_sheet(cast: Cast, holder: Client) -> None:
    assert "Nothing is planned yet." in pdf_text(holder, cast)


def test_a_planting_without_a_window_is_on_the_sheet_with_its_reason(cast: Cast, holder: Client) -> None:
    planted(cast.plot, tomato(), turn="autumn")
    (row,) = rows_of(cast)
    assert (row.crop, row.operation, row.earliest, row.best, row.latest) == (
        "Tomato, autumn",
        "transplant",
        None,
        None,
        None,
    )
    assert len(row.reasons) == 1


def test_the_year_before_is_on_the_sheet_only_as_far_as_it_reaches_in(cast: Cast, holder: Client) -> None:
    planted(cast.plot, carrot(harvest_days_low=120, harvest_days_high=240), year=2025, turn="autumn")
    (row,) = rows_of(cast)
    assert (row.operation, row.latest.year) == ("harvest", 2026)


def test_the_command_gives_the_dates_of_the_plan(cast: Cast, holder: Client) -> None:
    update_catalogue()
    crops = {crop.slug: crop for crop in Crop.objects.filter(slug__in=["beet", "cabbage"])}
    for slug, turn in (("beet", "spring"), ("beet", "autumn"), ("cabbage", "spring")):
        planted(cast.plot, crops[slug], turn=turn)
    out = StringIO()
    arguments = ["--last-frost", "05-10", "--first-frost", "10-01", "--year", "2026", "--json"]
    call_command("windows", *arguments, "--crop", "beet", "--crop", "cabbage", stdout=out)
    printed = {
        (one["crop"], one["season"], one["operation"], one["earliest"], one["best"], one["latest"])
        for one in json.loads(out.getvalue())
        if one["succession"] == 1 and one["earliest"]
    }
    planned = {
        (window.crop, window.turn.value, window.operation.value, *dates_of(window))
        for dated in plot_season(cast.plot, 2026, cast.garden.today()).calendar.plantings
        for window in dated.windows
    }
    assert len(planned) == 3 + 3 + 4
    assert planned <= printed


def dates_of(window: Window) -> list[str]:
    return [day.isoformat() for day in (window.earliest, window.best, window.latest)]


def test_page_paper_and_feed_have_the_same_dates(cast: Cast, holder: Client) -> None:
    plantings = [
        planted(cast.plot, carrot(), successions=2),
        planted(cast.plot, tomato()),
        planted(cast.plot, carrot(slug="kale", name="Kale"), turn="autumn"),
    ]
    rows = [(row.crop, row.best, row.earliest, row.latest) for row in rows_of(cast)]
    assert len(rows) == 4 + 4 + 2

    page = holder.get(f"/g/linden-row/plots/{cast.plot.pk}/plan/?year=2026").content.decode()
    cells = re.findall(
        r'<th scope="row"><a [^>]*>([^<]*)</a></th>.*?<td class="figures"[^>]*>([^<]*)</td>'
        r'.*?<strong>([^<]*)</strong></td>.*?<td class="figures"[^>]*>([^<]*)</td>',
        page,
        re.DOTALL,
    )
    assert sorted(cells) == sorted(
        (crop, day_text(earliest, 2026), day_text(best, 2026), day_text(latest, 2026))
        for crop, best, earliest, latest in rows
    )

    feed = make_feed(user=cast.holder, garden=cast.garden)
    calendar = Calendar.from_ical(Client().get(f"/feed/{feed.token}.ics").content)
    events = [
        (
            str(event["summary"]).split(": ")[1].split(" (")[0],
            event.decoded("dtstart"),
            str(event["description"]).splitlines(),
        )
        for event in calendar.walk("VEVENT")
    ]
    assert sorted((crop, best) for crop, best, _ in events) == sorted((crop, best) for crop, best, *_ in rows)
    spans = {
        f"Earliest {day_text(earliest)}, best {day_text(best)}, latest {day_text(latest)}."
        for _, best, earliest, latest in rows
    }
    assert {line for *_, lines in events for line in lines if line.startswith("Earliest")} == spans

    text = pdf_text(holder, cast)
    assert [crop for crop, *_ in rows if crop not in text] == []
    for planting in plantings:
        why = holder.get(f"/g/linden-row/plantings/{planting.pk}/").content.decode()
        for crop, best, earliest, latest in rows:
            if crop.split(", ")[0] == planting.crop.name:
                line = (
                    f"Earliest {day_text(earliest, 2026)}, best <strong>{day_text(best, 2026)}</strong>, "
                    f"latest {day_text(latest, 2026)}"
                )
                assert line in why
