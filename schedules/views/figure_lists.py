"""The tables of figures: the months of a plot's year, and the garden by plot, crop, month or member."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass

from django.utils.translation import gettext as _

from plots.listing import Cell, Column, Listing
from plots.models import Garden
from plots.quantities import LITRES_PER_GALLON, Units
from plots.wording.hours import hours_text
from schedules.amounts import GRAMS, MM_PER_INCH
from schedules.figures import Month, Totals
from schedules.wording.figures import harvest_text, month_text
from schedules.wording.logs import unit_short, work_word
from schedules.wording.water import carried_text, depth_text


@dataclass(frozen=True)
class GroupRow:
    """One line of a table of figures: the sums of a plot, a crop, a month or a member."""

    name: str
    totals: Totals
    order: Cell = None  # where the name sorts wrongly
    pk: int | None = None
    depth_mm: float | None = None


BY = ("plot", "crop", "month", "member")
_SHOWN: dict[str, Sequence[str]] = {
    "plot": ("water", "depth", "picked", "given", "hours", "days", "last"),
    "crop": ("picked", "given", "first_picked", "last_picked"),
    "month": ("water", "picked", "given", "time", "hours", "days"),
    "member": ("picked", "time", "hours", "days"),
}


def figures_list(garden: Garden, by: str) -> Listing[GroupRow]:
    """The garden's figures, one line for each of what they are grouped by."""
    titles = {"plot": _("Plot"), "crop": _("Crop"), "month": _("Month"), "member": _("Member")}
    known = _columns(garden.units)
    shown = _SHOWN[by]
    return Listing(
        columns=[
            Column("name", titles[by], lambda row: row.name, order=lambda row: row.order or row.name),
            *[known[key] for key in shown],
            *_numbers(garden.units, lambda row: row.totals),
            *([_depth(garden.units)] if "depth" in shown else []),
        ],
        text=lambda row: row.name,
    )


def _columns(units: str) -> dict[str, Column[GroupRow]]:
    """Columns of the page; those with words beside a number have it again in `_numbers`, for the file."""
    return {
        "water": _worded("water", _("Water"), lambda row: water_cell(row.totals, units), "litres"),
        "depth": Column(
            "depth", _("Over the plot"), lambda row: depth_cell(row, units),
            order=lambda row: row.depth_mm, in_csv=False,
        ),
        "picked": _worded("picked", _("Picked"), lambda row: picked_cell(row.totals, units), "grams"),
        "given": _worded("given", _("Given away"), lambda row: given_cell(row.totals, units), "given_grams"),
        "time": _worded("time", _("Time"), lambda row: time_cell(row.totals.minutes), "minutes"),
        "hours": _worded(
            "hours", _("Garden hours"), lambda row: time_cell(row.totals.garden_minutes),
            "garden_minutes",
        ),
        "days": Column("days", _("Days worked"), lambda row: row.totals.days_worked or None),
        "last": Column("last", _("Last worked"), lambda row: row.totals.last_worked),
        "first_picked": Column("first_picked", _("First picked"), lambda row: row.totals.first_picked),
        "last_picked": Column("last_picked", _("Last picked"), lambda row: row.totals.last_picked),
    }  # fmt: skip


def _worded(key: str, title: str, words: Callable[[GroupRow], str], by: str) -> Column[GroupRow]:
    """A sum in words, sorted by the number behind them."""
    return Column(key, title, words, order=lambda row: getattr(row.totals, by) or None, in_csv=False)


def _numbers(units: str, sums: Callable[[object], Totals]) -> list[Column]:  # type: ignore[type-arg]
    """Columns of the file: bare numbers in the garden's units, and how many logs they could not count."""
    weight, volume = ("lb", "gal") if units == Units.US else ("kg", "L")
    litres = LITRES_PER_GALLON if units == Units.US else 1.0
    pick, give, pieces = _("Picked"), _("Given away"), _("pieces")
    table: list[tuple[str, str, Callable[[Totals], Cell]]] = [
        ("logs", _("Logs"), lambda one: one.logs),
        ("water_n", f"{_('Water')}, {unit_short(volume)}", lambda one: round(one.litres / litres, 1)),
        ("unmeasured", _("Waterings not measured"), lambda one: one.unmeasured),
        ("grams", f"{pick}, {unit_short(weight)}", lambda one: round(one.grams / GRAMS[weight], 3)),
        ("pieces", f"{pick}, {pieces}", lambda one: one.pieces),
        ("unweighed", _("Pickings not weighed or counted"), lambda one: one.unweighed),
        ("given_n", f"{give}, {unit_short(weight)}", lambda one: round(one.given_grams / GRAMS[weight], 3)),
        ("given_p", f"{give}, {pieces}", lambda one: one.given_pieces),
        ("minutes", _("Minutes of work"), lambda one: one.minutes),
        ("garden_minutes", _("Minutes for the garden"), lambda one: one.garden_minutes),
    ]
    return [
        Column(key, title, lambda row, value=value: value(sums(row)), on_page=False)
        for key, title, value in table
    ]


def _depth(units: str) -> Column[GroupRow]:
    unit, scale = ("in", MM_PER_INCH) if units == Units.US else ("mm", 1.0)
    title = f"{_('Water over the plot')}, {unit_short(unit)}"
    return Column(
        "depth_n", title, lambda row: None if row.depth_mm is None else round(row.depth_mm / scale, 2),
        on_page=False,
    )  # fmt: skip


def water_cell(sums: Totals, units: str) -> str:
    return carried_text(sums.litres, units) if sums.litres else ""


def depth_cell(row: GroupRow, units: str) -> str:
    return depth_text(row.depth_mm, units) if row.depth_mm else ""


def picked_cell(sums: Totals, units: str) -> str:
    return harvest_text(sums.grams, sums.pieces, units)


def given_cell(sums: Totals, units: str) -> str:
    return harvest_text(sums.given_grams, sums.given_pieces, units)


def time_cell(minutes: int) -> str:
    return hours_text(minutes) if minutes else ""


def months_list(garden: Garden, works: Iterable[str]) -> Listing[Month]:
    """The year behind the drawing: on how many days of each month each work was done, and its sums."""
    units = garden.units
    return Listing(
        columns=[
            Column("month", _("Month"), lambda row: month_text(row.first), order=lambda row: row.first),
            *[
                Column(work, work_word(work), lambda row, work=work: row.days.get(work), on_page=True)
                for work in works
            ],
            Column("water", _("Water"), lambda row: water_cell(row.totals, units), in_csv=False),
            Column("picked", _("Harvest"), lambda row: picked_cell(row.totals, units), in_csv=False),
            Column("time", _("Time"), lambda row: time_cell(row.totals.minutes), in_csv=False),
            *_numbers(units, lambda row: row.totals),
        ]
    )
