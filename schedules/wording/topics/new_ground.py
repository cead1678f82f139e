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
from schedules.wording.topics.topic import Question, Topic

if TYPE_CHECKING:
    from reportlab.graphics.shapes import Drawing

_FIRST_YEAR = {"potato", "squash-winter", "pumpkin", "squash-summer", "bean-bush", "tomato", "sweet-potato"}
_HAZARDS = (Hazard.SITE_HISTORY, Hazard.LEAD, Hazard.BURIED_LINES, Hazard.TETANUS)
_WEEKS_UNDER_COVER = 8  # in warm weather: common practice, no source
_OPENING = timedelta(weeks=2)


def write(page: Page, place: Place) -> None:
    """What comes before the spade, three ways to begin, and the first year."""
    page.heading(_("Before the spade"))
    page.points(
        [
            _("May you? Ask whoever owns or lends the ground, in writing, and for how many years."),
            _("What stood here? Old houses, garages, workshops and orchards leave lead and worse. Test"
              " before you dig."),
            _("What lies below? Have pipes and cables marked."),
            _("What grows here? Where grass grows thick, vegetables will. Rushes and moss tell of wet"
              " ground."),
        ]
    )  # fmt: skip
    page.heading(_("Cover it: no digging"), room=200)
    page.chart(
        _drawn,
        _("Layers on grass: mulch, compost, cardboard, cut grass, and the soil below."),
    )
    page.points(_layers(place), numbered=True)
    page.text(_cover_when(place))
    page.heading(_("Or: lift the grass, or leave it in the dark"))
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
        _("Plain brown cardboard, wetted, without tape; sheets overlap by %(overlap)s. It stops light.")
        % {"overlap": ground.deep_text(place, 8, 20)},
        _("Grass and weeds, mown as short as can be and left. Dig out only what comes back from roots."),
        _("The soil. Loosen it first with a fork where it is hard; worms do the rest."),
    ]


def _cover_when(place: Place) -> str:
    if place.first_frost is None:
        return _("Best begun in autumn, for planting in spring. In spring plant into pockets of compost.")
    return _(
        "Best begun in autumn, while it is warm, here by about %(day)s; then it can be planted in spring."
        " Begun in spring, plant into pockets of compost."
    ) % {"day": local.day(place.first_frost - _OPENING)}


def _other_ways(place: Place) -> list[str]:
    found = _("Lift it: cut the grass into strips, roll it up, and pile it upside down: good soil in a"
              " year. Then loosen, and add compost. Quick, and hard work: do a bed a day.")  # fmt: skip
    dark = _("Leave it in the dark: weigh a tarp down for %(weeks)d weeks of warm weather.")
    words: dict[str, object] = {"weeks": _WEEKS_UNDER_COVER}
    if place.last_frost is not None:
        words["day"] = local.day(place.last_frost + timedelta(weeks=_WEEKS_UNDER_COVER))
        dark = _("Leave it in the dark: weigh a tarp down for %(weeks)d weeks of warm weather. Laid at the"
                 " usual last frost here, it comes off about %(day)s.")  # fmt: skip
    return [
        found,
        dark % words,
        _(
            "A tiller is quick, but it cuts roots of bindweed, quackgrass and thistle into pieces that all"
            " grow."
        ),
    ]


def _first_year(place: Place) -> list[str]:
    suited = [crop.name for crop in place.crops if crop.facts.slug in _FIRST_YEAR]
    return [
        _("Begin with one bed, and cover the rest. What is not planted is mulched."),
        _("Large, quick plants suit new ground: of yours %(crops)s.") % {"crops": ground.named(suited)}
        if suited
        else _("Large, quick plants suit new ground: potatoes, squash, bush beans, tomatoes."),
        _(
            "Leave carrots and other fine seed for the second year: they want crumbly soil without grass"
            " roots."
        ),
        _("Expect wireworms and slugs where grass was, and weeds: hoe each week."),
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
    write=write,
    questions=questions,
    sources=(
        "Layers, weeks in the dark, crops for the first year: common practice, no source",
        *(RESTS_ON[hazard] for hazard in _HAZARDS),
    ),
)
