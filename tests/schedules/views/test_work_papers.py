"""The sign-in sheet and the dates as printed."""

from datetime import date
from io import BytesIO

import pytest
from pypdf import PdfReader

from plots import service
from plots.models import GardenDate, GardenRules, Workday, WorkTask

pytestmark = pytest.mark.django_db


@pytest.fixture(autouse=True)
def april(time_machine):
    time_machine.move_to("2024-04-20T18:00Z", tick=False)


def words(answer) -> str:
    assert answer.headers["Content-Type"] == "application/pdf"
    return " ".join(
        " ".join(page.extract_text() for page in PdfReader(BytesIO(answer.content)).pages).split()
    )


def test_the_sign_in_sheet_has_who_is_down_and_lines_for_others(cast, as_user):
    day = Workday(garden=cast.garden, name="Paths", day=date(2024, 5, 4), rain_day=date(2024, 5, 11))
    service.keep_workday(workday=day, tasks=[WorkTask(name="Edges", places=3)], by=cast.coordinator)
    for person in (cast.member, cast.holder):
        service.sign_up(task=day.tasks.get(), person=person, by=person)
    run = as_user(cast.coordinator)
    text = words(run.get(f"/g/linden-row/print/sign-in-sheet.pdf?workday={day.pk}"))
    assert "Saturday, May 4, 2024, 9 a.m. to noon. Rain date: May 11, 2024." in text
    assert "1 Hollis Edges 2 Maren Edges 3 4 5" in text  # in the order in which the page asks for them
    form = run.get(f"/g/linden-row/workdays/{day.pk}/sheet/").context["form"]
    assert [row.person.name for row, _field in form.lines()] == ["Hollis", "Maren"]


def test_the_dates_are_printed_for_the_gate_without_what_is_not_public(cast, as_user):
    GardenRules.objects.filter(garden=cast.garden).update(water_on="05-01")
    for title, public in (("Seed swap", True), ("Committee", False)):
        row = GardenDate(garden=cast.garden, kind="other", title=title, day=date(2024, 5, 2), public=public)
        service.keep_date(row=row, by=cast.coordinator)
    text = words(as_user(cast.member).get("/g/linden-row/print/dates.pdf?year=2024"))
    assert "May Wed 1 Water is turned on Thu 2 Seed swap" in text
    assert "Committee" not in text
