"""New ground: from a lawn or a lot to a bed."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import timedelta
from typing import TYPE_CHECKING

from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy, ngettext

from crops.volumes import layer_m3, whole_bags
from crops.wording.cautions import RESTS_ON, Hazard
from schedules.place import Place
from schedules.reports.document import Page
from schedules.wording.topics import ground, local
from schedules.wording.topics.topic import Own, Question, Topic

if TYPE_CHECKING:
    from reportlab.graphics.shapes import Drawing

_FIRST_YEAR = {"potato", "squash-winter", "pumpkin", "squash-summer", "bean-bush", "tomato", "sweet-potato"}
_HAZARDS = (Hazard.SITE_HISTORY, Hazard.LEAD, Hazard.BURIED_LINES, Hazard.TETANUS)
_WEEKS_UNDER_COVER = 8  # in warm weather: common practice, no source
_OPENING = timedelta(weeks=2)


def write(page: Page, place: Place) -> None:
    """What comes before the spade, three ways to begin, and the first year."""
    page.text(
        _("A lawn or an empty lot can become a bed in one season. Take the grass away, or the light from it."
          " First find out whether food may be grown there at all.")
    )  # fmt: skip
    page.heading(_("Ask first"))
    page.points(
        [
            _("Who owns the ground? Ask them for leave, in writing, and for how many years."),
            _("What stood here? Old houses, garages, workshops and orchards may have left lead and other"
              " poisons. Have the soil tested before you dig."),
            _("What lies below? Have pipes and cables marked."),
            _("What grows here? Where grass grows thick, vegetables will grow. Rushes and moss mean that the"
              " ground is wet."),
        ]
    )  # fmt: skip
    page.heading(_("The first way: cover it, without digging"), room=200)
    page.chart(
        _drawn,
        _("Layers on grass: mulch, compost, cardboard, cut grass, and the soil below."),
    )
    page.points(_layers(place), numbered=True)
    page.text(_("Begin with number 5, at the bottom, and end with number 1.") + " " + _cover_when(place))
    page.heading(_("Other ways"))
    page.points(_other_ways(place))
    page.heading(_("The first year"))
    page.points(_first_year(place))
    ground.warn(page, _HAZARDS)


def _drawn(width: float) -> Drawing:
    from schedules.reports.sections import new_ground  # lazy: reportlab

    return new_ground(width)


def _layers(place: Place) -> list[str]:
    mulch, compost = ground.deep(place, 3, 8), ground.deep(place, 4, 10)
    barrow = 0.085 if ground.is_us(place) else 0.08  # 3 cubic feet or 80 litres: common practice, no source
    loads = whole_bags(layer_m3(place.bed.area_m2, compost), barrow)
    return [
        _("Straw or leaves, %(depth)s: %(volume)s for a bed of %(bed)s.")
        % {
            "depth": ground.deep_text(place, 3, 8),
            "volume": ground.layer_text(place, mulch),
            "bed": ground.bed_text(place),
        },
        ngettext(
            "Compost, %(depth)s: %(volume)s, about %(loads)d barrow.",
            "Compost, %(depth)s: %(volume)s, about %(loads)d barrows.",
            loads,
        )
        % {
            "depth": ground.deep_text(place, 4, 10),
            "volume": ground.layer_text(place, compost),
            "loads": loads,
        },
        _("Plain brown cardboard without tape. Wet it. Its edges overlap by %(overlap)s. It keeps light out.")
        % {"overlap": ground.deep_text(place, 8, 20)},
        _(
            "Grass and weeds, mown as short as you can and left there. Dig out weeds that come back from"
            " their roots, such as bindweed and thistle."
        ),
        _("The soil. If it is hard, loosen it with a fork first. Worms do the rest."),
    ]


def _cover_when(place: Place) -> str:
    if place.first_frost is None:
        return _(
            "Best of all cover it in autumn, and plant in spring. If you begin in spring, cut holes in the"
            " cardboard, fill them with compost, and plant into them."
        )
    return _(
        "Best of all cover it in autumn, while it is warm, here by about %(day)s, and plant in spring. If you"
        " begin in spring, cut holes in the cardboard, fill them with compost, and plant into them."
    ) % {"day": local.day(place.first_frost - _OPENING)}


def _other_ways(place: Place) -> list[str]:
    found = _("Lift the grass. Cut it into strips, roll them up, and pile them upside down. In a year the"
              " pile is good soil. Loosen the bed and add compost. It is quick, but hard work: do one"
              " bed a day.")  # fmt: skip
    dark = _("Leave the grass in the dark. Lay a tarp on it, with stones on the edges, for %(weeks)d weeks of"
             " warm weather.")  # fmt: skip
    words: dict[str, object] = {"weeks": _WEEKS_UNDER_COVER}
    if place.last_frost is not None:
        words["day"] = local.day(place.last_frost + timedelta(weeks=_WEEKS_UNDER_COVER))
        dark += _(" Laid at the usual last frost here, it comes off about %(day)s.")
    return [
        found,
        dark % words,
        _(
            "A tiller is quick. But it cuts the roots of bindweed, quackgrass and thistle into pieces, and"
            " every piece grows."
        ),
    ]


def _first_year(place: Place) -> list[str]:
    suited = [crop.name for crop in place.crops if crop.facts.slug in _FIRST_YEAR]
    return [
        _("Begin with one bed. Keep the rest covered."),
        _("Large, quick plants suit new ground. From this sheet’s crops: %(crops)s.")
        % {"crops": ground.named(suited)}
        if suited
        else _("Large, quick plants suit new ground: potatoes, squash, bush beans, tomatoes."),
        _("Sow carrots and other fine seed in the second year. They want crumbly soil without grass roots."),
        _(
            "Where grass was, expect slugs, and wireworms: thin, hard, yellow grubs that eat roots and"
            " potatoes."
        ),
        _("Expect weeds, too. Hoe every week while they are small."),
    ]


def questions(place: Place) -> Sequence[Question]:
    return (
        Question(
            _("What comes first on a lot whose past nobody knows?"),
            (_("Digging"), _("Asking what stood there, and a test for lead"), _("Fertilizer")),
            1,
            _("What is in the ground decides whether, and how, food is grown there."),
        ),
        Question(
            _("What is the cardboard for?"),
            (
                _("It feeds the plants"),
                _("It keeps slugs away"),
                _("It takes the light from grass and weeds"),
            ),
            2,
            _("Without light they die, and worms take the cardboard down."),
        ),
    )


TOPIC = Topic(
    code="new-ground",
    name=gettext_lazy("New ground"),
    about=gettext_lazy("How to turn grass or a bare lot into a bed, with digging or without."),
    write=write,
    questions=questions,
    sources=(
        "Layers, weeks in the dark, crops for the first year: common practice, no source",
        *(RESTS_ON[hazard] for hazard in _HAZARDS),
    ),
    own=Own(
        gettext_lazy("My own new bed"),
        {
            gettext_lazy("Date"): 1.2,
            gettext_lazy("What I did"): 4,
            gettext_lazy("What I saw"): 3,
        },
    ),
)
