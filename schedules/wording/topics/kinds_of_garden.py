"""Kinds of garden: in the ground, in frames, in containers, on hard ground, within everybody's reach."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from crops.volumes import M3_PER_CUBIC_FOOT, layer_m3, whole_bags
from crops.wording.cautions import RESTS_ON, Hazard
from crops.wording.volumes import bulk_text
from plots.quantities import Quantity, unit_for
from plots.wording import quantity_text
from schedules.place import Place
from schedules.reports.document import Page
from schedules.wording.topics import ground
from schedules.wording.topics.topic import Question, Topic
from schedules.wording.water import carried_text

if TYPE_CHECKING:
    from reportlab.graphics.shapes import Drawing

_FRAMES = ((8.0, 20.0), (12.0, 30.0), (18.0, 45.0))
_HAZARDS = (Hazard.TREATED_WOOD, Hazard.REACH, Hazard.POTTING_DUST)
_MOST_SIZES = 6


def write(page: Page, place: Place) -> None:
    """The kinds side by side, then what a frame takes to fill, pots, and reach."""
    page.text(
        _("No kind is best. Start with what the place allows, and with who will tend it; and start small:"
          " one bed well kept feeds more people than four that are lost to weeds.")
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


def _drawn(width: float) -> Drawing:
    from schedules.reports.sections import kinds_of_beds  # lazy: reportlab

    return kinds_of_beds(width)


def _kinds(place: Place) -> list[str]:
    return [
        _("In the ground: cheapest, dries out last, roots go as deep as they like. It needs fair soil,"
          " tested for lead, that drains."),
        _("A frame without a bottom, on soil: drains and warms early, and nobody steps on it. It dries"
          " faster, and has to be filled."),
        _("Containers: anywhere with sun. Water every day in heat; feed often, as water washes food out."),
        _("A frame on hard ground: %(deep)s of soil or more, holes or gravel below so that water leaves. Over"
          " ground that may be polluted ask first what has to lie between.")
        % {"deep": ground.deep_text(place, 18, 45)},
        _("A bed at sitting height, with room for knees below: shallow, so for greens, herbs and"
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
            _("a third of it compost"),
            _("all in bags of %(volume)s") % {"volume": bulk_text(bag, place.units)},
        ),
        shares=(1.6, 2, 2.2, 2.4),
        numbers=range(1, 4),
        name=_("Filling the frame"),
    )
    page.text(
        _("Two thirds topsoil and one third compost is a usual mix. It settles by a fifth in the first"
          " year. From a dozen bags on, a load in bulk is cheaper: ask where the soil comes from, and"
          " whether it was tested.")
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
            "volume": carried_text(litres, place.units),
            "crops": ground.named(names, 6),
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
        _("Holes in the bottom, potting mix and not garden soil, and nothing that held chemicals."),
    ]


def _reach(place: Place) -> list[str]:
    return [
        _("Width: what an arm reaches from one side, about %(one)s, or from both, about %(both)s. Try it"
          " seated.")
        % {"one": ground.deep_text(place, 24, 60), "both": ground.deep_text(place, 48, 120)},
        _("Height: about %(low)s for working from a chair beside it, %(high)s for standing, for most people.")
        % {
            "low": ground.deep_range(place, (24, 27), (60, 70)),
            "high": ground.deep_range(place, (30, 36), (75, 90)),
        },
        _("A table needs about %(knees)s free below for knees, and a path %(path)s wide or more, firm and"
          " even, with room to turn.")
        % {"knees": ground.deep_text(place, 27, 70), "path": ground.deep_text(place, 36, 90)},
        _("A seat in the shade, a tap without stooping, light tools, and labels that can be read and felt."),
    ]  # fmt: skip


def questions(place: Place) -> Sequence[Question]:
    depth = ground.deep(place, 12, 30)
    volume = layer_m3(place.bed.area_m2, depth)
    return (
        Question(
            _("How much soil fills a frame of %(bed)s, %(deep)s high?")
            % {"bed": ground.bed_text(place), "deep": ground.deep_text(place, 12, 30)},
            tuple(bulk_text(volume * times, place.units) for times in (0.25, 1.0, 9.0)),
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
    write=write,
    questions=questions,
    sources=(
        "BiologyInsights: Filling a 4 by 8 foot raised bed (volumes)",
        "Smallest containers: the crops’ pages in Trugbook name the source of each",
        "Heights, widths and knee room: values from memory, among them the US 2010 ADA Standards",
        "Mix and settling: common practice, no source",
        *(RESTS_ON[hazard] for hazard in _HAZARDS),
    ),
)
