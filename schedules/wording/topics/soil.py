"""Readying soil, and the soil test: how a sample is taken, and how differently reports are read."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import timedelta
from typing import TYPE_CHECKING

from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from crops.feeding import over_area
from crops.lime import PER_UNIT, TO_TARGET
from crops.soil_test import (
    CLEMSON,
    CLEMSON_SHORT,
    OHIO_STATE,
    OHIO_STATE_LEAD,
    RETEST_YEARS,
    LeadClass,
    epa_lead,
)
from crops.wording.cautions import RESTS_ON, Hazard
from plots.quantities import Quantity
from plots.wording import range_text
from plots.wording.quantities import number_text
from schedules.place import Place
from schedules.reports.document import Page
from schedules.wording.topics import ground, local
from schedules.wording.topics.topic import Question, Topic

if TYPE_CHECKING:
    from reportlab.graphics.shapes import Drawing

_FROM_PH, _TO_PH = 5.5, 6.5
_BEFORE_LAST_FROST = timedelta(weeks=8)
_HAZARDS = (Hazard.LEAD, Hazard.LEAD_TABLES, Hazard.DUST, Hazard.LIME)


def write(page: Page, place: Place) -> None:
    """The sample, the report, then the bed."""
    page.heading(_("Take a sample"), room=200)
    page.chart(
        _drawn,
        _("A bed with cores in a zigzag, a slice from the side of a hole, and a pail to mix in."),
    )
    page.points(_sampling(place), numbered=True)
    page.points([_when(place), _again(place)])
    page.heading(_("Ready the bed"))
    page.points(_ready(place), numbered=True)
    page.heading(_("Read the report"))
    page.points(
        [
            _("pH: most vegetables like 6 to 7. The report says how much lime, if any; many soils need"
              " none."),
            _("Classes (low, optimum, high) belong to that laboratory. High phosphorus means: add none, and"
              " hold back manure and compost, too."),
            _("Ask for total lead as well if the history of the place is not known."),
        ]
    )  # fmt: skip
    _lime(page, place)
    _lead(page, place)
    ground.warn(page, _HAZARDS)


def _drawn(width: float) -> Drawing:
    from schedules.reports.sampling_sketch import sampling_sketch  # lazy: reportlab

    return sampling_sketch(CLEMSON.fewest_cores, width)


def _sampling(place: Place) -> list[str]:
    shorter = CLEMSON_SHORT
    low, high = CLEMSON.depth_m
    depth = range_text(low, high, Quantity.SHORT_LENGTH, place.units)
    return [
        _("Walk a zigzag and take %(cores)d cores or more. (One laboratory’s own short sheet says %(low)d to"
          " %(high)d: follow the laboratory you send to.)")
        % {"cores": CLEMSON.fewest_cores, "low": shorter.fewest_cores, "high": shorter.most_cores or 0},
        _("Dig a hole with a straight side, %(depth)s deep; cut a slice from top to bottom. Scrape off"
          " mulch first.")
        % {"depth": depth},
        _("Mix in a clean plastic pail, pick out stones and roots, dry it on paper. Fill the laboratory’s"
          " bag, and write on it which bed."),
    ]  # fmt: skip


def _when(place: Place) -> str:
    if place.last_frost is None:
        return _(
            "Send it in autumn, or two months before you plant: lime works slowly, and reports take weeks."
        )
    by = {"day": local.day(place.last_frost - _BEFORE_LAST_FROST)}
    return (
        _("Send it in autumn; at the latest by %(day)s, eight weeks before the usual last frost here. Lime"
          " works slowly, and reports take weeks.") % by
    )  # fmt: skip


def _again(place: Place) -> str:
    (low, high), (later, latest) = RETEST_YEARS
    return _("Test again after %(low)d to %(high)d years; other sources say %(later)d to %(latest)d.") % {
        "low": low,
        "high": high,
        "later": later,
        "latest": latest,
    }


def _lime(page: Page, place: Place) -> None:
    """Two published tables for the same loam, side by side."""
    one = PER_UNIT.kg_m2("medium loam", ph=_FROM_PH, target=_TO_PH)
    other = TO_TARGET.kg_m2("loam", ph=_FROM_PH) or 0.0
    words = {"from": number_text(_FROM_PH), "to": number_text(_TO_PH), "bed": ground.bed_text(place)}
    page.heading(_("Lime"), room=150)
    page.text(
        _("Why only the report’s own figure counts: to bring a loam from pH %(from)s to %(to)s, two"
          " published tables ask for this much ground limestone on a bed of %(bed)s.") % words
    )  # fmt: skip
    page.table(
        [
            (table.source, ground.kilograms_text(place, over_area(rate, place.bed.area_m2)))
            for table, rate in ((PER_UNIT, one), (TO_TARGET, other))
        ],
        titles=(_("Table"), _("On this bed")),
        shares=(4, 2),
        numbers=(1,),
        name=_("Two tables for lime"),
    )


def _lead(page: Page, place: Place) -> None:
    """Ohio State's classes as printed, and the federal screening level of the day beside them."""
    rows = []
    lowest = 0.0
    for row in OHIO_STATE_LEAD:
        span = (
            _("above %(ppm)s") % {"ppm": number_text(lowest)}
            if row.highest is None
            else _("up to %(ppm)s") % {"ppm": number_text(row.highest)}
        )
        rows.append((span, _class_name(row), _advice(row)))
        lowest = row.highest or lowest
    page.heading(_("Lead"), room=190)
    page.text(_("As one table reads it: %(source)s, in parts per million.") % {"source": OHIO_STATE})
    page.table(
        rows,
        titles=(_("Total lead"), _("Class"), _("What that table says")),
        shares=(2, 2, 5),
        name=_("Lead, by one laboratory"),
    )
    levels = epa_lead(place.today)
    page.quiet(
        _("US EPA’s screening level for homes is %(level)s ppm (%(year)d). It is no limit for gardens, and"
          " no line above which, or below which, all is well.")
        % {"level": number_text(levels.screening), "year": levels.since.year}
    )  # fmt: skip


def _class_name(row: LeadClass) -> str:
    names = {"low": _("low"), "moderate": _("moderate"), "high": _("high"), "very high": _("very high")}
    return names[row.name]


def _advice(row: LeadClass) -> str:
    if row.no_food:
        return _("grow no food in it")
    if row.no_leafy_or_root:
        return _("no leafy and no root crops")
    return _("names no crop to leave out")


def _ready(place: Place) -> list[str]:
    return [
        _("Squeeze a handful. If it stays a wet ball, wait; if it crumbles when you poke it, begin. Soil"
          " worked wet sets like brick."),
        _("Weed, roots and all. Loosen with a fork, %(deep)s down, without turning it over; stand on a"
          " board.")
        % {"deep": ground.deep_range(place, (8, 10), (20, 25))},
        _("Spread compost, %(depth)s: %(volume)s for this bed. Feed only by the report. Rake level.")
        % {
            "depth": ground.deep_text(place, 1, 2.5),
            "volume": ground.layer_text(place, ground.deep(place, 1, 2.5)),
        },
        _("Leave it for two weeks. Weeds that come up then go with one pass of the hoe."),
    ]  # fmt: skip


def questions(place: Place) -> Sequence[Question]:
    return (
        Question(
            _("How many places on the bed go into one sample?"),
            (_("One, in the middle"), _("A dozen or so, mixed"), _("Only the bad spot")),
            1,
            _("Soil differs from step to step; the mix tells of the whole bed."),
        ),
        Question(
            _("How much lime does your bed need?"),
            (
                _("What this laboratory’s report says"),
                _("What a table in a book says"),
                _("A bag each spring"),
            ),
            0,
            _("Published tables differ by more than half for the same soil."),
        ),
    )


TOPIC = Topic(
    code="soil",
    name=gettext_lazy("Readying soil and the soil test"),
    write=write,
    questions=questions,
    sources=(
        "Clemson University Agricultural Service Laboratory: Collecting samples; Clemson HGIC",
        "Daily Press, March 2023, from several extension services (years between tests)",
        "Ohio State University: Interpreting heavy metal test results",
        "US EPA, October 2025, as Harvard EELP tracks it (lead)",
        "Squeezing, loosening, waiting: common practice, no source",
        RESTS_ON[Hazard.LIME],
    ),
)
