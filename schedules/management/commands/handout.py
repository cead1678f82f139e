"""`manage.py handout`: the print table from the command line."""

from __future__ import annotations

import json
import sys
from argparse import ArgumentTypeError
from collections.abc import Iterator, Sequence
from datetime import date
from pathlib import Path
from typing import Any

from django.conf import settings
from django.core.management.base import CommandError, CommandParser
from django.utils.translation import gettext as _
from django.utils.translation import override

from crops.queries import crops_for
from plots.management.database import NeedsDatabase
from plots.models import Garden, Paper, User
from plots.month_days import parse_month_day
from plots.wording import month_day_text
from schedules.forms.print_choices import EVERYONE, GUEST, PLOTS, SENT
from schedules.forms.print_table import PrintForm
from schedules.management.scripting import ScriptCommand
from schedules.reports.document import Title
from schedules.service.print_table import keeping
from schedules.service.print_table.kinds import KINDS
from schedules.service.print_table.table import Kind, Made

MOST_GARDENS = 20  # as many as a sentence names


class Command(NeedsDatabase, ScriptCommand):
    """Prints one sheet of a garden into a file; nothing of it is kept on the print table."""

    help = "Print a sheet of a garden: a calendar, a handout, a summary, whatever the print table has."

    def add_arguments(self, parser: CommandParser) -> None:
        """What, for whom, when, and how."""
        parser.add_argument(
            "kind", nargs="?", metavar="KIND", help="what to print; --list tells what there is"
        )
        parser.add_argument("--list", action="store_true", help="list every kind with what it asks for")
        parser.add_argument(
            "--garden", metavar="SLUG", help="the garden, as in its address; left out where there is one"
        )
        parser.add_argument("--plot", action="append", metavar="LABEL", help="a plot; may be repeated")
        parser.add_argument("--member", metavar="NAME", help="whose sheet, by the name they sign in with")
        parser.add_argument("--everyone", action="store_true", help="every member's sheet, in one file")
        parser.add_argument("--year", type=int)
        parser.add_argument("--since", type=_day, metavar="YYYY-MM-DD", help="first day of the period")
        parser.add_argument("--until", type=_day, metavar="YYYY-MM-DD", help="last day of the period")
        parser.add_argument("--week", type=_day, metavar="YYYY-MM-DD", help="any day of the week")
        parser.add_argument("--crop", action="append", metavar="SLUG", help="a crop; may be repeated")
        parser.add_argument("--workshop", type=int, metavar="NUMBER", help="as in the workshop's address")
        parser.add_argument("--workday", type=int, metavar="NUMBER", help="as in the workday's address")
        parser.add_argument("--notice", type=int, metavar="NUMBER", help="as in the notice's address")
        parser.add_argument("--text", type=int, metavar="NUMBER", help="a text of the agreement")
        parser.add_argument("--labels", metavar="SHEET", help="kind of label sheet, such as letter-6")
        parser.add_argument(
            "--guest", metavar="NAME", help="another place than the garden, with frost dates:"
        )
        parser.add_argument(
            "--last-frost", type=_month_day, metavar="MM-DD", help="usual last frost of spring"
        )
        parser.add_argument(
            "--first-frost", type=_month_day, metavar="MM-DD", help="usual first frost of autumn"
        )
        parser.add_argument("--folded", action="store_true", help="in the order of a booklet to fold")
        parser.add_argument("--paper", choices=Paper.values)
        parser.add_argument("--large", action="store_true", help="in large print")
        parser.add_argument(
            "--both-sides", action="store_true", help="each one's sheets begin on the front of a new one"
        )
        parser.add_argument("--language", choices=[code for code, _name in settings.LANGUAGES])
        parser.add_argument("--out", type=Path, metavar="FILE", help="where to; standard output if not given")
        parser.add_argument("--json", action="store_true", help="print its rows as JSON instead of a PDF")

    def handle(self, *_args: Any, **options: Any) -> None:
        """Print."""
        if options["list"]:
            self._list(as_json=options["json"])
            return
        kind, garden = _kind(options["kind"]), _garden(options["garden"])
        with override(options["language"] or garden.language or settings.LANGUAGE_CODE):
            self._print(kind, _form(kind, garden, options), options)

    def _print(self, kind: Kind, form: PrintForm, options: dict[str, Any]) -> None:
        if options["json"]:
            rows: Any = (
                [rows_of(keeping.made(kind, form.asked_for(one))) for one in form.receivers]
                if form.for_everyone
                else rows_of(keeping.made(kind, form.asked()))
            )
            self._write(json.dumps(rows, ensure_ascii=False).encode() + b"\n", options["out"])
            return
        if options["out"] is None and sys.stdout.isatty():
            raise CommandError(_("A PDF is nothing to read in a terminal. Give a file with --out"))
        if form.for_everyone:
            content = keeping.everyone_of(kind, form.asked(), form.receivers)
        else:
            asked = form.asked()
            content = keeping.pdf_of(keeping.made(kind, asked), both_sides=asked.both_sides)
        self._write(content, options["out"])

    def _list(self, *, as_json: bool) -> None:
        rows = [
            {"kind": kind.code, "name": str(kind.name), "about": str(kind.about), "asks": list(_asks(kind))}
            for kind in KINDS.values()
        ]
        if as_json:
            self.stdout.write(json.dumps(rows, ensure_ascii=False))
            return
        for row in rows:
            asks = f" [{', '.join(row['asks'])}]" if row["asks"] else ""
            self.stdout.write(f"{row['kind']}{asks}: {row['about']}")

    def _write(self, content: bytes, path: Path | None) -> None:
        if path is None:
            self.stdout.flush()
            sys.stdout.buffer.write(content)
            return
        try:
            path.write_bytes(content)
        except OSError as error:
            words = {"file": path, "why": error.strerror}
            raise CommandError(_("%(file)s cannot be written: %(why)s") % words) from None


def rows_of(made: Made) -> dict[str, Any]:
    """A sheet's head, the sheets in it by their titles, and its tables, as other programs read them."""
    head = made.document.head
    titles = [block for block in made.document.blocks if isinstance(block, Title)]
    return {
        "garden": head.garden,
        "title": head.title,
        "sheets": [{"title": one.text, "subtitle": one.subtitle} for one in titles],
        "note": head.note,
        "language": head.language,
        "printed_on": head.printed_on.isoformat(),
        "tables": [
            {"name": name, "titles": list(table.titles), "rows": [list(row) for row in table.rows]}
            for name, table in made.document.tables
        ],
    }


def _asks(kind: Kind) -> Iterator[str]:
    """The arguments that choose what a kind is about."""
    for ask in kind.asks:
        yield from _ASKED_BY.get(ask, (f"--{ask}",))
    if kind.others is not None and kind.kept:
        yield "--everyone"


_ASKED_BY = {
    PLOTS: ("--plot",),
    "crops": ("--crop",),
    "period": ("--since", "--until"),
    "place": ("--guest", "--last-frost", "--first-frost"),
}


def _kind(code: str | None) -> Kind:
    if code is None:
        raise CommandError(_("Say what to print; --list tells what there is"))
    if code not in KINDS:
        raise CommandError(_("There is no sheet “%(kind)s”; --list tells what there is") % {"kind": code})
    return KINDS[code]


def _garden(slug: str | None) -> Garden:
    gardens = Garden.objects.select_related("rules")
    if slug is None:
        here = list(gardens.order_by("slug")[:MOST_GARDENS])
        if len(here) == 1:
            return here[0]
        slugs = ", ".join(one.slug for one in here)
        raise CommandError(
            _("Say which garden with --garden: %(slugs)s") % {"slugs": slugs}
            if here
            else _("There is no garden here yet")
        )
    found = gardens.filter(slug=slug).first()
    if found is None:
        raise CommandError(_("There is no garden “%(slug)s”") % {"slug": slug})
    return found


def _form(kind: Kind, garden: Garden, options: dict[str, Any]) -> PrintForm:
    """The table's own form, filled in by the arguments; what it refuses is the sentence of the error."""
    data = _filled_in(kind, garden, options)
    unwanted = sorted(data.keys() - _fields_of(kind, garden, data))
    if unwanted:
        words = {"kind": kind.code, "argument": _ARGUMENTS.get(unwanted[0], f"--{unwanted[0]}")}
        raise CommandError(_("“%(kind)s” does not ask for %(argument)s") % words)
    form = PrintForm(data, kind=kind, garden=garden, user=None)
    if form.is_valid() and not form.unfinished:
        return form
    if form.lacks_frosts:
        raise CommandError(_("Give --last-frost, --first-frost or both for the guest's place"))
    name, errors = next(iter(form.errors.items()))
    raise CommandError(f"{_ARGUMENTS.get(name, f'--{name}')}: {errors[0]}")


def _fields_of(kind: Kind, garden: Garden, data: dict[str, Any]) -> set[str]:
    return {*PrintForm(data, kind=kind, garden=garden, user=None).fields, SENT}


_ARGUMENTS = {
    PLOTS: "--plot",
    "crops": "--crop",
    "place": "--guest",
    "place_name": "--guest",
    "last_frost": "--last-frost",
    "first_frost": "--first-frost",
    "both_sides": "--both-sides",
}


def _filled_in(kind: Kind, garden: Garden, options: dict[str, Any]) -> dict[str, Any]:
    data: dict[str, Any] = {}
    for name in ("year", "workshop", "workday", "notice", "text", "labels", "paper"):
        if options[name] is not None:
            data[name] = options[name]
    for name in ("since", "until", "week"):
        if options[name] is not None:
            data[name] = options[name].isoformat()
    for name in ("folded", "large", "both_sides"):
        if options[name]:
            data[name] = "on"
    if options["plot"]:
        data[PLOTS] = _plots(garden, options["plot"])
    if options["crop"]:
        data["crops"] = _crops(garden, options["crop"])
    if options["member"] and options["everyone"]:
        raise CommandError(_("Give either --member or --everyone"))
    if options["everyone"]:
        data["member"] = EVERYONE
    elif options["member"]:
        data["member"] = _member(garden, options["member"])
    if options["guest"] is not None or options["last_frost"] or options["first_frost"]:
        data["place"] = GUEST
        if options["guest"]:
            data["place_name"] = options["guest"]
        for name in ("last_frost", "first_frost"):
            if options[name]:
                data[name] = month_day_text(options[name])
    return data


def _plots(garden: Garden, labels: Sequence[str]) -> list[int]:
    known = dict(garden.plots.filter(retired_on=None).values_list("label", "pk"))
    for label in labels:
        if label not in known:
            raise CommandError(_("This garden has no plot “%(label)s”") % {"label": label})
    return [known[label] for label in labels]


def _crops(garden: Garden, slugs: Sequence[str]) -> list[int]:
    known = {crop.slug: crop.pk for crop in crops_for(garden)}
    for slug in slugs:
        if slug not in known:
            raise CommandError(_("This garden knows no crop “%(slug)s”") % {"slug": slug})
    return [known[slug] for slug in slugs]


def _member(garden: Garden, name: str) -> str:
    found = User.objects.filter(memberships__garden=garden, sign_in_name=name).first()
    if found is None:
        raise CommandError(_("Nobody in this garden signs in as “%(name)s”") % {"name": name})
    return str(found.pk)


def _day(text: str) -> date:
    try:
        return date.fromisoformat(text)
    except ValueError:
        raise ArgumentTypeError(_("“%(text)s” is not a day such as 2026-05-09") % {"text": text}) from None


def _month_day(text: str) -> tuple[int, int]:
    found = parse_month_day(text)
    if found is None:
        raise ArgumentTypeError(_("“%(text)s” is not a day of the year such as 05-09") % {"text": text})
    return found
