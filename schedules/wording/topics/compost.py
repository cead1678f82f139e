"""Compost and manure: how much for this bed, how a heap is made, and from when on manure is too late."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from crops.manure import (
    DAYS_OFF_THE_SOIL,
    DAYS_TOUCHING_SOIL,
    HOT_DAYS_WINDROW,
    HOT_FROM_C,
    HOT_TO_C,
    INCH_OF_MANURE_COMPOST,
    WINDROW_TURNS,
)
from crops.soil_test import EXCESS_P_PAUSE_YEARS
from crops.volumes import M3_PER_CUBIC_FOOT, M3_PER_CUBIC_YARD, covered_m2, layer_m3, whole_bags
from crops.wording.cautions import RESTS_ON, Hazard
from crops.wording.volumes import bulk_text
from plots.quantities import Quantity
from plots.wording import range_text
from plots.wording.site import area_text
from schedules.place import Place
from schedules.reports.document import Page
from schedules.wording.topics import ground, local
from schedules.wording.topics.topic import Own, Question, Topic

if TYPE_CHECKING:
    from reportlab.graphics.shapes import Drawing

_DEPTHS = ((0.5, 1.0), (1.0, 2.5), (2.0, 5.0))
_MOST_CROPS = 8
_HAZARDS = (Hazard.RAW_MANURE, Hazard.CARRY_OVER, Hazard.WASTE)


def write(page: Page, place: Place) -> None:
    """Volumes, the heap, manure."""
    page.text(
        _("Compost is what leaves and peelings rot into. It makes soil crumbly, so that it holds water and"
          " lets air in, and it feeds plants slowly. A thin layer each year is enough. Spread it on top, or"
          " rake it in. The numbers are for a bed of %(bed)s.") % {"bed": ground.bed_text(place)}
    )  # fmt: skip
    _volumes(page, place)
    page.heading(_("A heap"), room=200)
    page.chart(_drawn, _("A heap between two boards, in layers, with a cover."))
    page.points(
        [
            _("A cover keeps the rain out. The heap should be as moist as a wrung-out sponge."),
            _(
                "Brown and dry layers: leaves, straw, paper. Use two to three pails of them for a pail of"
                " green."
            ),
            _("Green and moist layers: weeds without seed, peelings, coffee grounds, a little grass."),
            _(
                "Twigs at the bottom let air in. A heap %(side)s wide, deep and high keeps itself warm. Turn"
                " it over with a fork when it cools."
            )
            % {"side": ground.long_text(place, 3, 1)},
        ],
        numbered=True,
    )
    page.points(
        [
            _("It smells: it is too wet, or too green. Turn it, and mix in something brown."),
            _("Nothing happens: it is too dry, too brown or too small. Water it, and add something green."),
            _("It is ready when it is dark, smells like a forest, and shows nothing of what went in."),
        ]
    )
    page.heading(_("Manure"))
    page.points([*_rules(place), *_too_much(place)])
    _last_days(page, place)
    ground.warn(page, _HAZARDS)


def _drawn(width: float) -> Drawing:
    from schedules.reports.sections import heap  # lazy: reportlab

    return heap(width)


def _volumes(page: Page, place: Place) -> None:
    bag = M3_PER_CUBIC_FOOT if ground.is_us(place) else 0.04
    load = M3_PER_CUBIC_YARD if ground.is_us(place) else 1.0
    rows = []
    for inches, centimetres in _DEPTHS:
        depth = ground.deep(place, inches, centimetres)
        volume = layer_m3(place.bed.area_m2, depth)
        covers = area_text(covered_m2(load, depth), place.units)
        rows.append(
            (
                ground.deep_text(place, inches, centimetres),
                bulk_text(volume, place.units),
                str(whole_bags(volume, bag)),
                covers,
            )
        )
    page.table(
        rows,
        titles=(
            _("Layer"),
            _("For this bed"),
            _("Bags of %(volume)s") % {"volume": bulk_text(bag, place.units)},
            _("%(volume)s covers") % {"volume": bulk_text(load, place.units)},
        ),
        shares=(2, 2, 2, 2),
        numbers=range(1, 4),
        name=_("Compost for this bed"),
    )


def _rules(place: Place) -> list[str]:
    hottest = HOT_TO_C if ground.is_us(place) else round(HOT_TO_C)
    hot = range_text(HOT_FROM_C, hottest, Quantity.TEMPERATURE, place.units)
    return [
        _("Manure can carry germs that make people ill. Raw, it goes on in autumn, or long before the"
          " harvest: %(long)d days where what you eat touches the soil, %(short)d where it does not. That is"
          " the rule for certified organic farms in the US.")
        % {"long": DAYS_TOUCHING_SOIL, "short": DAYS_OFF_THE_SOIL},
        _("Never put it on frozen ground or on snow: when that melts, it runs into streams. Where winters are"
          " hard, autumn is the time for crops that are picked early."),
        _("By the same rule it counts as composted only if a heap was kept at %(hot)s for %(days)d days and"
          " turned %(turns)d times, and somebody wrote it down. If nobody can say so, treat it as raw.")
        % {"hot": hot, "days": HOT_DAYS_WINDROW, "turns": WINDROW_TURNS},
    ]  # fmt: skip


def _too_much(place: Place) -> list[str]:
    told = INCH_OF_MANURE_COMPOST
    low, high = EXCESS_P_PAUSE_YEARS
    return [
        _("More is not better. A layer of %(depth)s of manure compost brings nitrogen for one season, but"
          " phosphorus for %(years)d years. If the soil test finds too much phosphorus, use no manure and no"
          " compost for %(low)d to %(high)d years, and test again.")
        % {"depth": ground.deep_text(place, 1, 2.5), "years": told.p_years, "low": low, "high": high},
    ]  # fmt: skip


def _last_days(page: Page, place: Place) -> None:
    """By crop: the last day for raw manure."""
    harvests = sorted(
        (picked, crop.name, last)
        for crop in place.crops
        if (picked := local.first_picked(crop)) and (last := local.last_manure(crop))
    )
    if not harvests:
        page.text(
            _(
                "Count back %(days)d days from the first harvest of each crop; that day is the last for raw"
                " manure."
            )
            % {"days": DAYS_TOUCHING_SOIL}
        )
        return
    page.heading(_("Last days for raw manure here"), room=250)
    rows = [(name, local.day(picked), local.day(last)) for picked, name, last in harvests[:_MOST_CROPS]]
    page.table(
        rows,
        titles=(
            _("Crop"),
            _("First harvest here"),
            _("Last day for raw manure (%(days)d days)") % {"days": DAYS_TOUCHING_SOIL},
        ),
        shares=(3, 2, 3),
        name=_("Last days for raw manure"),
    )
    if len(harvests) > _MOST_CROPS:
        page.quiet(_("These crops are picked first. For the others count back from their own first harvest."))


def questions(place: Place) -> Sequence[Question]:
    depth = ground.deep(place, 1, 2.5)
    volume = layer_m3(place.bed.area_m2, depth)
    return (
        Question(
            _("How much compost is a layer of %(depth)s on a bed of %(bed)s?")
            % {"depth": ground.deep_text(place, 1, 2.5), "bed": ground.bed_text(place)},
            tuple(bulk_text(volume * times, place.units) for times in (1.0, 2.0, 4.0)),
            0,
            _("Area times depth, both in the same unit."),
        ),
        Question(
            _("How long before you pick carrots must raw manure be on the bed?"),
            tuple(_("%(days)d days") % {"days": days} for days in (30, 60, DAYS_TOUCHING_SOIL)),
            2,
            _("Carrots lie in the soil, so the longer time counts."),
        ),
    )


TOPIC = Topic(
    code="compost",
    name=gettext_lazy("Compost and manure"),
    about=gettext_lazy("How much compost a bed takes, how to make a heap, and when manure is too late."),
    write=write,
    questions=questions,
    sources=(
        "7 CFR 205.203 (United States, certified organic farms)",
        "Texas A&M AgriLife, Travis County: How much compost, soil or mulch?",
        INCH_OF_MANURE_COMPOST.source,
        "UW-Extension Kenosha County, 2015: Fertilizing your garden",
        "USDA-NRCS as Madison Soil and Water Conservation District, Ohio, tells it (frozen ground)",
        "Layers of a heap: common practice, no source",
        *(RESTS_ON[hazard] for hazard in (Hazard.CARRY_OVER, Hazard.WASTE)),
    ),
    own=Own(
        gettext_lazy("My own heap"),
        {
            gettext_lazy("Date"): 1.2,
            gettext_lazy("What went in or out"): 3.4,
            gettext_lazy("Turned"): 1.2,
            gettext_lazy("Warm, wet, smell?"): 2.6,
        },
    ),
)
