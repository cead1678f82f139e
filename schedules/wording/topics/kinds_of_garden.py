"""Kinds of garden: in the ground, in frames, in containers, on hard ground, within everybody's reach."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import TYPE_CHECKING

from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from crops.beds import strips
from crops.volumes import M3_PER_CUBIC_FOOT, layer_m3, whole_bags
from crops.wording.cautions import RESTS_ON, Hazard
from crops.wording.volumes import bulk_text
from plots.quantities import Quantity, unit_for
from plots.wording import quantity_text
from schedules.place import Bed, Place
from schedules.reports.document import Page
from schedules.wording.topics import ground
from schedules.wording.topics.topic import Own, Question, Topic
from schedules.wording.water import carried_text

if TYPE_CHECKING:
    from reportlab.graphics.shapes import Drawing

_FRAMES = ((8.0, 20.0), (12.0, 30.0), (18.0, 45.0))
_HAZARDS = (Hazard.TREATED_WOOD, Hazard.REACH, Hazard.POTTING_DUST)
_MOST_SIZES = 6


def write(page: Page, place: Place) -> None:
    """The kinds side by side, then what a frame takes to fill, pots, and reach."""
    place = replace(place, bed=_frame(place.bed))
    page.text(
        _("No kind of garden is best. Ask what the place allows, and who will tend it. Start small: one bed"
          " that is well kept feeds more people than four full of weeds.")
    )  # fmt: skip
    page.chart(
        _drawn,
        _(
            "Five kinds of bed, cut open: in the ground, a frame, containers, a frame on hard ground, a"
            " table."
        ),
    )
    page.points(_kinds(place), numbered=True)
    page.heading(_("Filling a frame of %(bed)s") % {"bed": ground.bed_text(place)})
    _fill(page, place)
    page.heading(_("Containers"))
    page.points(_containers(place))
    page.heading(_("Beds within reach"))
    page.points(_reach(place))
    ground.warn(page, _HAZARDS)


def _frame(bed: Bed) -> Bed:
    """One of the beds that can be reached from their sides, of a plot that is wider."""
    short, long = sorted((bed.width_m, bed.length_m))
    return Bed(strips(short)[0].width_m, long)


def _drawn(width: float) -> Drawing:
    from schedules.reports.sections import kinds_of_beds  # lazy: reportlab

    return kinds_of_beds(width)


def _kinds(place: Place) -> list[str]:
    return [
        _("A bed in the ground costs least and dries out last. Roots go as deep as they like. The soil must"
          " drain, and it must have been tested for lead."),
        _("A frame without a bottom, on soil, drains well and warms early. Nobody steps on it. It dries out"
          " faster, and you have to fill it."),
        _("Containers stand anywhere with sun. Water them every day in heat. Feed them often, as water"
          " washes the food out."),
        _("A frame on hard ground needs %(deep)s of soil or more, and holes or gravel below, so that water"
          " can leave. If the ground may be polluted, ask first what has to lie between.")
        % {"deep": ground.deep_text(place, 18, 45)},
        _("A bed at sitting height has room for knees below. It is shallow: good for greens, herbs and"
          " strawberries."),
    ]  # fmt: skip


def _fill(page: Page, place: Place) -> None:
    bag = M3_PER_CUBIC_FOOT if ground.is_us(place) else 0.04
    rows = []
    for inches, centimetres in _FRAMES:
        volume = layer_m3(place.bed.area_m2, ground.deep(place, inches, centimetres))
        third = bulk_text(volume / 3, place.units)
        rows.append(
            (
                ground.deep_text(place, inches, centimetres),
                bulk_text(volume, place.units),
                third,
                str(whole_bags(volume, bag)),
            )
        )
    page.table(
        rows,
        titles=(
            _("Height"),
            _("To fill it"),
            _("One third: compost"),
            _("All of it, in bags of %(volume)s") % {"volume": bulk_text(bag, place.units)},
        ),
        shares=(1.6, 2, 2.2, 2.4),
        numbers=range(1, 4),
        name=_("Filling the frame"),
    )
    page.text(
        _("A usual mix is two thirds topsoil and one third compost. It sinks by about a fifth in the first"
          " year, so keep some back. For more than a dozen bags a truckload is mostly cheaper. Ask where the"
          " soil comes from, and whether it was tested.")
    )  # fmt: skip


def _containers(place: Place) -> list[str]:
    """The smallest container for each crop chosen, sizes together."""
    sizes: dict[float, list[str]] = {}
    for crop in place.crops:
        if crop.facts.container_litres is not None:
            sizes.setdefault(crop.facts.container_litres, []).append(crop.name)
    unit = unit_for(Quantity.VOLUME, place.units)
    told = [
        _("%(volume)s or more: %(crops)s.")
        % {
            "volume": carried_text(litres if ground.is_us(place) else round(litres), place.units),
            "crops": ground.named(names, 8),
        }
        for litres, names in sorted(sizes.items())[:_MOST_SIZES]
    ]
    return [
        *told,
        ""
        if told
        else _("Greens and herbs want %(small)s or more, peppers %(middle)s, a tomato %(large)s.")
        % {
            name: quantity_text(
                unit.to_si(us if ground.is_us(place) else metric), Quantity.VOLUME, place.units
            )
            for name, us, metric in (("small", 1, 4), ("middle", 2, 8), ("large", 5, 20))
        },
        _(
            "A container needs holes in its bottom. Fill it with potting mix, not with garden soil. Never use"
            " one that held chemicals."
        ),
    ]


def _reach(place: Place) -> list[str]:
    return [
        _("Width: an arm reaches about %(one)s from one side. With a path on both sides a bed can be %(both)s"
          " wide. Try it sitting down.")
        % {"one": ground.deep_text(place, 24, 60), "both": ground.deep_text(place, 48, 120)},
        _("Height: to work from a chair beside it, some say %(low)s, others up to %(up)s; to work standing,"
          " %(high)s.")
        % {
            "low": ground.deep_range(place, (18, 24), (45, 60)),
            "up": ground.deep_text(place, 34, 85),
            "high": ground.deep_range(place, (30, 36), (75, 90)),
        },
        _("A table needs about %(knees)s of free height for knees. The path is %(path)s wide or more, firm"
          " and even, with room to turn.")
        % {"knees": ground.deep_text(place, 27, 70), "path": ground.deep_text(place, 36, 90)},
        _("A seat in the shade helps, and so do a tap at hand height, light tools, and large labels."),
    ]  # fmt: skip


def questions(place: Place) -> Sequence[Question]:
    place = replace(place, bed=_frame(place.bed))
    depth = ground.deep(place, 12, 30)
    volume = layer_m3(place.bed.area_m2, depth)
    return (
        Question(
            _("How much soil fills a frame of %(bed)s, %(deep)s high?")
            % {"bed": ground.bed_text(place), "deep": ground.deep_text(place, 12, 30)},
            tuple(bulk_text(volume * times, place.units) for times in (0.6, 1.0, 2.0)),
            1,
            _("Length times width times height, all in the same unit."),
        ),
        Question(
            _("Which wood stays away from a food bed?"),
            (_("Cedar"), _("Old railway ties"), _("New, untreated boards")),
            1,
            _("Ties are soaked in what should not come near food."),
        ),
    )


TOPIC = Topic(
    code="kinds-of-garden",
    name=gettext_lazy("Kinds of garden"),
    about=gettext_lazy(
        "Beds in the ground, frames, pots and tables: what each is good for, and what fills it."
    ),
    write=write,
    questions=questions,
    sources=(
        "BiologyInsights: Filling a 4 by 8 foot raised bed (volumes)",
        "Smallest containers: the crops’ pages in Trugbook name the source of each",
        "Heights: naturalyards.com, makinglifeeasier.com; widths, knees: from memory (US ADA Standards)",
        "Mix and settling: common practice, no source",
        *(RESTS_ON[hazard] for hazard in _HAZARDS),
    ),
    own=Own(
        gettext_lazy("My own beds"),
        {
            gettext_lazy("Bed or pot"): 2.6,
            gettext_lazy("How big"): 1.8,
            gettext_lazy("What goes in"): 2.6,
            gettext_lazy("Who will tend it"): 2.2,
        },
    ),
)
