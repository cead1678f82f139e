"""`manage.py handout`: files, rows as JSON, and what it refuses in one sentence."""

from __future__ import annotations

import json
import sys
from io import BytesIO

import pytest
from django.core.management import call_command
from django.core.management.base import CommandError
from pypdf import PdfReader

from plots.models import Garden
from schedules.management.commands import handout
from schedules.models import Printing
from schedules.seasons import Hemisphere
from schedules.service.print_table.kinds import KINDS
from tests.cast import Cast
from tests.schedules.samples import carrot, planted, set_mean_frost, tomato


@pytest.fixture
def garden(cast: Cast, time_machine) -> Cast:
    """With a plan for plot A1, on a day in April 2026."""
    time_machine.move_to("2026-04-22T18:00Z", tick=False)
    set_mean_frost(cast.garden)
    planted(cast.plot, carrot())
    return cast


def rows(capsysbinary, *arguments: str) -> dict:
    call_command("handout", *arguments, "--garden", "linden-row", "--json")
    return json.loads(capsysbinary.readouterr().out)


def test_the_list_names_every_kind(capsys):
    call_command("handout", "--list", "--json")
    found = json.loads(capsys.readouterr().out)
    assert [row["kind"] for row in found] == list(KINDS)
    call_command("handout", "--list")
    lines = capsys.readouterr().out.splitlines()
    assert len(lines) == len(KINDS)
    assert "stakes [--plot, --labels]: " in "\n".join(lines)
    assert "poster [--member, --plot, --year, --everyone]: " in "\n".join(lines)


def test_a_pdf_goes_into_a_file_or_to_another_program(garden, tmp_path, capsysbinary):
    path = tmp_path / "a1.pdf"
    call_command(
        "handout", "calendar", "--garden", "linden-row", "--plot", "A1", "--year", "2026",
        "--paper", "a4", "--large", "--out", str(path),
    )  # fmt: skip
    page = PdfReader(path).pages[0]
    assert ("Carrot" in page.extract_text(), round(float(page.mediabox.width))) == (True, 595)
    call_command("handout", "dates", "--garden", "linden-row")
    assert (
        PdfReader(BytesIO(capsysbinary.readouterr().out)).pages[0].extract_text().startswith("Dates of 2026")
    )
    assert Printing.objects.count() == 0


def test_the_rows_as_json_are_those_of_the_sheet(garden, capsysbinary):
    found = rows(capsysbinary, "calendar", "--member", "hollis", "--year", "2026")
    assert (found["garden"], found["printed_on"]) == ("Linden Row", "2026-04-22")
    table = next(one for one in found["tables"] if "earliest" in one["titles"])
    what = table["titles"].index("what")
    assert [row[what] for row in table["rows"]] == ["Sow", "Harvest"]


def test_a_guests_place_is_told_by_its_frost_dates_alone(garden, capsysbinary):
    tomato()
    arguments = ("topic-by-crop", "--crop", "tomato", "--guest", "Owl Hill")
    early = rows(capsysbinary, *arguments, "--last-frost", "04-01", "--first-frost", "11-10")
    late = rows(capsysbinary, *arguments, "--last-frost", "06-01", "--first-frost", "09-10")
    assert early["tables"] != late["tables"]
    assert "Owl Hill" in early["sheets"][0]["subtitle"]


def test_a_guest_of_the_other_half_of_the_world_is_known_by_their_frosts(garden, capsysbinary):
    tomato()
    arguments = ("topic-by-crop", "--crop", "tomato", "--guest", "Owl Hill", "--year", "2026")
    told = json.dumps(rows(capsysbinary, *arguments, "--last-frost", "10-05", "--first-frost", "04-20"))
    # Tomatoes go out after the last frost: there in the spring of October and November.
    assert ("Oct" in told or "Nov" in told, "May" in told) == (True, False)


@pytest.mark.parametrize(
    ("last", "first", "found"),
    [
        ((5, 10), (10, 1), Hemisphere.NORTH),
        ((2, 1), (1, 10), Hemisphere.NORTH),  # hardly any frost at all
        (None, (12, 20), Hemisphere.NORTH),
        ((9, 20), None, Hemisphere.SOUTH),
        (None, (5, 15), Hemisphere.SOUTH),
        ((7, 10), (6, 20), Hemisphere.SOUTH),
        (None, (1, 10), None),
        (None, None, None),
    ],
)
def test_frosts_tell_the_half_of_the_world_unless_they_are_of_either(last, first, found):
    for usual in Hemisphere:
        assert Hemisphere.of_frosts(last, first, usual=usual) is (found or usual)


def test_the_only_garden_needs_no_name(garden, capsysbinary):
    Garden.objects.exclude(slug="linden-row").delete()
    call_command("handout", "dates", "--json")
    assert json.loads(capsysbinary.readouterr().out)["garden"] == "Linden Row"


def test_everyones_rows_are_a_list_of_sheets(garden, capsysbinary):
    found = rows(capsysbinary, "calendar", "--everyone", "--year", "2026")
    assert len(found) == 2  # who holds A1 and who shares it
    assert "Carrot" in json.dumps(found)


def test_everyone_comes_in_one_file(garden, tmp_path):
    path = tmp_path / "all.pdf"
    call_command("handout", "calendar", "--garden", "linden-row", "--everyone", "--out", str(path))
    assert [mark.title for mark in PdfReader(path).outline if not isinstance(mark, list)]


@pytest.mark.parametrize(
    ("arguments", "sentence"),
    [
        ("", "Say what to print; --list tells what there is"),
        ("nothing --garden linden-row", "There is no sheet “nothing”; --list tells what there is"),
        ("dates", "Say which garden with --garden: "),
        ("dates --garden elsewhere", "There is no garden “elsewhere”"),
        ("calendar --garden linden-row --plot Z9", "This garden has no plot “Z9”"),
        ("calendar --garden linden-row --member nobody", "Nobody in this garden signs in as “nobody”"),
        ("topic-by-crop --garden linden-row --crop moly", "This garden knows no crop “moly”"),
        ("dates --garden linden-row --plot A1", "“dates” does not ask for --plot"),
        ("dates --garden linden-row --year 1", "--year: "),
        ("topic-by-crop --garden linden-row --guest Hill", "Give --last-frost, --first-frost or both"),
        ("sign-in-sheet --garden linden-row", "--workday: "),
        (
            "season-summary --garden linden-row --since 2026-05-01 --until 2026-04-01",
            "--until: This day must",
        ),
        ("dates --garden linden-row --out /no/such/folder/x.pdf", "cannot be written"),
    ],
)
def test_a_wrong_argument_is_told_in_one_sentence(arguments, sentence, garden):
    with pytest.raises(CommandError) as error:
        call_command("handout", *arguments.split())
    assert sentence in str(error.value)
    assert "\n" not in str(error.value)


def test_it_fails_with_a_status_and_no_other_word(garden, capsys):
    with pytest.raises(SystemExit) as error:
        handout.Command().run_from_argv(["manage.py", "handout", "dates", "--garden", "elsewhere"])
    assert error.value.code == 1
    told = capsys.readouterr()
    assert (told.out, told.err) == ("", "There is no garden “elsewhere”.\n")


def test_a_terminal_gets_no_pdf(garden, monkeypatch):
    monkeypatch.setattr(sys.stdout, "isatty", lambda: True, raising=False)
    with pytest.raises(CommandError, match="Give a file with --out"):
        call_command("handout", "dates", "--garden", "linden-row")
