"""The print table: who prints what, choosing, and the files of one sheet."""

from __future__ import annotations

import csv
import re
from datetime import date
from html import unescape
from io import BytesIO, StringIO

import pytest
from icalendar import Calendar
from pypdf import PdfReader

from plots.models import User
from plots.powers import Power
from schedules.models import Printing
from schedules.reports.days import short_day
from schedules.service.print_table.kinds import KINDS
from schedules.service.print_table.table import Group
from schedules.views.paper import file_name
from tests.factories import AssignmentFactory
from tests.schedules.printing import TABLE, words
from tests.schedules.samples import carrot, planted, tomato
from tests.texts import text_of

# Who besides coordinators prints it: helpers with a power, every helper, or every member.
HELPERS, ALL, NOBODY = "helpers", "all", "nobody"
MAY = {
    **dict.fromkeys(("calendar", "poster", "booklet", "job-card", "plot-year", "your-year"), ALL),
    **dict.fromkeys(("log-sheets", "map", "what-grows", "dates", "roster", "agreement"), ALL),
    **dict.fromkeys((code for code in KINDS if code.startswith("topic-")), ALL),
    **dict.fromkeys(("workshop-pack", "workshop-sign-in", "name-tags", "quiz"), Power.WORKDAYS),
    "sign-in-sheet": Power.WORKDAYS,
    "stakes": Power.PLOTS,
    **dict.fromkeys(("gate-notice", "letters"), Power.NOTICES),
    "care-round": Power.CARE,
    "waiting-list": Power.WAITING,
    **dict.fromkeys(("agreements-to-sign", "invitation-cards", "emergency"), Power.PEOPLE),
    "hand-over": NOBODY,
    "season-summary": HELPERS,
}


# --- who prints what ---


def test_every_kind_is_for_whom_it_says(cast, run):
    assert sorted(MAY) == sorted(KINDS)
    expected = {
        "coordinator": set(MAY),
        "helper": {code for code, who in MAY.items() if who in (ALL, HELPERS)},
        "member": {code for code, who in MAY.items() if who == ALL},
    }
    found = {
        who: {code for code, kind in KINDS.items() if kind.may(getattr(cast, who), cast.garden)}
        for who in expected
    }
    assert found == expected
    for power in Power:
        cast.garden.memberships.filter(user=cast.helper).update(powers=[power])
        codes = {code for code, kind in KINDS.items() if kind.may(cast.helper, cast.garden)}
        assert codes - expected["helper"] == {code for code, who in MAY.items() if who == power}, power


def test_the_table_shows_what_somebody_may_print_and_opens_nothing_else(cast, as_user, run):
    member = as_user(cast.member)
    shown = member.get(TABLE).content.decode()
    assert (f"{TABLE}dates/" in shown, f"{TABLE}emergency/" in shown) == (True, False)
    refused = member.get(f"{TABLE}emergency.pdf")
    assert (refused.status_code, "is printed by who is trusted with it" in text_of(refused)) == (403, True)
    assert [run.get(f"{TABLE}{way}").status_code for way in ("nothing/", "nothing.pdf", "dates.exe")] == [
        404
    ] * 3


def test_the_groups_of_the_table_are_a_step_away(run):
    page = run.get(TABLE).content.decode()
    groups = re.findall(r'<h2 id="([a-z]+)">', page)
    assert groups == re.findall(r'href="#([a-z]+)"', page.split("<h1>")[1])
    assert (groups[0], len(groups)) == ("calendars", len(Group))


def test_a_member_prints_for_themself_and_not_for_others(cast, as_user, run):
    planted(cast.plot, carrot())
    holder, own, other = as_user(cast.holder), cast.holder.pk, cast.member.pk
    assert "Carrot" in text_of(holder.get(f"{TABLE}calendar/", {"member": own, "year": 2026}))
    wrong = holder.get(f"{TABLE}calendar/", {"member": other})
    assert wrong.status_code == 422
    assert "Choose somebody whose sheet you may print." in text_of(wrong)
    assert holder.get(f"{TABLE}calendar/", {"member": "everyone"}).status_code == 422
    assert holder.get(f"{TABLE}calendar.pdf", {"member": other}).status_code == 302


@pytest.mark.parametrize("plots", [3, 5])  # from four on rows of them are offered
def test_pages_cost_the_same_with_more_plots(cast, run, plots, django_assert_num_queries):
    for number in range(plots):
        held = AssignmentFactory(plot__garden=cast.garden, season=cast.assignment.season)
        planted(held.plot, carrot(slug=f"carrot-{number}"))
    run.get(f"{TABLE}what-grows/")
    with django_assert_num_queries(13):
        run.get(TABLE)
    with django_assert_num_queries(18):
        run.get(f"{TABLE}what-grows/")


@pytest.mark.parametrize(
    ("kind", "title", "asked", "name"),
    [
        (
            "calendar",
            "Plots A1 and B4 in 2027",
            {"year": ["2027"]},
            "planting-calendar-plots-a1-and-b4-in-2027",
        ),
        (
            "calendar",
            "Planting calendar for everyone",
            {"year": ["2027"]},
            "planting-calendar-for-everyone-2027",
        ),
        (
            "season-summary",
            "Season summary",
            {"since": ["2026-01-01"], "until": ["2026-12-31"]},
            "season-summary-2026",
        ),
        (
            "season-summary",
            "Season summary",
            {"since": ["2026-04-01"], "until": ["2026-06-30"]},
            "season-summary-2026-04-01-2026-06-30",
        ),
        ("waiting-list", "Waiting list", {}, "waiting-list-2026-05-09"),
        ("gate-notice", "Вода " * 50, {}, f"notice-for-the-gate{'-вода' * 14}-2026-05-09"),
    ],
)
def test_a_file_is_called_by_its_garden_its_kind_and_its_time(kind, title, asked, name):
    made = KINDS[kind]
    named = file_name(
        garden="linden-row",
        kind=str(made.name),
        asks=made.asks,
        title=title,
        asked=asked,
        on=date(2026, 5, 9),
    )
    assert named == f"linden-row-{name}"


# --- choosing ---


def test_wrong_choices_are_said_beside_their_fields_and_nothing_is_lost(run):
    asked = {"asked": "1", "since": "2026-05-01", "until": "2026-04-01", "paper": "a4", "large": "on"}
    wrong = run.get(f"{TABLE}season-summary/", asked)
    assert wrong.status_code == 422
    form = wrong.context["form"]
    assert form.errors == {"until": ["This day must not come before the first one."]}
    kept = wrong.content.decode()
    assert all(f'value="{asked[name]}"' in kept for name in ("since", "until"))
    assert ('value="a4" selected' in kept, 'name="large" id="id_large" checked' in kept) == (True, True)
    assert "document" not in wrong.context  # nothing to look at yet


def test_a_link_brings_choices_and_the_rest_is_as_usual(cast, run):
    cast.garden.paper = "a4"
    cast.garden.save()
    form = run.get(f"{TABLE}dates/", {"year": "2027"}).context["form"]
    assert [form["year"].value(), form["paper"].value()] == ["2027", "a4"]
    pdf = PdfReader(BytesIO(run.get(f"{TABLE}dates.pdf", {"year": "2027", "paper": "letter"}).content))
    assert [round(float(side)) for side in pdf.pages[0].mediabox[2:]] == [612, 792]
    part = run.get(
        f"{TABLE}dates/", {"asked": "1", "year": "2027", "paper": "a4"}, headers={"HX-Request": "true"}
    )
    assert ("<html" in part.content.decode(), part.context["form"].is_valid()) == (False, True)


def test_a_guests_own_place_asks_for_frost_dates_once_it_is_chosen(run):
    sheet = f"{TABLE}topic-by-crop/"
    carrot()
    opened = run.get(sheet, {"asked": "1", "place": "guest", "year": "2026", "paper": "letter"})
    assert (opened.status_code, "document" in opened.context) == (200, False)
    assert "Write one frost date or both, then the sheet is shown." in text_of(opened)
    typed = {"asked": "1", "place": "guest", "year": "2026", "paper": "letter", "place_name": "Owl Hill"}
    named = run.get(sheet, {**typed, "last_frost": "", "first_frost": ""})  # sent by leaving the field
    assert (named.status_code, "document" in named.context) == (200, False)
    assert "Write one frost date or both" in text_of(named)
    assert 'value="Owl Hill"' in named.content.decode()
    assert run.get(sheet, {**typed, "last_frost": "Smarch 3"}).status_code == 422
    made = run.get(sheet, {**typed, "last_frost": "April 20", "first_frost": ""})
    assert ("Owl Hill" in text_of(made), "Linden Row" in made.context["document"].head.title) == (True, False)


def test_certain_plots_are_asked_for_once_they_are_chosen(cast, run):
    sent = {"asked": "1", "member": "plots", "year": "2026", "paper": "letter"}
    opened = run.get(f"{TABLE}calendar/", sent)
    assert (opened.status_code, "document" in opened.context) == (200, False)
    assert "Choose one plot or more, then the sheet is shown." in text_of(opened)
    assert '<details class="ticks" open>' in opened.content.decode()
    assert run.post(f"{TABLE}calendar/", sent).status_code == 200
    assert Printing.objects.count() == 0
    assert "document" in run.get(f"{TABLE}calendar/", {**sent, "plots": cast.plot.pk}).context


def test_what_has_nothing_to_be_about_says_so(run):
    page = run.get(f"{TABLE}sign-in-sheet/")
    assert page.status_code == 200
    assert "There is nothing yet that this sheet could be about." in text_of(page)
    assert run.get(f"{TABLE}sign-in-sheet.pdf").status_code == 302


# --- one sheet, four files ---


def rows_in_page(page: str) -> list[list[str]]:
    """The cells of every table of a page."""
    rows = re.findall(r"<tr>(.*?)</tr>", page, re.S)
    return [
        [
            unescape(re.sub(r"<[^>]+>", "", cell)).strip()
            for cell in re.findall(r"<t[hd][^>]*>(.*?)</t[hd]>", row, re.S)
        ]
        for row in rows
    ]


def test_page_pdf_csv_and_icalendar_have_the_same_rows(cast, as_user, run):
    planted(cast.plot, carrot(), successions=2)
    planted(cast.plot, tomato())
    holder = as_user(cast.holder)
    asked = {"member": cast.holder.pk, "year": 2026}
    page = holder.get(f"{TABLE}calendar/", asked)
    document = page.context["document"]
    rows = [[cell.strip() for cell in row] for _name, table in document.tables for row in table.rows]
    assert len(rows) > 8

    shown = rows_in_page(page.content.decode())
    assert [row for row in rows if row not in shown] == []
    sheet = holder.get(f"{TABLE}calendar.csv", asked).content.decode("utf-8-sig")
    kept = [[cell.strip().lstrip("'") for cell in row] for row in csv.reader(StringIO(sheet))]
    assert [row for row in rows if row not in kept] == []
    paper = words(holder.get(f"{TABLE}calendar.pdf", asked).content).replace(" ", "")
    cells = {cell for row in rows for cell in row if cell}
    assert [cell for cell in cells if "".join(cell.split()) not in paper] == []

    events = Calendar.from_ical(holder.get(f"{TABLE}calendar.ics", asked).content).walk("VEVENT")
    (dated,) = [table for _name, table in document.tables if "latest" in table.titles]
    best = [row[dated.titles.index("best")] for row in dated.rows]
    assert sorted(best) == sorted(short_day(event.start, 2026) for event in events)
    assert holder.get(f"{TABLE}dates.ics").status_code == 404  # a sheet without such rows


def test_a_csv_runs_nothing_in_a_spreadsheet(cast, run):
    User.objects.filter(pk=cast.member.pk).update(name="=HYPERLINK(1)")
    text = run.get(f"{TABLE}roster.csv").content.decode("utf-8-sig")
    assert ("\n'=HYPERLINK(1)" in text, "\n=HYPERLINK(1)" in text) == (True, False)
