"""Mulch and weeds."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from django.utils.dates import MONTHS
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from crops.volumes import M3_PER_CUBIC_FOOT, layer_m3, whole_bags
from crops.wording.cautions import RESTS_ON, Hazard
from crops.wording.volumes import bulk_text
from plots.quantities import fahrenheit_to_celsius
from schedules.place import Place
from schedules.reports.document import Page
from schedules.wording.topics import ground
from schedules.wording.topics.topic import Question, Topic

if TYPE_CHECKING:
    from reportlab.graphics.shapes import Drawing

_WARM_F, _WARM_C = 65, 18  # common practice, no source
_HAZARDS = (Hazard.CARRY_OVER, Hazard.TOOLS)


def write(page: Page, place: Place) -> None:
    """What mulch is good for, how thick, when; then weeds."""
    page.text(
        _("Mulch is a cover on the soil. It keeps water in and weeds down, stops soil from splashing onto"
          " leaves, and rots into food. Volumes are for a bed of %(bed)s.") % {"bed": ground.bed_text(place)}
    )  # fmt: skip
    page.chart(
        _drawn,
        _("Mulch on both sides of a plant, with bare soil around its stem, and moist soil below."),
    )
    page.points(
        [
            _("Leave a ring of bare soil, a hand wide, around each stem, so that it does not rot."),
            _("A layer as thick as the table says, laid on moist soil."),
            _("The soil below stays moist and cool, and roots come up to its surface."),
        ],
        numbered=True,
    )
    _table(page, place)
    page.points([_warm(place), *_habits()])
    page.heading(_("Weeds: little and often"))
    page.points(_weeds())
    page.text(
        _(
            "Ten minutes a week on a bed do more than an afternoon a month. A weed left to seed is years of"
            " weeding."
        )
    )
    ground.warn(page, _HAZARDS)


def _drawn(width: float) -> Drawing:
    from schedules.reports.sections import mulch_ring  # lazy: reportlab

    return mulch_ring(width)


def _table(page: Page, place: Place) -> None:
    bag = 2 * M3_PER_CUBIC_FOOT if ground.is_us(place) else 0.05
    rows = []
    for name, where, inches, centimetres in (
        (_("Straw, or leaves run over with a mower"), _("vegetables"), (3.0, 4.0), (8.0, 10.0)),
        (_("Compost"), _("small plants, seed rows"), (1.0, 2.0), (2.5, 5.0)),
        (_("Grass, dried, without weed killer"), _("thin, again and again"), (1.0, 1.0), (2.5, 2.5)),
        (_("Wood chips"), _("paths, fruit; not dug in"), (3.0, 4.0), (8.0, 10.0)),
    ):
        volume = layer_m3(place.bed.area_m2, ground.deep(place, inches[0], centimetres[0]))
        thick = ground.deep_range(place, inches, centimetres)
        rows.append((name, where, thick, bulk_text(volume, place.units), str(whole_bags(volume, bag))))
    page.table(
        rows,
        titles=(
            _("What"),
            _("Where"),
            _("How thick"),
            _("At least, for this bed"),
            _("Bags of %(volume)s") % {"volume": bulk_text(bag, place.units)},
        ),
        shares=(3.2, 2.4, 1.6, 1.8, 1.5),
        numbers=(3, 4),
        name=_("Mulch for this bed"),
    )


def _warm(place: Place) -> str:
    """From which month on the soil is warm enough to be covered about plants that like it warm."""
    soil = {normal.month: normal.soil_c for normal in place.months if normal.soil_c is not None}
    warm = fahrenheit_to_celsius(_WARM_F) if ground.is_us(place) else _WARM_C
    words = {"warm": ground.warm_text(place, _WARM_F, _WARM_C)}
    for month, celsius in soil.items():
        before = soil.get((month - 2) % 12 + 1)
        if before is not None and before < warm <= celsius:
            words["month"] = MONTHS[month]
            return (
                _("Mulch keeps soil cold in spring. Around tomatoes, peppers and melons wait until it is at"
                  " %(warm)s: here that is usually in %(month)s. Cool crops like it earlier.") % words
            )  # fmt: skip
    return (
        _("Mulch keeps soil cold in spring. Around tomatoes, peppers and melons wait until it is at %(warm)s:"
          " push a thermometer in, at nine in the morning. Cool crops like it earlier.") % words
    )  # fmt: skip


def _habits() -> list[str]:
    return [
        _(
            "Weed and water first; mulch keeps in what is there. Do not cover rows of seed before they are"
            " up."
        ),
        _("Straw, not hay: hay is full of seed. Shake it out, and look below for slugs now and then."),
        _("Add more when you see soil through it. In autumn it can stay on as a winter cover."),
    ]


def _weeds() -> list[str]:
    return [
        _("Learn your seedlings first. What stands in the sown row is mostly yours, what stands between is"
          " not."),
        _("Hoe when weeds are threads, on a dry, sunny morning: cut just below the surface, and let them"
          " dry."),
        _("Pull big ones after rain. Shake the soil off; never let them flower."),
        _("Weeds that come back from roots (bindweed, quackgrass, thistle): loosen with a fork, take out each"
          " piece, come back every two weeks. Keep these roots out of the compost."),
        _("Soil that is bare grows weeds: mulch it, plant it close, or sow a cover crop."),
    ]  # fmt: skip


def questions(place: Place) -> Sequence[Question]:
    return (
        Question(
            _("How close to the stem does mulch go?"),
            (_("Right up to it"), _("It leaves a hand’s width free"), _("Over it")),
            1,
            _("A wet cover at the stem rots it and hides slugs."),
        ),
        Question(
            _("When is the best time to hoe?"),
            (
                _("On a dry, sunny morning, while weeds are threads"),
                _("Just after rain, when weeds are tall"),
                _("When they have seed"),
            ),
            0,
            _("Cut threads dry up within hours; wet ones root again."),
        ),
    )


TOPIC = Topic(
    code="mulch",
    name=gettext_lazy("Mulch and weeds"),
    write=write,
    questions=questions,
    sources=(
        "Texas A&M AgriLife, Travis County: How much compost, soil or mulch?",
        "Depths by kind of mulch, warm soil first, and ways of weeding: common practice, no source",
        *(RESTS_ON[hazard] for hazard in _HAZARDS),
    ),
)
