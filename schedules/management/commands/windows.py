"""`manage.py windows`: the catalogue's planting windows for a station's record or for frost dates."""

from __future__ import annotations

import json
import re
from argparse import ArgumentTypeError
from collections.abc import Iterable
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

from django.core.management.base import CommandError, CommandParser
from django.utils.formats import date_format
from django.utils.translation import gettext as _

from crops.catalogue import load_catalogue
from crops.facts import CropFacts
from crops.wording.names import crop_name
from schedules.bases import from_mean, from_record
from schedules.climate import Basis, Climate
from schedules.management.commands.frost import latitude, no_latitude_note, read_file
from schedules.management.scripting import ScriptCommand
from schedules.seasons import Hemisphere
from schedules.windows import AS_PUBLISHED, BOLD, CAREFUL, MIDDLING, Nerve, Reason, Turn, Window, derive
from schedules.wording import edge_name, operation_name, reason_sentence, tell
from schedules.wording.calendar import turn_name

UNITS = "us"
NERVES = {"careful": CAREFUL, "middling": MIDDLING, "bold": BOLD}
MonthDay = tuple[int, int]


class Command(ScriptCommand):
    """Derives windows from the catalogue's facts, with no database."""

    help = "Derive planting windows for the catalogue's crops from a weather record or from frost dates."

    def add_arguments(self, parser: CommandParser) -> None:
        """The climate, the nerve, the year and the crops."""
        parser.add_argument("--station", type=Path, metavar="FILE", help="a daily weather record")
        parser.add_argument("--last-frost", type=month_day, metavar="MM-DD", help="mean last frost of spring")
        parser.add_argument(
            "--first-frost", type=month_day, metavar="MM-DD", help="mean first frost of autumn"
        )
        parser.add_argument("--latitude", type=latitude, help="degrees, south negative")
        parser.add_argument("--nerve", type=nerve, help="careful, middling, bold, or a percentage of years")
        parser.add_argument(
            "--year", type=int, help="the year of the spring or autumn; this year if not given"
        )
        parser.add_argument("--crop", action="append", metavar="SLUG", help="only this crop; may be repeated")
        parser.add_argument("--json", action="store_true", help="print JSON and nothing else")

    def handle(self, *_args: Any, **options: Any) -> None:
        """Derive and print."""
        year = datetime.now(tz=UTC).year if options["year"] is None else options["year"]
        if not 1 < year < 9999:
            raise CommandError(_("The year must lie between 2 and 9998."))
        climate = self._climate(options)
        accepted = options["nerve"] or default_nerve(climate)
        crops = chosen_crops(options["crop"])
        windows = [window for facts in crops for window in derive(facts, climate, year=year, nerve=accepted)]
        if options["json"]:
            self.stdout.write(json.dumps([window_json(window) for window in windows], ensure_ascii=False))
            return
        names = {facts.slug: facts.name for facts in crops}
        for window in windows:
            self.stdout.write("\n".join(lines(window, names[window.crop])))

    def _climate(self, options: dict[str, Any]) -> Climate:
        """The climate that the arguments tell of."""
        last, first, known_latitude = options["last_frost"], options["first_frost"], options["latitude"]
        if options["station"] is not None:
            if last is not None or first is not None:
                raise CommandError(_("Give either a station's record or frost dates, not both."))
            station = read_file(options["station"], known_latitude)
            if station.latitude is None:
                self.stderr.write(no_latitude_note())
            return from_record(station.days, Hemisphere.of_latitude(station.latitude or 0.0))
        if last is None and first is None:
            raise CommandError(
                _("Give a station's record with --station, or --last-frost, --first-frost or both.")
            )
        return from_mean(hemisphere_of(last, first, known_latitude), last=last, first=first)


def month_day(text: str) -> MonthDay:
    """A day of the year, as (month, day)."""
    if not re.fullmatch(r"\d\d?-\d\d?", text):
        raise ArgumentTypeError(_("“%(text)s” is not a day of the year such as 05-09") % {"text": text})
    month, day = (int(part) for part in text.split("-"))
    try:
        datetime(2000, month, day, tzinfo=UTC)
    except ValueError:
        raise ArgumentTypeError(_("there is no day %(text)s in a year") % {"text": text}) from None
    return month, day


def nerve(text: str) -> Nerve:
    """One of the three names, or a percentage of years."""
    if text in NERVES:
        return NERVES[text]
    try:
        percent = float(text.rstrip("%"))
    except ValueError:
        percent = 0.0
    if not 0 < percent < 100:
        raise ArgumentTypeError(
            _("“%(text)s” is neither careful, middling or bold nor a percentage between 0 and 100")
            % {"text": text}
        )
    return Nerve(percent)


def default_nerve(climate: Climate) -> Nerve:
    """Middling, or the published practice itself when only mean dates are known."""
    return AS_PUBLISHED if climate.basis is Basis.MEAN else MIDDLING


def hemisphere_of(last: MonthDay | None, first: MonthDay | None, latitude: float | None) -> Hemisphere:
    """The side of the equator: by latitude, else by the order in which the frosts come within a year."""
    if latitude is not None:
        return Hemisphere.of_latitude(latitude)
    if last is not None and first is not None and 7 <= last[0] <= 11 and first < last:
        return Hemisphere.SOUTH
    return Hemisphere.NORTH


def chosen_crops(slugs: Iterable[str] | None) -> list[CropFacts]:
    """The catalogue's crops, or those asked for."""
    crops = load_catalogue().crops
    if slugs is None:
        return list(crops.values())
    unknown = [slug for slug in slugs if slug not in crops]
    if unknown:
        raise CommandError(_("The catalogue has no crop “%(slug)s”.") % {"slug": unknown[0]})
    return [crops[slug] for slug in dict.fromkeys(slugs)]


def window_json(window: Window) -> dict[str, Any]:
    """A window as other programs read it."""
    dates = {
        name: None if day is None else day.isoformat()
        for name, day in (("earliest", window.earliest), ("best", window.best), ("latest", window.latest))
    }
    return {
        "crop": window.crop,
        "operation": window.operation.value,
        "season": window.turn.value,
        "succession": window.succession,
        **dates,
        "reasons": [reason_json(reason, window) for reason in window.reasons],
    }


def reason_json(reason: Reason, window: Window) -> dict[str, Any]:
    """A reason with its sentence, the edge it explains and the way of starting that it belongs to."""
    return {
        "code": reason.code,
        "text": reason_sentence(reason, UNITS),
        "edge": reason.edge.value,
        "decisive": reason.decisive,
        "start": window.start.value,
    }


def lines(window: Window, name: str) -> list[str]:
    """A window for a person to read in a terminal."""
    heading = f"{crop_name(name)}, {operation_name(window.operation).lower()}"
    if window.turn is Turn.AUTUMN:
        heading += ", " + turn_name(window.turn).lower()
    if window.succession > 1:
        heading += f" ({window.succession})"
    heading += ":"
    if window.earliest is None or window.best is None or window.latest is None:
        dates = edge_name(window.reasons[0].edge)
    else:
        earliest, best, latest = (
            date_format(day, "DATE_FORMAT") for day in (window.earliest, window.best, window.latest)
        )
        dates = _("%(earliest)s to %(latest)s, best %(best)s") % {
            "earliest": earliest,
            "latest": latest,
            "best": best,
        }
    why = [f"    {told.heading}: {told.sentence}" for told in tell(window.reasons, UNITS) if told.decisive]
    return [f"{heading} {dates}", *why]
