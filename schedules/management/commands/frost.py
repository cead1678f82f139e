"""`manage.py frost FILE`: the freeze dates of a station's record, by probability."""

from __future__ import annotations

import json
import math
import sys
from argparse import ArgumentTypeError
from datetime import UTC, date, datetime, timedelta
from pathlib import Path
from typing import Any

from django.core.management.base import CommandError, CommandParser
from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from schedules.bases import from_record
from schedules.frost import THRESHOLDS_C, Freeze, FrostRecord, RecordCurve, month_day
from schedules.management.scripting import ScriptCommand
from schedules.seasons import Hemisphere, Side
from schedules.stations import RefusedFileError, StationFile, read_station
from schedules.wording.stations import finding_sentence, layout_name, run_sentence

PERCENTS = range(10, 100, 10)


class Command(ScriptCommand):
    """Reads a station record and prints the years used and the frost dates by probability."""

    help = "Read a weather station's daily record and print its frost dates by probability."

    def add_arguments(self, parser: CommandParser) -> None:
        """The file, where it lies when it does not say so itself, and the form of the answer."""
        parser.add_argument("file", metavar="FILE", type=Path, help="GHCN-Daily (CSV or .dly) or plain CSV")
        parser.add_argument(
            "--latitude",
            type=latitude,
            help="degrees, south negative, for files that do not tell",
        )
        parser.add_argument("--json", action="store_true", help="print JSON and nothing else")

    def handle(self, *_args: Any, **options: Any) -> None:
        """Read, count, print."""
        station = read_file(options["file"], options["latitude"])
        hemisphere = Hemisphere.of_latitude(0.0 if station.latitude is None else station.latitude)
        record = from_record(station.days, hemisphere).record
        if options["json"]:
            if station.latitude is None:
                self.stderr.write(no_latitude_note())
            self.stdout.write(json.dumps({"thresholds": [threshold_json(record, c) for c in THRESHOLDS_C]}))
            return
        for line in [
            *describe(station, hemisphere),
            *(row for c in THRESHOLDS_C for row in table(record, c)),
        ]:
            self.stdout.write(line)


def latitude(text: str) -> float:
    """A latitude in degrees from the command line."""
    try:
        degrees = float(text)
    except ValueError:
        degrees = math.nan
    if not -90 <= degrees <= 90:
        raise ArgumentTypeError(_("“%(text)s” is not a latitude between -90 and 90 degrees") % {"text": text})
    return degrees


def read_file(path: Path, known_latitude: float | None) -> StationFile:
    """The record in a file; a refusal becomes the command's one sentence."""

    def show(lines: int) -> None:
        sys.stderr.write(f"\r{lines}")

    tomorrow = datetime.now(tz=UTC).date() + timedelta(days=1)  # some stations are ahead of this machine
    on_progress = show if sys.stderr.isatty() else None
    try:
        with path.open("rb") as stream:
            return read_station(stream, today=tomorrow, latitude=known_latitude, on_progress=on_progress)
    except OSError as error:
        reason = {"path": path, "reason": error.strerror or error}
        raise CommandError(_("The file %(path)s cannot be read: %(reason)s") % reason) from error
    except RefusedFileError as error:
        reason = {"path": path, "reason": finding_sentence(error.finding)}
        raise CommandError(_("The file %(path)s is refused: %(reason)s") % reason) from error
    finally:
        if on_progress is not None:
            sys.stderr.write("\r")


def threshold_json(record: FrostRecord, celsius: float) -> dict[str, object]:
    """One threshold in the shape that other programs read."""
    pairs = [(side, record.defined(side, celsius)) for side in (Side.LAST, Side.FIRST)]
    return {
        "celsius": celsius,
        "used": {side: curve.used for side, curve in pairs},
        "left_out": {side: curve.left_out for side, curve in pairs},
        **{side: {str(percent): date_at(curve, percent) for percent in PERCENTS} for side, curve in pairs},
        "years": [
            {"year": year.year, "last": freeze_text(year.last), "first": freeze_text(year.first)}
            for year in record.years(celsius)
        ],
    }


def date_at(curve: RecordCurve, percent: float) -> str | None:
    """A probability date as "MM-DD", or `None` where there is none."""
    day = curve.day(percent)
    return None if day is None else month_day(day)


def freeze_text(freeze: Freeze | None) -> str | None:
    """A year's own date as ISO 8601, or what stands in its place."""
    return freeze.isoformat() if isinstance(freeze, date) else freeze


def no_latitude_note() -> str:
    """Which hemisphere was taken for want of a latitude."""
    return _("The file does not tell its latitude: taken as north. Give --latitude for the south.")


def describe(station: StationFile, hemisphere: Hemisphere) -> list[str]:
    """What was read, for a person."""
    findings = station.findings
    lines = [
        f"{station.name or station.station_id or _('Station')}: {layout_name(station.layout)}",
        _("%(days)s days from %(first)s to %(last)s")
        % {"days": len(station.days), "first": station.days[0].day, "last": station.days[-1].day},
    ]
    if station.latitude is None:
        lines.append(no_latitude_note())
    elif hemisphere is Hemisphere.SOUTH:
        lines.append(_("Southern hemisphere: seasons run from February to January."))
    if findings.flagged:
        flagged = ngettext(
            "%(count)s value failed the data centre's own checks and is left out.",
            "%(count)s values failed the data centre's own checks and are left out.",
            findings.flagged,
        )
        lines.append(flagged % {"count": findings.flagged})
    lines += [finding_sentence(finding) for finding in (*findings.unused, *findings.doubtful)]
    unlisted = findings.counts.total() - len(findings.unused) - len(findings.doubtful)
    if unlisted:
        lines.append(
            ngettext("… and %(n)s more line.", "… and %(n)s more lines.", unlisted) % {"n": unlisted}
        )
    return lines + [run_sentence(run) for run in station.runs]


def table(record: FrostRecord, celsius: float) -> list[str]:
    """One threshold as lines of a table, for a person."""
    last, first = (record.defined(side, celsius) for side in (Side.LAST, Side.FIRST))
    lines = [
        "",
        _("Freezes at or below %(celsius)s °C") % {"celsius": celsius},
        _("  seasons used: %(last)s in spring, %(first)s in autumn")
        % {"last": last.used, "first": first.used},
        _("  chance   a freeze on or after   a freeze on or before"),
    ]
    for percent in PERCENTS:
        dates = [
            date_at(curve, percent) or (_("too few seasons") if curve.too_short else _("too rare"))
            for curve in (last, first)
        ]
        lines.append(f"  {percent:4} %   {dates[0]:>21}   {dates[1]:>22}")
    return lines + [
        f"  {year.year}: {freeze_text(year.last) or '-':>10}  {freeze_text(year.first) or '-':>10}"
        for year in record.years(celsius)
    ]
