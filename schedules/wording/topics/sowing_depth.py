"""Sowing depth and spacing, drawn to scale."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from datetime import date, timedelta
from typing import TYPE_CHECKING

from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy, ngettext

from crops.emergence import days_to_emerge
from plots.quantities import METRES_PER_FOOT, METRES_PER_INCH, Quantity
from plots.wording import quantity_text
from schedules.place import Place, PlaceCrop
from schedules.reports.document import Page
from schedules.windows import Operation
from schedules.wording.topics import ground, local
from schedules.wording.topics.topic import Own, Question, Topic

if TYPE_CHECKING:
    from reportlab.graphics.shapes import Drawing

    from schedules.reports.seed_rows import Tick

_MOST_DEPTHS, _MOST_ROWS = 6, 3
_FEW_DEPTHS, _WIDE = 3, 460.0  # in a narrow drawing names would be cut off
_NAMED = 2
_LONG_DAYS = 30  # what would take longer is not told: seed in the usual soil is up by then


def write(page: Page, place: Place) -> None:
    """The two drawings, how it is done, then each crop's figures."""
    page.text(
        _("Sow a seed two to three times as deep as it is thick. Deeper, it may not reach the light. Nearer"
          " to the top, it dries out. Plants need room: crowded ones stay small and fall ill.")
    )  # fmt: skip
    _depth_drawing(page, place)
    _spacing_drawing(page, place)
    page.points(
        [
            _("Water the row before you sow. Water from a can on top of seed washes it away."),
            _("Press the soil down with the flat of your hand. Keep it moist until seedlings stand."),
            _(
                "Mark the row, and write the date on the mark. Mix tiny seed with dry sand to spread it"
                " evenly."
            ),
            _("If nothing comes up: was the soil cold or dry, or did birds or slugs eat it? Sow again."),
        ]
    )
    rows = [row for crop in place.crops if (row := _row(crop, place))]
    page.table(
        rows,
        titles=(
            _("Crop"),
            _("Deep"),
            _("Seed apart"),
            _("Plants apart"),
            _("Between rows"),
            _("Comes up after"),
        ),
        shares=(3.8, 1.1, 1.4, 1.5, 1.6, 1.7),
        name=_("Depth and distances"),
    )
    if rows:
        page.quiet(
            _("Days until the first seedlings show: in the usual soil here, midway through the dates for"
              " sowing; in pots, in warm mix. Deep or dry seed takes up to twice as long.")
            if any(one.soil_c is not None for one in place.months)
            else _("Days until the first seedlings show, in warm soil. In cold soil it takes two or three"
                   " times as long.")
        )  # fmt: skip
    else:
        page.text(local.no_crops())
        page.table(
            [[""] * 5 for _line in range(8)],
            titles=(_("Crop"), _("Deep"), _("Seed apart"), _("Plants apart"), _("Between rows")),
            shares=(3, 1.3, 1.5, 1.7, 1.5),
            row_height=26,
            grid=True,
        )


def _row(crop: PlaceCrop, place: Place) -> tuple[str, ...]:
    facts = crop.facts
    lengths = (facts.sow_depth_m, facts.seedling_spacing_m, facts.spacing_m, facts.row_spacing_m)
    if not any(lengths):
        return ()
    deep, _sown, apart, rows = (
        quantity_text(one, Quantity.SHORT_LENGTH, place.units) if one else "" for one in lengths
    )
    return (crop.name, deep, local.sown_apart(facts, place), apart, rows, _comes_up(crop, place))


def _comes_up(crop: PlaceCrop, place: Place) -> str:
    """Days until it shows: in the soil of the middle day for sowing here; raised in pots, in warm mix."""
    sown = local.first_window(crop, Operation.SOW)
    days = crop.facts.emergence_days_optimum
    if sown is not None and sown.earliest is not None and sown.latest is not None:
        soil = _soil_on(sown.earliest + (sown.latest - sown.earliest) / 2, place)
        if soil is not None:
            days = days_to_emerge(crop.facts, soil)
    if days is None or days > _LONG_DAYS:
        return ""
    return ngettext("%(days)d day", "%(days)d days", round(days)) % {"days": round(days)}


def _soil_on(day: date, place: Place) -> float | None:
    """Usual soil temperature of a day, between those of the middles of two months."""
    soil = {one.month: one.soil_c for one in place.months}
    before = day - timedelta(days=15)
    first, second = soil.get(before.month), soil.get(before.month % 12 + 1)
    if first is None or second is None:
        return None
    return first + (second - first) * (before.day - 1) / 30


def _depth_drawing(page: Page, place: Place) -> None:
    by_depth: dict[float, list[str]] = defaultdict(list)
    for crop in place.crops:
        if crop.facts.sow_depth_m:
            by_depth[crop.facts.sow_depth_m].append(crop.name)
    if not by_depth:
        return
    told = {one: quantity_text(one, Quantity.SHORT_LENGTH, place.units) for one in sorted(by_depth)}

    def draw(width: float) -> Drawing:
        from schedules.reports.seed_rows import Depth, depths  # lazy: reportlab

        chosen = _some(list(told), _MOST_DEPTHS if width >= _WIDE else _FEW_DEPTHS)
        sown = [Depth(one, told[one], ground.named(by_depth[one], _NAMED)) for one in chosen]
        return depths(sown, _ticks(chosen[-1], place, small=True), width)

    said = "; ".join(f"{text}: {', '.join(by_depth[one])}" for one, text in told.items())
    page.heading(_("How deep"), room=180)
    page.chart(draw, _("The ground from the side, with seed at its depth. %(depths)s.") % {"depths": said})


def _spacing_drawing(page: Page, place: Place) -> None:
    by_spacing = {crop.facts.spacing_m: crop for crop in place.crops if crop.facts.spacing_m}
    if not by_spacing:
        return
    chosen = [by_spacing[one] for one in _some(sorted(by_spacing), _MOST_ROWS)]
    told = [
        (
            crop.name,
            crop.facts.spacing_m or 0.0,
            quantity_text(crop.facts.spacing_m or 0.0, Quantity.SHORT_LENGTH, place.units),
        )
        for crop in chosen
    ]

    def draw(width: float) -> Drawing:
        from schedules.reports.seed_rows import Spaced, spacings  # lazy: reportlab

        rows = [Spaced(name, metres, _("%(length)s apart") % {"length": text}) for name, metres, text in told]
        return spacings(rows, _ticks(2.2 * told[-1][1], place, small=False), width)

    said = "; ".join(f"{name}: {text}" for name, _metres, text in told)
    page.heading(_("How far apart in the end"), room=200)
    page.chart(draw, _("Rows from above, drawn to scale over a ruler. %(rows)s.") % {"rows": said})


def _some(every: Sequence[float], most: int) -> list[float]:
    """At most so many of them, the least and the greatest among them."""
    if len(every) <= most:
        return list(every)
    return [every[round(n * (len(every) - 1) / (most - 1))] for n in range(most)]


def _ticks(least: float, place: Place, *, small: bool) -> list[Tick]:
    """Marks of a ruler in whole units of the reader, to `least` metres or beyond."""
    from schedules.reports.seed_rows import Tick  # lazy: reportlab

    us = ground.is_us(place)
    if small:
        quantity, unit = Quantity.SHORT_LENGTH, METRES_PER_INCH if us else 0.01
    else:
        quantity, unit = Quantity.LENGTH, METRES_PER_FOOT if us else 0.5
    step = next(unit * n for n in (1, 2, 5, 10, 20) if least <= 6 * unit * n)
    count = int(-(-least // step))
    return [Tick(step * n, quantity_text(step * n, quantity, place.units)) for n in range(1, count + 1)]


def questions(place: Place) -> Sequence[Question]:
    """The rule of depth, and one crop's distance."""
    found = [
        Question(
            _("A seed is as thick as a coin. How deep does it go?"),
            (_("two to three times its own thickness"), _("as deep as a finger"), _("on top, always")),
            0,
            _("Deeper, it may not reach the light; shallower, it dries out."),
        )
    ]
    spaced = {crop.facts.spacing_m: crop for crop in place.crops if crop.facts.spacing_m}
    if spaced:
        widest = spaced[max(spaced)]
        apart = widest.facts.spacing_m or 0.0
        lengths = [
            quantity_text(share * apart, Quantity.SHORT_LENGTH, place.units) for share in (0.25, 1.0, 3.0)
        ]
        found.append(
            Question(
                _("How far apart does %(crop)s stand in the end?") % {"crop": widest.name},
                tuple(lengths),
                1,
                _("It needs this much room for its leaves and roots."),
            )
        )
    return found


TOPIC = Topic(
    code="sowing-depth",
    name=gettext_lazy("Sowing depth and spacing"),
    about=gettext_lazy("How deep and how far apart each crop is sown, drawn to scale."),
    write=write,
    questions=questions,
    sources=(
        *local.CROP_SOURCES,
        "Depth by thickness: common practice, no source. Days to come up: Harrington and Minges, 1954"
        " (Knott’s Handbook, as UC Santa Cruz copies it).",
    ),
    own=Own(
        gettext_lazy("My own sowings"),
        {
            gettext_lazy("Crop"): 2.6,
            gettext_lazy("Sown"): 1.3,
            gettext_lazy("How deep"): 1.2,
            gettext_lazy("Came up"): 1.3,
            gettext_lazy("How many"): 1.4,
        },
    ),
)
