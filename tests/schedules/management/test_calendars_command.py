"""`manage.py calendars`: what it prints."""

from __future__ import annotations

import json
from io import StringIO

from django.core.management import call_command

from schedules.calendars.comparing import comparable, read_rows, summarise
from schedules.calendars.summary import in_use
from tests.schedules.records import ROOT


def printed(*arguments: str) -> str:
    out = StringIO()
    call_command("calendars", *arguments, stdout=out)
    return out.getvalue()


def test_json_holds_the_comparison_and_nothing_else():
    found = json.loads(printed("--json"))
    whole = summarise(in_use(comparable(read_rows())))
    assert found["all"] == {
        "rows": whole.count,
        "overlap": whole.overlap,
        "starts_differ": whole.start_difference,
        "ends_differ": whole.end_difference,
    }
    assert sum(line["rows"] for line in found["lines"]) == whole.count


def test_the_table_ends_with_the_whole():
    table = printed().splitlines()
    assert table[0].split() == ["region", "activity", "rows", "overlap", "starts", "ends"]
    assert table[-1].split()[:2] == ["all", "208"]
    assert len({line.rindex("%") for line in table[1:]}) == 1  # columns stand under each other


def test_the_docs_keep_the_table_as_printed():
    developers = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
    kept = "\n".join(line.removeprefix("    ") for line in developers.splitlines())
    assert printed().strip() in kept
    assert printed("--left-out").splitlines()[-1] in kept
