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
from schedules.wording.topics.topic import Own, Question, Topic

if TYPE_CHECKING:
    from reportlab.graphics.shapes import Drawing

_FROM_PH, _TO_PH = 5.5, 6.5
_BEFORE_LAST_FROST = timedelta(weeks=8)
_HAZARDS = (Hazard.LEAD, Hazard.LEAD_TABLES, Hazard.DUST, Hazard.LIME)


def write(page: Page, place: Place) -> None:
    """The sample, the report, then the bed."""
    page.text(
        _("A soil test tells you what your soil has and what it lacks. It costs little. Without it you may"
          " feed what is not needed, or grow food in soil that is not fit for it.")
    )  # fmt: skip
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
            _("pH says how sour the soil is. Most vegetables like 6 to 7. Lime raises the pH. The report says"
              " how much your soil needs, if any; many soils need none."),
            _("“Low”, “optimum” and “high” mean what that laboratory means by them. If phosphorus is high,"
              " add none, and use less manure and compost."),
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
        _("Walk a zigzag over the bed. Take soil at %(cores)d places or more. (One laboratory’s short sheet"
          " says %(low)d to %(high)d. Do as the laboratory says that you send to.)")
        % {"cores": CLEMSON.fewest_cores, "low": shorter.fewest_cores, "high": shorter.most_cores or 0},
        _("At each place scrape off the mulch. Dig a hole with a straight side, %(depth)s deep. Cut a thin"
          " slice from top to bottom.")
        % {"depth": depth},
        _("Mix all slices in a clean plastic pail. Pick out stones and roots, and dry the soil on paper. Fill"
          " the laboratory’s bag. Write on it which bed it is."),
    ]  # fmt: skip


def _when(place: Place) -> str:
    if place.last_frost is None:
        return _(
            "Send it in autumn, or two months before you plant. Reports take weeks, and lime works slowly."
        )
    by = {"day": local.day(place.last_frost - _BEFORE_LAST_FROST)}
    return (
        _("Send it in autumn, or by %(day)s, eight weeks before the usual last frost here. Reports take"
          " weeks, and lime works slowly.") % by
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
        _("Go by the report, not by a table. For the same soil, to bring its pH from %(from)s to %(to)s, two"
          " published tables ask for very different weights of limestone on a bed of %(bed)s:") % words
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
    page.text(_("One laboratory’s table, in parts per million (ppm): %(source)s.") % {"source": OHIO_STATE})
    page.table(
        rows,
        titles=(_("Total lead"), _("Class"), _("What that table says")),
        shares=(2, 2, 5),
        name=_("Lead, by one laboratory"),
    )
    levels = epa_lead(place.today)
    page.quiet(
        _("US EPA looks closer at homes from %(level)s ppm on (%(year)d). That is no limit for gardens. Soil"
          " below it is not proven safe. Ask your health department what your figure means.")
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
        _("Squeeze a handful. If it stays a wet ball, wait: wet soil that is dug sets like brick. If it"
          " crumbles when you poke it, begin."),
        _("Pull weeds with their roots. Loosen the soil with a fork, %(deep)s deep. Do not turn it over.")
        % {"deep": ground.deep_range(place, (8, 10), (20, 25))},
        _("Spread compost %(depth)s deep: %(volume)s for this bed. Feed only by the report. Rake it level.")
        % {
            "depth": ground.deep_text(place, 1, 2.5),
            "volume": ground.layer_text(place, ground.deep(place, 1, 2.5)),
        },
        _("Wait two weeks. Then hoe off the weeds that came up, and plant."),
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
                _("What the laboratory’s report says"),
                _("What a table in a book says"),
                _("A bag each spring"),
            ),
            0,
            _("Two published tables differ by more than half for the same soil."),
        ),
    )


TOPIC = Topic(
    code="soil",
    name=gettext_lazy("Readying soil and the soil test"),
    about=gettext_lazy("How to take a soil sample, how to read the report, and how to ready a bed."),
    write=write,
    questions=questions,
    sources=(
        "Clemson University Agricultural Service Laboratory: Collecting samples; Clemson HGIC",
        "Daily Press, March 2023, from several extension services (years between tests)",
        "Ohio State University: Interpreting heavy metal test results; US EPA, October 2025, as Harvard EELP"
        " tracks it (lead)",
        "Squeezing, loosening, waiting: common practice, no source",
        RESTS_ON[Hazard.LIME],
    ),
    own=Own(
        gettext_lazy("My own tests"),
        {
            gettext_lazy("Date"): 1.2,
            gettext_lazy("Bed"): 1.6,
            gettext_lazy("pH"): 0.9,
            gettext_lazy("What the report asks for"): 3.4,
            gettext_lazy("Done on"): 1.3,
        },
    ),
)
