"""Closing the bed: what the first frost decides here, and what is done before winter."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, timedelta
from functools import partial

from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from crops.rotation import YEARS_BETWEEN, back_from
from crops.wording.cautions import RESTS_ON, Hazard
from crops.wording.names import family_name
from schedules.frost import THRESHOLDS_C
from schedules.place import Place
from schedules.reports.document import Page
from schedules.windows.growth import dies_at
from schedules.wording.climate import threshold_text
from schedules.wording.topics import ground, local
from schedules.wording.topics.topic import Own, Question, Topic

_HAZARDS = (Hazard.BLIGHT, Hazard.WASTE, Hazard.TOOLS)
_COVER_CROP = timedelta(weeks=6)
_MANY, _FEW_NAMED = 24, 5  # of so many crops, not all are named for each kind of frost
_HARD_C, _HARDER_C = THRESHOLDS_C[1:]
_LIGHT_C = _HARD_C / 2  # what dies above it dies in a light frost


def write(page: Page, place: Place) -> None:
    """When, what comes out, what goes on, what is written down."""
    page.text(
        _("Clear the bed, feed the soil and cover it in autumn, and half of next spring’s work is done. Bare"
          " soil washes away in winter, and old plants carry pests and diseases over to spring. Do it in"
          " steps, as crops come to their end.")
    )  # fmt: skip
    page.heading(_("When"))
    page.points([*_when(place), local.unknown_frost(place)])
    page.heading(_("Step by step"))
    page.points(_steps(place), numbered=True)
    page.heading(_("Water, tools and supports"))
    page.points(
        [
            _("Empty hoses, cans and barrels before the first hard frost, or they burst. Ask who shuts off"
              " the water."),
            _("Clean tools with a stiff brush. Dry and oil them. Mend what is loose now."),
            _("Take down strings and nets, so that no animal is caught in them. Clean the cages and stakes of"
              " sick plants."),
        ]
    )  # fmt: skip
    page.heading(_("Write down what stood where"), room=220)
    _what_stood(page, place)
    ground.warn(page, _HAZARDS)


def _when(place: Place) -> list[str]:
    half, rare = _first(place, 50), _first(place, 10)
    stands = [(crop.name, dies_at(crop.facts)) for crop in place.crops]
    tender = [name for name, cold in stands if cold > _LIGHT_C]
    hardy = [name for name, cold in stands if cold <= _HARDER_C]
    light = [name for name, cold in stands if _HARDER_C < cold <= _LIGHT_C]
    named = partial(ground.named, most=_FEW_NAMED) if len(place.crops) > _MANY else ground.named
    found = []
    if half is not None and rare is not None:
        found.append(
            _("First freeze here: in 1 year of 10 by %(rare)s, in half of the years by %(half)s.")
            % {"rare": local.day(rare), "half": local.day(half)}
        )
    if tender:
        found.append(
            _("The first frost kills these: %(crops)s. Pick what is ripe or nearly ripe the day before.")
            % {"crops": named(tender)}
        )
    if light:
        found.append(_light(place, named(light)))
    if hardy:
        found.append(
            _("Harder frost does not kill these, so they may stay longer: %(crops)s.")
            % {"crops": named(hardy)}
        )
    return found


def _light(place: Place, crops: str) -> str:
    """Those that stand a light frost, and when a harder one comes here."""
    hard = _first(place, 50, _HARD_C)
    words = {"crops": crops, "cold": threshold_text(_HARD_C, place.units)}
    if hard is None:
        return _("A light frost does not kill these. Pick them before it gets as cold as %(cold)s:"
                 " %(crops)s.") % words  # fmt: skip
    return _(
        "A light frost does not kill these. Pick them before it gets as cold as %(cold)s, here by %(day)s in"
        " half of the years: %(crops)s."
    ) % {**words, "day": local.day(hard)}


def _first(place: Place, percent: int, celsius: float = local.FREEZING_C) -> date | None:
    freezing = next((one for one in place.freeze if one.celsius == celsius), None)
    return None if freezing is None else freezing.first.get(percent)


def _steps(place: Place) -> list[str]:
    return [
        _("Take out plants that are done. Healthy ones go on the compost. Take sick ones, and weeds with"
          " seed, out of the garden as its rules say."),
        _("Cut beans and peas off at the ground, and leave their roots in the soil to feed it."),
        _("Weed once more. A weed pulled now drops no seed in spring."),
        _("Take a soil sample if the last is two or three years old. Laboratories are quick in autumn."),
        _("Spread compost %(depth)s deep: %(volume)s for a bed of %(bed)s. Give lime only by the report.")
        % {
            "depth": ground.deep_text(place, 1, 2.5),
            "volume": ground.layer_text(place, ground.deep(place, 1, 2.5)),
            "bed": ground.bed_text(place),
        },
        _("Cover it with leaves or straw %(depth)s deep: %(volume)s.")
        % {
            "depth": ground.deep_text(place, 4, 10),
            "volume": ground.layer_text(place, ground.deep(place, 4, 10)),
        },
        _cover_crop(place),
    ]  # fmt: skip


def _cover_crop(place: Place) -> str:
    if place.first_frost is None:
        return _(
            "Or sow a cover crop, one that only keeps the soil covered. Oats go in six weeks before the first"
            " frost, and winter kills them. Rye can still be sown about the first frost. It lives, and you"
            " cut it in spring, four weeks before you plant."
        )
    return _(
        "Or sow a cover crop, one that only keeps the soil covered. Oats go in by about %(day)s, six weeks"
        " before the usual first frost here, and winter kills them. Rye can be sown until about %(frost)s. It"
        " lives, and you cut it in spring, four weeks before you plant."
    ) % {"day": local.day(place.first_frost - _COVER_CROP), "frost": local.day(place.first_frost)}


def _what_stood(page: Page, place: Place) -> None:
    low, high = YEARS_BETWEEN
    year = place.year
    page.text(
        _("Plants of one family have the same pests and diseases. Leave a family out of a bed for %(low)d or"
          " %(high)d years: what stood here in %(year)d comes back in %(first)d or, better, %(then)d.")
        % {
            "low": low,
            "high": high,
            "year": year,
            "first": back_from(year, low),
            "then": back_from(year, high),
        }
    )  # fmt: skip
    families: dict[str, list[str]] = {}
    for crop in place.crops:
        families.setdefault(family_name(crop.facts.family), []).append(crop.name)
    rows = [(family, ground.named(names, 6), "", "") for family, names in sorted(families.items())]
    page.table(
        rows or [("", "", "", "")] * 5,
        titles=(
            _("Family"),
            _("Crops"),
            _("Stood in bed"),
            _("Not before"),
        ),
        shares=(2, 4.4, 1.8, 1.4),
        row_height=None if rows else 24,
        name=_("What stood where"),
    )


def questions(place: Place) -> Sequence[Question]:
    low, high = YEARS_BETWEEN
    year = place.year
    back = back_from(year, low)
    return (
        Question(
            _("Tomatoes stood in a bed in %(year)d. From when on may peppers stand there?") % {"year": year},
            (str(year + 1), str(back), _("Any year: they are not related")),
            1,
            _("Both are nightshades; the family is left out for %(low)d or %(high)d full years.")
            % {"low": low, "high": high},
        ),
        Question(
            _("Where do plants with late blight go?"),
            (_("On the shared compost"), _("Under the mulch"), _("Into a bag, and out, as a clinic advises")),
            2,
            _("It spreads fast. Have it confirmed, and tell the neighbors."),
        ),
    )


TOPIC = Topic(
    code="closing",
    name=gettext_lazy("Closing the bed"),
    about=gettext_lazy("What to clear, cover and write down before winter, and by when here."),
    write=write,
    questions=questions,
    sources=(
        "Iowa State University Extension: Why is it important to rotate crops in the vegetable garden?",
        "Bangor Daily News, September 2013: Sow cover crops in open areas of the garden (rye)",
        "Cold that kills a crop: its page in Trugbook; clearing, covers and oats: common practice, no source",
        *(RESTS_ON[hazard] for hazard in _HAZARDS),
    ),
    own=Own(
        gettext_lazy("For next year"),
        {
            gettext_lazy("Bed"): 1.6,
            gettext_lazy("What stood there"): 3,
            gettext_lazy("How it went"): 3,
            gettext_lazy("Next year"): 2.2,
        },
    ),
)
