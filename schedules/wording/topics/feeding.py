"""Feeding: the bag's three numbers, worked out for this bed."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy, ngettext

from crops.feeding import KG_PER_POUND, Grade, Nutrients, along_row, blend, each_plant, over_area
from crops.spacing import plants_in_row
from crops.wording.cautions import RESTS_ON, Hazard
from plots.quantities import METRES_PER_FOOT, Quantity
from plots.wording import quantity_text
from schedules.place import Place
from schedules.reports.document import Page
from schedules.wording.topics import ground
from schedules.wording.topics.topic import Own, Question, Topic

if TYPE_CHECKING:
    from reportlab.graphics.shapes import Drawing

_SHOWN = Grade(5, 10, 5)
_BAGS = (_SHOWN, Grade(10, 10, 10), Grade(12, 0, 0), Grade(21, 0, 0))
# A tenth of a pound of N to 100 square feet, or 5 g to the square metre: CSU Extension GardenNotes 711.
_RATE = (0.1, 5.0)
# Three tenths of a pound of N and one of phosphate: Backyard Gardener, How to replenish your soil.
_ASKED_N, _ASKED_P = (0.3, 15.0), (0.1, 5.0)
_FIRST, _SECOND = Grade(11, 55, 0), Grade(21, 0, 0)
_USUAL_SPACING_M = 0.45
_HAZARDS = (Hazard.TOO_MUCH, Hazard.PHOSPHORUS_LAW)


def write(page: Page, place: Place) -> None:
    """What the numbers are, what they come to on this bed, and when to feed at all."""
    page.text(
        _("Every bag of plant food, or fertilizer, shows three numbers. They say what part of its weight each"
          " of three foods is, in percent, always in this order. Feed by a soil test. It says what is"
          " missing, and what there is too much of already.")
    )  # fmt: skip
    page.chart(
        _drawn, _("A bag marked %(grade)s, and its weight parted by the numbers.") % {"grade": _SHOWN.text}
    )
    page.points(
        [
            _("Nitrogen (N) makes leaves and growth. Rain washes it out, so give it in parts."),
            _("Phosphate (P₂O₅) helps roots and flowers. It stays for years. Most old gardens have plenty."),
            _("Potash (K₂O) keeps the whole plant strong."),
            _("The rest only carries them. Ten pounds of %(grade)s hold half a pound of nitrogen.")
            % {"grade": _SHOWN.text}
            if ground.is_us(place)
            else _("The rest only carries them. Ten kilograms of %(grade)s hold half a kilogram of nitrogen.")
            % {"grade": _SHOWN.text},
        ],
        numbered=True,
    )
    page.heading(_("Worked out for a bed of %(bed)s") % {"bed": ground.bed_text(place)})
    _bags(page, place)
    page.points([*_row(place), _two_bags(place)])
    page.heading(_("From your own report"), room=150)
    page.text(
        _("First: what the report asks for × the area of your bed ÷ the area that the report speaks of. Then"
          " × 100 ÷ the bag’s number. That is the weight to weigh out.")
    )  # fmt: skip
    page.table(
        [
            (_("The report asks for"), "", _("per area of"), ""),
            (_("The bag’s numbers"), "", _("I weigh out"), ""),
        ],
        shares=(2.4, 3, 1.8, 2.4),
        row_height=26,
        name=_("From your own report"),
    )
    page.heading(_("When, and for whom"))
    page.points(_habits(place))
    ground.warn(page, _HAZARDS)


def _drawn(width: float) -> Drawing:
    from schedules.reports.bag_label import bag_label  # lazy: reportlab

    return bag_label((_SHOWN.n, _SHOWN.p2o5, _SHOWN.k2o), width)


def _bags(page: Page, place: Place) -> None:
    asked = over_area(ground.nitrogen_rate(place, *_RATE), place.bed.area_m2)
    page.text(
        _("Say the report asks for nitrogen alone, %(rate)s. On this bed that is %(weight)s. This is an"
          " example: go by your own report.")
        % {"rate": ground.rate_text(place, *_RATE), "weight": ground.kilograms_text(place, asked)}
    )  # fmt: skip
    rows = []
    for grade in _BAGS:
        kilograms = grade.kg_for_n(asked)
        brings = grade.in_kg(kilograms)
        rows.append(
            (
                grade.text,
                *(ground.kilograms_text(place, kg) for kg in (kilograms, brings.n, brings.p2o5, brings.k2o)),
            )
        )
    page.table(
        rows,
        titles=(_("Bag"), _("Weigh out"), _("That brings N"), _("P₂O₅"), _("K₂O")),
        shares=(2, 2, 2, 2, 2),
        numbers=range(1, 5),
        name=_("Bags for this bed"),
    )
    page.text(
        _("All four bring the same nitrogen, but %(first)s brings twice as much phosphate as nitrogen. If the"
          " report says that phosphorus is high, choose a bag with a 0 in the middle, and use none of the"
          " others.")
        % {"first": _SHOWN.text}
    )  # fmt: skip


def _row(place: Place) -> Iterator[str]:
    """By the row and by the plant: 1 lb of 10-10-10 to 100 feet of row (CSU Extension 7.611)."""
    grade, length = Grade(10, 10, 10), max(place.bed.length_m, place.bed.width_m)
    per_m = KG_PER_POUND / (100 * METRES_PER_FOOT) if ground.is_us(place) else 0.015
    kilograms = along_row(per_m, length)
    hungry = next((crop for crop in place.crops if crop.facts.nitrogen_demand == "heavy"), None)
    spacing = (hungry.facts.spacing_m if hungry else None) or _USUAL_SPACING_M
    plants = plants_in_row(length, spacing)
    words = {
        "grade": grade.text,
        "rate": _("1 lb per 100 ft of row") if ground.is_us(place) else _("15 g per m of row"),
        "length": quantity_text(length, Quantity.LENGTH, place.units),
        "weight": ground.kilograms_text(place, kilograms),
        "plants": plants,
        "each": ground.kilograms_text(place, each_plant(kilograms, plants)),
        "spacing": quantity_text(spacing, Quantity.SHORT_LENGTH, place.units),
    }
    yield _("By the row: give %(grade)s at %(rate)s. That is %(weight)s for a row of %(length)s.") % words
    yield (
        ngettext(
            "By the plant: %(plants)d plant has room, and gets it all.",
            "By the plant: %(plants)d plants %(spacing)s apart share it, so each gets %(each)s.",
            plants,
        )
        % words
    )


def _two_bags(place: Place) -> str:
    """Phosphate first, its nitrogen counted, then the rest of the nitrogen."""
    asked = Nutrients(n=ground.nitrogen_rate(place, *_ASKED_N), p2o5=ground.nitrogen_rate(place, *_ASKED_P))
    made = blend(_FIRST, _SECOND, asked * place.bed.area_m2)
    return _(
        "From two bags, for N at %(n)s and P₂O₅ at %(p)s on this bed: %(first_kg)s of %(first)s brings the"
        " phosphate, and some nitrogen with it. %(second_kg)s of %(second)s brings the rest of the nitrogen."
    ) % {
        "n": ground.rate_text(place, *_ASKED_N),
        "p": ground.rate_text(place, *_ASKED_P),
        "first": _FIRST.text,
        "first_kg": ground.kilograms_text(place, made.first_kg),
        "second": _SECOND.text,
        "second_kg": ground.kilograms_text(place, made.second_kg),
    }


def _habits(place: Place) -> list[str]:
    hungry = [crop.name for crop in place.crops if crop.facts.nitrogen_demand == "heavy"]
    modest = [crop.name for crop in place.crops if crop.facts.nitrogen_demand == "light"]
    return [
        _("These crops need much nitrogen: %(crops)s.") % {"crops": ground.named(hungry)} if hungry else "",
        _("These need little: %(crops)s.") % {"crops": ground.named(modest)} if modest else "",
        _("Give nitrogen in parts. Give some at planting, and the rest when the plants grow fast. Then put it"
          " beside the row, %(apart)s from the stems. Rake it in lightly and water.")
        % {"apart": ground.deep_range(place, (4, 6), (10, 15))},
        _("Organic foods, such as blood meal (12-0-0), work slowly, over weeks. Do not add more meanwhile."),
        _("Too much nitrogen makes many leaves and no fruit. Too little makes pale, yellow lower leaves."),
        _("Brush grains off leaves, which they burn. Lock the bag up: no child or pet may get at it."),
    ]  # fmt: skip


def questions(place: Place) -> Sequence[Question]:
    asked = over_area(ground.nitrogen_rate(place, *_RATE), place.bed.area_m2)
    grade = Grade(10, 10, 10)
    right = grade.kg_for_n(asked)
    choices = tuple(ground.kilograms_text(place, right * times) for times in (0.1, 0.5, 1.0))
    return (
        Question(
            _("A bed needs %(weight)s of nitrogen. How much of a bag marked %(grade)s is that?")
            % {"weight": ground.kilograms_text(place, asked), "grade": grade.text},
            choices,
            2,
            _("A tenth of the bag is nitrogen, so it takes ten times the weight."),
        ),
        Question(
            _("The report says that phosphorus is high. Which bag?"),
            ("5-10-5", "10-10-10", "21-0-0"),
            2,
            _("The middle number is phosphate. Where there is enough, it should be 0."),
        ),
    )


TOPIC = Topic(
    code="feeding",
    name=gettext_lazy("Feeding and the bag’s three numbers"),
    about=gettext_lazy("What a bag’s three numbers mean, and how much of it a bed here takes."),
    write=write,
    questions=questions,
    sources=(
        "Colorado State University Extension: GardenNotes 711 and 7.611 (as republished)",
        "New Mexico State University Extension: Determining amounts of fertilizer for small areas",
        "Backyard Gardener: How to replenish your soil (two bags)",
        "Good Earth Garden School: Organic fertilizers (blood meal)",
        *(RESTS_ON[hazard] for hazard in _HAZARDS),
    ),
    own=Own(
        gettext_lazy("What I gave"),
        {
            gettext_lazy("Date"): 1.2,
            gettext_lazy("Bed"): 1.8,
            gettext_lazy("Bag"): 1.6,
            gettext_lazy("Weight"): 1.3,
            gettext_lazy("What I saw"): 3,
        },
    ),
)
