"""An example of a bed plan, drawn and counted for this bed and the crops chosen."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING

from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy, ngettext

from crops.beds import NARROWEST_ROWS_M, Plan, Wanted, plan, strips
from crops.catalogue import load_catalogue
from crops.facts import CropFacts, Method
from crops.spacing import seeds_for
from crops.wording.names import crop_name
from plots.quantities import Quantity
from plots.wording import quantity_text
from schedules.place import Place
from schedules.reports.document import Page
from schedules.seasons import Hemisphere
from schedules.wording.topics import ground
from schedules.wording.topics.topic import Own, Question, Topic

if TYPE_CHECKING:
    from reportlab.graphics.shapes import Drawing

# What most people want first, for a bed that has not room for every crop chosen: our choice.
_FIRST = ("tomato", "bean-bush", "lettuce-leaf", "carrot", "beet")
_MOST_BEDS = 2  # that one drawing has room for
_VINES = "Cucurbitaceae"
_COME_UP = 0.8  # of ten seeds eight: common practice, no source


def write(page: Page, place: Place) -> None:
    """The plan, what is on it, and how it came about."""
    names, made = _planned(place)
    north = place.hemisphere is Hemisphere.NORTH
    page.text(
        _("A plan on paper costs nothing to change. It tells you how much seed to buy, and it keeps tall"
          " plants from shading short ones. This one is for a bed of %(bed)s. Its rows run from east to west;"
          " each stroke is a plant. Draw your own in the same way.") % {"bed": ground.bed_text(place)}
    )  # fmt: skip
    beds = len(strips(min(place.bed.width_m, place.bed.length_m)))
    if beds > _MOST_BEDS:
        page.text(
            ngettext(
                "It has room for %(count)d bed; this is it.",
                "It has room for %(count)d beds with paths between them; this is one of them.",
                beds,
            )
            % {"count": beds}
        )
    if not place.crops:
        page.text(_("No crops are chosen for this sheet, so it takes five that most beds have."))
    names_of_rows = [f"{names[row.wanted.slug][1]} ({row.plants})" for row in made.rows]
    words = ground.named(names_of_rows, most=len(names_of_rows))
    page.chart(
        _drawing(place, names, made),
        (_("A bed from above, north at the top. Rows from north to south: %(rows)s.") if north
         else _("A bed from above, south at the top. Rows from south to north: %(rows)s.")) % {"rows": words},
    )  # fmt: skip
    _table(page, place, names, made)
    page.quiet(
        _("Seeds to sow: so many that, if 8 of 10 come up, there is a plant for each place. Crops with a dash"
          " are set out as young plants, sets, cloves or tubers.")
    )  # fmt: skip
    _left_out(page, place, names, made)
    page.heading(_("How it is made"))
    page.points(_rules(place, made, north=north))


def _crops(place: Place) -> list[tuple[CropFacts, str]]:
    if place.crops:
        first = {slug: n for n, slug in enumerate(_FIRST)}
        chosen = sorted(place.crops, key=lambda crop: first.get(crop.facts.slug, len(first)))
        return [(crop.facts, crop.name) for crop in chosen]
    every = load_catalogue().crops
    return [(every[slug], crop_name(every[slug].name)) for slug in _FIRST]


def _planned(place: Place) -> tuple[dict[str, tuple[CropFacts, str]], Plan]:
    """The crops by their slug, and the plan; perennials have a bed of their own."""
    found = {facts.slug: (facts, name) for facts, name in _crops(place)}
    wanted = [
        Wanted(slug, facts.spacing_m, facts.height_m)
        for slug, (facts, _name) in found.items()
        if facts.spacing_m and not facts.perennial
    ]
    width, length = _sides(place)
    return found, plan(wanted, width_m=width, length_m=length)


def _sides(place: Place) -> tuple[float, float]:
    """The short and the long side of what is planned: of a large plot one of its beds."""
    width, length = sorted((place.bed.width_m, place.bed.length_m))
    beds = strips(width)
    return (beds[0].width_m if len(beds) > _MOST_BEDS else width), length


def _drawing(place: Place, crops: dict[str, tuple[CropFacts, str]], made: Plan) -> Callable[[float], Drawing]:
    def draw(width: float) -> Drawing:
        from schedules.reports.bed_plan import BedPlan, PlanRow, bed_plan  # lazy: reportlab

        drawn = BedPlan(
            tuple((strip.start_m, strip.end_m) for strip in made.strips),
            long_side,
            tuple(PlanRow(crops[row.wanted.slug][1], row.middle_m, row.plants) for row in made.rows),
            quantity_text(long_side, Quantity.LENGTH, place.units),
            quantity_text(short_side, Quantity.LENGTH, place.units),
            north_up=place.hemisphere is Hemisphere.NORTH,
        )
        return bed_plan(drawn, width)

    short_side, long_side = _sides(place)
    return draw


def _table(page: Page, place: Place, crops: dict[str, tuple[CropFacts, str]], made: Plan) -> None:
    rows_of = Counter(row.wanted for row in made.rows)
    lines = []
    for wanted in dict.fromkeys(row.wanted for row in made.rows):
        facts, name = crops[wanted.slug]
        plants = sum(row.plants for row in made.rows if row.wanted == wanted)
        sown = facts.method in (Method.DIRECT, Method.EITHER)
        lines.append(
            (
                name,
                quantity_text(wanted.spacing_m, Quantity.SHORT_LENGTH, place.units),
                quantity_text(wanted.between_rows_m, Quantity.SHORT_LENGTH, place.units),
                str(rows_of[wanted]),
                str(plants),
                str(seeds_for(plants, come_up=_COME_UP)) if sown else "–",
            )
        )
    page.table(
        lines,
        titles=(
            _("Crop"),
            _("In the row"),
            _("Between rows"),
            _("Rows"),
            _("Plants"),
            _("Seeds to sow"),
        ),
        shares=(3.4, 1.5, 1.6, 1, 1.1, 2),
        numbers=range(1, 6),
        name=_("Plants on this bed"),
    )


def _left_out(page: Page, place: Place, crops: dict[str, tuple[CropFacts, str]], made: Plan) -> None:
    lasting = [name for facts, name in crops.values() if facts.perennial]
    left = [crops[wanted.slug][1] for wanted in made.left_out]
    found = []
    if left:
        count = {"crops": ground.named(left)}
        found.append(
            ngettext("No room on this bed: %(crops)s.", "No room on this bed for: %(crops)s.", len(left))
            % count
        )
    if lasting:
        found.append(
            _("A bed of their own, as they stay for years: %(crops)s.") % {"crops": ground.named(lasting)}
        )
    page.points(found)


def _rules(place: Place, made: Plan, *, north: bool) -> list[str]:
    vines = any(facts.family == _VINES for facts, _name in _crops(place))
    return [
        _("Tall crops stand to the north. There they do not shade the others.")
        if north
        else _("Tall crops stand to the south. There they do not shade the others."),
        _("Nobody steps on a bed. Each is narrow enough to reach its middle, with paths of %(path)s between.")
        % {"path": ground.deep_text(place, 18, 45)}
        if len(made.strips) > 1
        else _("Nobody steps on the bed. You reach it from its sides."),
        _("So rows need no path between them. They are as far apart as the plants in the row, but at least"
          " %(least)s, so that a hoe gets in. Seed packets give wider rows, to walk between.")
        % {"least": quantity_text(NARROWEST_ROWS_M, Quantity.SHORT_LENGTH, place.units)},
        _("Each crop has one row first. If there is room left, some get another. Sow half a row of radish or"
          " lettuce, and the other half two weeks later."),
        _("What goes wrong most often: too many plants. Crowded ones stay small and fall ill."),
        _("Squash, cucumber and melon may trail over an edge. Next to them sow what is picked early.")
        if vines
        else "",
    ]  # fmt: skip


def questions(place: Place) -> Sequence[Question]:
    crops, made = _planned(place)
    north = place.hemisphere is Hemisphere.NORTH
    found = [
        Question(
            _("On which side of the bed do tall crops stand?"),
            (_("North"), _("South"), _("It does not matter")),
            0 if north else 1,
            _("The sun stands on the other side at noon, so they shade nobody."),
        )
    ]
    if made.rows:
        row = made.rows[-1]
        words = {
            "crop": crops[row.wanted.slug][1],
            "spacing": quantity_text(row.wanted.spacing_m, Quantity.SHORT_LENGTH, place.units),
            "length": quantity_text(max(place.bed.width_m, place.bed.length_m), Quantity.LENGTH, place.units),
        }
        found.append(
            Question(
                _("%(crop)s stands %(spacing)s apart. How many fit into a row of %(length)s?") % words,
                tuple(str(round(row.plants * times)) for times in (1, 2, 4)),
                0,
                _("The row’s length divided by the distance."),
            )
        )
    return found


TOPIC = Topic(
    code="bed-plan",
    name=gettext_lazy("A bed plan to go by"),
    about=gettext_lazy("A bed drawn row by row, with the plants and the seed that it takes."),
    write=write,
    questions=questions,
    sources=(
        "Distances and heights: the crops’ pages in Trugbook name the source of each",
        "Widths of beds and paths, rows as close as plants, tall ones away from the sun: common practice,"
        " no source",
    ),
    own=Own(
        gettext_lazy("My own rows"),
        {
            gettext_lazy("Row"): 0.8,
            gettext_lazy("Crop"): 3,
            gettext_lazy("Plants"): 1.2,
            gettext_lazy("After it comes"): 3,
        },
    ),
)
