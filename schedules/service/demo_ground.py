"""The demonstration's maps: where its plots lie, what stands beside them, and beds without a holder."""

from __future__ import annotations

from typing import NamedTuple

from plots.models import Garden, Plot, PlotKind, Site, SiteFeature, User
from plots.service import keep_feature, keep_plot, keep_site, move_things
from plots.service.site import Move

FOOT = 0.3048


class Stands(NamedTuple):
    """A thing on the map; lengths in the garden's feet or metres."""

    kind: str
    label: str
    left: float
    top: float
    width: float
    length: float
    accessible: bool = False


NORTH_THINGS = [
    Stands("hedge", "", 0, 0, 84, 3),
    Stands("path", "Long path", 0, 26, 84, 5, accessible=True),
    Stands("path", "", 66, 4, 4, 22),
    Stands("gate", "Lane gate", 1, 63.5, 8, 1),
    Stands("fence", "", 10, 63, 74, 2),
    Stands("water", "tap at the path", 60, 27.3, 2, 2, accessible=True),
    Stands("water", "tap at the shed", 61, 44, 2, 2),
    Stands("shed", "Shed", 70, 50, 9, 7),
    Stands("compost", "Compost", 70, 40, 12, 5),
    Stands("tree", "", 70, 6, 13, 13),
    Stands("table", "", 54, 52, 8, 4, accessible=True),
]
SOUTH_THINGS = [
    Stands("path", "", 0, 6.5, 24, 1.2),
    Stands("water", "Tank", 19.5, 2, 1.2, 1.2),
    Stands("gate", "Gate", 21, 11.8, 1.6, 0.2),
    Stands("shed", "Shed", 16, 8.4, 3, 2.4),
]


def draw_north(garden: Garden, by: User) -> None:
    """Two rows along a path that wheels can follow, beds for all, and one whose harvest is given away."""
    _site(garden, by, 84 * FOOT, 65 * FOOT, 20)
    lie = {f"A{number}": ((number - 1) * 10 + 4, 5) for number in range(1, 7)}
    lie |= {f"B{number}": ((number - 1) * 8 + 4, 34) for number in range(1, 7)}
    _move(garden, by, lie, FOOT)
    garden.plots.filter(label__startswith="B").update(accessible=True, bed_height_m=0.6)
    for label, kind, left, note in (
        ("Herbs", PlotKind.COMMUNAL, 4, "Everybody may cut here. Leave the roots."),
        ("Pantry bed", PlotKind.GIVE_AWAY, 28, "Picked on Thursdays for the pantry in Mill Street."),
    ):
        bed = {"width_m": 20 * FOOT, "length_m": 5 * FOOT, "left_m": left * FOOT, "top_m": 52 * FOOT}
        keep_plot(plot=Plot(garden=garden, label=label, kind=kind, note=note, **bed), by=by)
    _things(garden, by, NORTH_THINGS, FOOT)


def draw_south(garden: Garden, by: User) -> None:
    """A small garden in metres, its north down the page."""
    _site(garden, by, 24, 12, 195)
    _move(garden, by, {str(number): ((number - 1) * 3.6, 0.2) for number in range(1, 6)}, 1)
    _things(garden, by, SOUTH_THINGS, 1)


def _site(garden: Garden, by: User, width_m: float, length_m: float, north: float) -> None:
    site = Site(garden=garden, width_m=width_m, length_m=length_m, north_deg=north)
    keep_site(site=site, by=by)


def _move(garden: Garden, by: User, lie: dict[str, tuple[float, float]], unit: float) -> None:
    plots = garden.plots.filter(label__in=lie)
    moves = [Move(f"plot-{plot.pk}", *(side * unit for side in lie[plot.label])) for plot in plots]
    move_things(garden=garden, by=by, moves=moves)


def _things(garden: Garden, by: User, things: list[Stands], unit: float) -> None:
    for thing in things:
        feature = SiteFeature(
            garden=garden,
            kind=thing.kind,
            label=thing.label,
            left_m=thing.left * unit,
            top_m=thing.top * unit,
            width_m=thing.width * unit,
            length_m=thing.length * unit,
            accessible=thing.accessible,
        )
        keep_feature(feature=feature, by=by)
