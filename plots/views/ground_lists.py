"""The lists of plots: as they are held, and as they lie on the map."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from django.utils.translation import gettext as _

from plots.listing import Column, Filter, Listing
from plots.models import Garden, Plot, PlotKind
from plots.quantities import Quantity, Unit, unit_for
from plots.queries.site import MapRow
from plots.wording import unit_text

HELD, COMING, FREE, GIVEN_UP, NO_HOLDER = "held", "coming", "free", "given-up", "none"


def state_of(plot: Plot) -> str:
    """Whether the plot is held, promised, free, given up, or never held; needs `current` and `coming`."""
    if plot.retired_on:
        return GIVEN_UP
    if plot.current:
        return HELD
    if plot.coming:
        return COMING
    return FREE if plot.is_personal else NO_HOLDER


def people_text(plot: Plot) -> str:
    """Who holds the plot today, holder first."""
    return "; ".join(
        ", ".join(str(person) for person in (held.holder, *held.co_gardeners.all())) for held in plot.current
    )


def plots_list(
    garden: Garden, columns: Sequence[Column[Plot]] = (), filters: Sequence[Filter[Plot]] = ()
) -> Listing[Plot]:
    """The plots; with further columns and filters for what only others know of them."""
    names = _states()
    return Listing(
        columns=[
            Column("label", _("Plot"), lambda plot: plot.label),
            Column("size", _("Size"), _area, in_csv=False),
            *_sides(garden),
            Column("held", _("Held by"), people_text),
            Column("state", _("State"), lambda plot: names[state_of(plot)], on_page=False),
            Column("kind", _("Kind"), lambda plot: str(plot.get_kind_display())),
            Column("accessible", _("Accessible"), lambda plot: plot.accessible, on_page=False),
            Column("note", _("Note"), lambda plot: plot.note, on_page=False),
            Column("retired", _("Given up on"), lambda plot: plot.retired_on, on_page=False),
            *columns,
        ],
        filters=[
            Filter("state", _("State"), list(names.items()), lambda plot, word: state_of(plot) == word),
            Filter("kind", _("Kind"), PlotKind.choices, lambda plot, word: plot.kind == word),
            Filter("bed", _("Bed"), _beds(), lambda plot, _word: plot.accessible),
            *filters,
        ],
        text=lambda plot: f"{plot.label} {people_text(plot)} {plot.note}",
    )


def _states() -> dict[str, str]:
    return {
        HELD: _("held"),
        COMING: _("promised"),
        FREE: _("free"),
        NO_HOLDER: _("without a holder"),
        GIVEN_UP: _("given up"),
    }


def _beds() -> list[tuple[str, str]]:
    return [("accessible", _("accessible"))]


def map_list(garden: Garden) -> Listing[MapRow]:
    return Listing(
        columns=[
            Column("plot", _("Plot"), lambda row: row.plot.label),
            Column("size", _("Size"), lambda row: _area(row.plot), in_csv=False),
            Column("where", _("Where"), lambda row: row.row),
            Column("corner", _("From left, top"), lambda row: row.plot.left_m, in_csv=False),
            *_map_sides(garden),
            Column("water", _("Nearest water"), lambda row: row.water, order=lambda row: row.water_m),
            Column("marks", _("Marks"), lambda row: row.marks),
        ],
        filters=[
            Filter("kind", _("Kind"), PlotKind.choices, lambda row, word: row.plot.kind == word),
            Filter("bed", _("Bed"), _beds(), lambda row, _word: row.plot.accessible),
        ],
        text=lambda row: f"{row.plot.label} {row.water} {row.marks}",
    )


def _area(plot: Plot) -> float | None:
    """What sizes are sorted by."""
    return plot.width_m * plot.length_m if plot.width_m and plot.length_m else None


def _sides(garden: Garden) -> list[Column[Plot]]:
    """The sides in the garden's unit, for calculating with."""
    unit = unit_for(Quantity.LENGTH, garden.units)
    words = {"width_m": _("Width"), "length_m": _("Length"), "left_m": _("From left"), "top_m": _("From top")}
    return [
        Column(name, f"{word}, {unit_text(unit)}", _in_unit(name, unit), on_page=False)
        for name, word in words.items()
    ]


def _map_sides(garden: Garden) -> list[Column[MapRow]]:
    return [
        Column(side.key, side.title, lambda row, side=side: side.value(row.plot), on_page=False)
        for side in _sides(garden)
    ]


def _in_unit(name: str, unit: Unit) -> Callable[[Plot], float | None]:
    def value(plot: Plot) -> float | None:
        metres = getattr(plot, name)
        return None if metres is None else round(unit.from_si(metres), 2)

    return value
