"""`manage.py windows`: what it prints, and how it fails."""

from __future__ import annotations

import json
from datetime import date
from io import StringIO

import pytest
from django.core.management import call_command

from schedules.management.commands.windows import Command
from schedules.windows import Operation, Turn
from tests.schedules.records import CHAMPION


@pytest.fixture(scope="module")
def station(tmp_path_factory) -> str:
    """The last twelve years of a real record: what matters here is that it is read, not how long it is."""
    head, unit, *days = CHAMPION.read_text().splitlines(keepends=True)
    file = tmp_path_factory.mktemp("stations") / "champion.csv"
    file.write_text("".join([head, unit, *(day for day in days if day >= "2007")]))
    return str(file)


def windows(*arguments: str) -> list[dict]:
    out = StringIO()
    call_command("windows", *arguments, "--json", stdout=out)
    return json.loads(out.getvalue())


def test_json_has_the_keys_that_scripts_read():
    printed = windows("--last-frost", "05-09", "--first-frost", "09-28", "--year", "2026", "--crop", "tomato")
    first = printed[0]
    assert list(first) == [
        "crop",
        "operation",
        "season",
        "succession",
        "earliest",
        "best",
        "latest",
        "reasons",
    ]
    assert {key: first[key] for key in ("crop", "operation", "season", "succession")} == {
        "crop": "tomato",
        "operation": "start-indoors",
        "season": "spring",
        "succession": 1,
    }
    assert (first["earliest"], first["best"], first["latest"]) == ("2026-03-21", "2026-04-09", "2026-05-09")
    assert all({"code", "text"} <= set(reason) for reason in first["reasons"])
    assert {window["operation"] for window in printed} <= {operation.value for operation in Operation}
    assert {window["season"] for window in printed} == {turn.value for turn in Turn}


def test_every_crop_of_the_catalogue_is_answered():
    printed = windows("--last-frost", "05-09", "--first-frost", "09-28")
    assert len({window["crop"] for window in printed}) == 56


def test_without_a_window_the_dates_are_null_and_the_reasons_say_why():
    [spring, *_] = windows("--first-frost", "09-28", "--crop", "tomato")
    assert (spring["earliest"], spring["best"], spring["latest"]) == (None, None, None)
    assert [reason["code"] for reason in spring["reasons"]] == ["last-frost-unknown"]


def test_a_record_is_planned_with_middling_nerve_and_dates_alone_as_published(station):
    def transplanted(*arguments: str) -> str:
        return next(
            w["earliest"]
            for w in windows(*arguments, "--crop", "cauliflower", "--year", "2026")
            if w["operation"] == "transplant"
        )

    by_record = ("--station", station, "--latitude", "40.4")
    careful = transplanted(*by_record, "--nerve", "careful")
    assert transplanted(*by_record) == transplanted(*by_record, "--nerve", "middling")
    assert transplanted(*by_record, "--nerve", "10") == careful
    assert careful > transplanted(*by_record, "--nerve", "bold")
    assert transplanted("--last-frost", "05-09") == "2026-04-18"


def test_the_south_is_told_by_latitude_or_by_the_order_of_the_frosts():
    for arguments in (("--latitude", "-35"), ()):
        printed = windows(
            "--last-frost",
            "09-20",
            "--first-frost",
            "05-05",
            "--year",
            "2026",
            "--crop",
            "tomato",
            *arguments,
        )
        transplant = next(w for w in printed if w["operation"] == "transplant" and w["season"] == "spring")
        assert date.fromisoformat(transplant["earliest"]) == date(2026, 9, 27)


def test_text_tells_autumn_from_spring():
    out = StringIO()
    call_command("windows", "--last-frost", "05-09", "--first-frost", "09-28", "--crop", "beet", stdout=out)
    beginnings = [line.split(":")[0] for line in out.getvalue().splitlines() if line.startswith("Beet, sow")]
    assert beginnings[0] == "Beet, sow"
    assert "Beet, sow, autumn" in beginnings


def test_a_record_without_latitude_is_taken_as_north_and_says_so(station, capsys):
    call_command("windows", "--station", station, "--crop", "beet", "--json")
    printed = capsys.readouterr()
    assert json.loads(printed.out)
    assert printed.err == (
        "The file does not tell its latitude: taken as north. Give --latitude for the south.\n"
    )


def test_text_names_the_crop_the_dates_and_why():
    out = StringIO()
    call_command("windows", "--last-frost", "05-09", "--crop", "tomato", "--year", "2026", stdout=out)
    text = out.getvalue()
    assert "Tomato, transplant: May 16, 2026 to June 13, 2026, best May 25, 2026" in text
    assert (
        "Not before: Published calendars begin 1 week after the mean last frost, which falls here on May 9."
        in text
    )


@pytest.mark.parametrize(
    ("arguments", "sentence"),
    [
        ((), "Give a station's record with --station, or --last-frost, --first-frost or both."),
        (("--last-frost", "05-39"), "Argument --last-frost: there is no day 05-39 in a year."),
        (("--last-frost", "5/9"), "Argument --last-frost: “5/9” is not a day of the year such as 05-09."),
        (("--last-frost", "05-09", "--crop", "nope"), "The catalogue has no crop “nope”."),
        (("--last-frost", "05-09", "--year", "0"), "The year must lie between 2 and 9998."),
        (
            ("--last-frost", "05-09", "--station", "x"),
            "Give either a station's record or frost dates, not both.",
        ),
        (
            ("--last-frost", "05-09", "--nerve", "wild"),
            "Argument --nerve: “wild” is neither careful, middling or bold nor a percentage "
            "between 0 and 100.",
        ),
    ],
)
def test_a_wrong_argument_is_one_sentence_on_standard_error(arguments, sentence, capsys):
    with pytest.raises(SystemExit) as ended:
        Command().run_from_argv(["manage.py", "windows", *arguments])
    assert ended.value.code != 0
    printed = capsys.readouterr()
    assert (printed.out, printed.err.strip()) == ("", sentence)
