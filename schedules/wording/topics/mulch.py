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
from schedules.wording.topics.topic import Own, Question, Topic

if TYPE_CHECKING:
    from reportlab.graphics.shapes import Drawing

_WARM_F, _WARM_C = 65, 18  # common practice, no source
_HAZARDS = (Hazard.CARRY_OVER, Hazard.TOOLS)


def write(page: Page, place: Place) -> None:
    """What mulch is good for, how thick, when; then weeds."""
    page.text(
        _("Mulch is a cover on the soil. It keeps water in and weeds down. It stops rain from splashing soil"
          " onto leaves, and in the end it rots into food. The volumes are for a bed of %(bed)s.")
        % {"bed": ground.bed_text(place)}
    )  # fmt: skip
    page.chart(
        _drawn,
        _("Mulch on both sides of a plant, with bare soil around its stem, and moist soil below."),
    )
    page.points(
        [
            _("Leave a ring of bare soil, a hand wide, around each stem. Else the stem may rot."),
            _("Lay the mulch on moist soil, as thick as the table says."),
            _("The soil below stays moist, cool and soft."),
        ],
        numbered=True,
    )
    _table(page, place)
    page.points([_warm(place), *_habits()])
    page.heading(_("Weeds: little and often"))
    page.points(_weeds())
    page.text(
        _(
            "Ten minutes a week on a bed do more than an afternoon a month. One weed that drops its seed"
            " makes years of work."
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
        (_("Straw, or leaves cut by a mower"), _("vegetables"), (3.0, 4.0), (8.0, 10.0)),
        (_("Compost"), _("small plants, seed rows"), (1.0, 2.0), (2.5, 5.0)),
        (_("Grass, dried, without weed killer"), _("vegetables, in thin layers"), (1.0, 1.0), (2.5, 2.5)),
        (_("Wood chips"), _("paths, fruit bushes"), (3.0, 4.0), (8.0, 10.0)),
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
            "Weed and water first: mulch keeps in what is there. Do not cover a row of seed before it has"
            " come up."
        ),
        _("Use straw, not hay: hay is full of seed. Look below it for slugs now and then."),
        _("Do not dig wood chips in: while they rot, they take nitrogen from the plants."),
        _("Add more when you see soil through it. In autumn leave it on as a cover for winter."),
    ]


def _weeds() -> list[str]:
    return [
        _("Learn what your seedlings look like. What grows in the row that you sowed is mostly yours. What"
          " grows between the rows is not."),
        _("Hoe while weeds are as thin as threads, on a dry, sunny morning. Cut them just below the surface,"
          " and let them dry."),
        _("Pull big weeds after rain, and shake the soil off. Never let them flower."),
        _("Bindweed, quackgrass and thistle come back from their roots. Loosen the soil with a fork, take out"
          " each piece, and come back every two weeks. Keep these roots out of the compost."),
        _("Bare soil grows weeds. Mulch it, plant it, or sow a cover crop: one that only keeps soil"
          " covered."),
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
    about=gettext_lazy("What to cover soil with, how thick, when, and how to stay ahead of weeds."),
    write=write,
    questions=questions,
    sources=(
        "Texas A&M AgriLife, Travis County: How much compost, soil or mulch?",
        "Depths by kind of mulch, warm soil first, and ways of weeding: common practice, no source",
        *(RESTS_ON[hazard] for hazard in _HAZARDS),
    ),
    own=Own(
        gettext_lazy("My own beds"),
        {
            gettext_lazy("Date"): 1.2,
            gettext_lazy("Bed"): 1.8,
            gettext_lazy("Mulch, how thick"): 2.4,
            gettext_lazy("Weeded"): 1.2,
            gettext_lazy("What I saw"): 2.6,
        },
    ),
)
