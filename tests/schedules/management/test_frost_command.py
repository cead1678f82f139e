"""`manage.py frost`: the shape of its JSON, and how it fails."""

from __future__ import annotations

import json
import subprocess
import sys
from datetime import date, timedelta

import pytest
from django.core.management import call_command, execute_from_command_line
from django.core.management.base import CommandError

from schedules.days import DayWeather
from tests.schedules.records import CHAMPION, ROOT, expected
from tests.schedules.stations.station_text import ghcn_csv, ghcn_dly, plain

SIDES = ("last", "first")


def frost(capsys, *arguments: str) -> dict:
    call_command("frost", *arguments, "--json")
    return json.loads(capsys.readouterr().out)


def test_the_json_of_a_real_record(capsys):
    found = frost(capsys, str(CHAMPION))
    assert list(found) == ["thresholds"]
    for threshold, wanted in zip(found["thresholds"], expected()["thresholds"], strict=True):
        assert list(threshold) == ["celsius", "used", "left_out", "last", "first", "years"]
        assert threshold["celsius"] == wanted["celsius"]
        assert threshold["used"] == {side: wanted[side]["n_used"] for side in SIDES}
        assert threshold["left_out"] == {"last": [2019], "first": [1981]}
        for side in SIDES:
            assert threshold[side] == {p: value["date"] for p, value in wanted[side]["weibull"].items()}
        years = [
            {key: value for key, value in year.items() if value is not None} for year in threshold["years"]
        ]
        assert years == wanted["years"]
        assert threshold["years"][0]["last"] is None  # the record does not reach that season


def mild(latitude: float) -> list[DayWeather]:
    """Six years without frost but for one night, midwinter of the third at this latitude."""
    frost_night = date(2003, 1, 20) if latitude >= 0 else date(2003, 7, 20)
    days = [date(2000, 8, 1) + timedelta(days=n) for n in range(6 * 365)]
    return [DayWeather(day, -1.0 if day == frost_night else 9.0, 21.0, 0.0) for day in days]


@pytest.mark.parametrize("write", [ghcn_csv, ghcn_dly, plain])
def test_rare_frost_gives_null_and_none(capsys, tmp_path, write):
    (tmp_path / "mild").write_text(write(mild(40)))
    threshold = frost(capsys, str(tmp_path / "mild"))["thresholds"][0]
    assert set(threshold["last"].values()) == {None}
    by_year = {year["year"]: year for year in threshold["years"]}
    assert by_year[2003] == {"year": 2003, "last": "2003-01-20", "first": "none"}
    assert by_year[2002]["first"] == "2003-01-20"
    assert threshold["used"] == {"last": 6, "first": 6}  # the last season lacks less than ten days


@pytest.mark.parametrize("write", [ghcn_dly, plain])
def test_latitude_by_hand_turns_the_seasons_round(capsys, tmp_path, write):
    (tmp_path / "south").write_text(write(mild(-40)))
    years = frost(capsys, str(tmp_path / "south"), "--latitude", "-40")["thresholds"][0]["years"]
    assert {"year": 2003, "last": "2003-07-20", "first": "2003-07-20"} in years


def test_the_files_own_latitude_comes_first(capsys, tmp_path):
    (tmp_path / "south").write_text(ghcn_csv(mild(-40), latitude=-40.0))
    years = frost(capsys, str(tmp_path / "south"), "--latitude", "40")["thresholds"][0]["years"]
    assert {"year": 2003, "last": "2003-07-20", "first": "2003-07-20"} in years


def test_without_json_a_person_can_read_it(capsys):
    call_command("frost", str(CHAMPION))
    text = capsys.readouterr().out
    for part in ("13514 days", "taken as north", "7 days in a row", "05-26", "1990: 1990-05-10  1990-09-23"):
        assert part in text


def test_too_short_a_record_is_not_called_a_place_where_frost_is_rare(capsys, tmp_path):
    rows = CHAMPION.read_text().splitlines()
    two_years = [*rows[:2], *(row for row in rows[2:] if row[:4] in ("1990", "1991"))]
    (tmp_path / "short.csv").write_text("\n".join(two_years))
    call_command("frost", str(tmp_path / "short.csv"))
    text = capsys.readouterr().out
    assert "too few seasons" in text
    assert "too rare" not in text


def test_a_refused_file_names_line_and_reason(tmp_path):
    (tmp_path / "bad.csv").write_text("date,tmin\n2001-01-01,5\n")
    with pytest.raises(CommandError, match=r"Line 2: the units are not stated"):
        call_command("frost", str(tmp_path / "bad.csv"))


def test_a_wrong_argument_is_one_sentence_on_standard_error():
    run = subprocess.run(
        [sys.executable, "manage.py", "frost", "nowhere.csv", "--json"],
        cwd=ROOT,
        capture_output=True,
        text=True,
        check=False,
    )
    assert run.returncode != 0
    assert run.stdout == ""
    assert run.stderr == "The file nowhere.csv cannot be read: No such file or directory.\n"


@pytest.mark.parametrize(
    ("arguments", "sentence"),
    [
        ([], "The following arguments are required: FILE."),
        ([str(CHAMPION), "--latitude", "-91", "--json"], "Argument --latitude: “-91” is not a latitude"),
    ],
)
def test_what_is_wrong_with_an_argument_is_said_in_a_sentence(arguments, sentence, capsys):
    with pytest.raises(SystemExit):
        execute_from_command_line(["manage.py", "frost", *arguments])
    assert capsys.readouterr().err.startswith(sentence)
