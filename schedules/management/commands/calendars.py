"""`manage.py calendars`: how near the windows come to published planting calendars."""

from __future__ import annotations

import json
from typing import Any

from django.core.management.base import CommandParser
from django.utils.translation import gettext as _

from schedules.calendars.comparing import Comparison, Summary, comparable, read_rows, summarise
from schedules.calendars.summary import in_use, left_out, lines
from schedules.management.scripting import ScriptCommand


class Command(ScriptCommand):
    """Compares with every open calendar, with no database."""

    help = "Hold the planting windows against published calendars, given only the frost dates these state."

    def add_arguments(self, parser: CommandParser) -> None:
        """Which rule, and how to print it."""
        parser.add_argument(
            "--left-out",
            action="store_true",
            help="judge each region by a rule fitted to the other regions alone",
        )
        parser.add_argument("--json", action="store_true", help="print JSON and nothing else")

    def handle(self, *_args: Any, **options: Any) -> None:
        """Compare and print."""
        rows = comparable(read_rows())
        comparisons = left_out(rows) if options["left_out"] else in_use(rows)
        if options["json"]:
            self.stdout.write(json.dumps(_as_json(comparisons), ensure_ascii=False))
            return
        self.stdout.write("\n".join(table(comparisons)))


def table(comparisons: list[Comparison]) -> list[str]:
    """By region and activity: rows, share that overlaps, median distances of starts and ends in days."""
    heading = (_("region"), _("activity"), _("rows"), _("overlap"), _("starts"), _("ends"))
    cells = [
        heading,
        *((line.region, line.activity, *_figures(line.summary)) for line in lines(comparisons)),
        (_("all"), "", *_figures(summarise(comparisons))),
    ]
    widths = [max(len(row[column]) for row in cells) for column in range(len(heading))]
    return [
        "  ".join(
            cell.ljust(width) if column < 2 else cell.rjust(width)
            for column, (cell, width) in enumerate(zip(row, widths, strict=True))
        ).rstrip()
        for row in cells
    ]


def _figures(summary: Summary) -> tuple[str, str, str, str]:
    starts, ends = (
        "-" if days is None else f"{days:g}" for days in (summary.start_difference, summary.end_difference)
    )
    return str(summary.count), f"{summary.overlap:.0%}", starts, ends


def _as_json(comparisons: list[Comparison]) -> dict[str, Any]:
    return {
        "all": _summary_json(summarise(comparisons)),
        "lines": [
            {"region": line.region, "activity": line.activity, **_summary_json(line.summary)}
            for line in lines(comparisons)
        ],
    }


def _summary_json(summary: Summary) -> dict[str, Any]:
    return {
        "rows": summary.count,
        "overlap": summary.overlap,
        "starts_differ": summary.start_difference,
        "ends_differ": summary.end_difference,
    }
