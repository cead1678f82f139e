"""Supports: what climbs, what leans, how strong and how high."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from math import ceil
from typing import TYPE_CHECKING

from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy, pgettext

from crops.wording.cautions import RESTS_ON, Hazard, caution
from plots.quantities import METRES_PER_FOOT, Quantity
from plots.wording import quantity_text
from schedules.place import Place, PlaceCrop
from schedules.reports.document import Page
from schedules.seasons import Hemisphere
from schedules.windows import Operation, Turn, Window
from schedules.wording.topics import ground, local
from schedules.wording.topics.topic import Own, Question, Topic

if TYPE_CHECKING:
    from reportlab.graphics.shapes import Drawing

_HAZARDS = (Hazard.TREATED_WOOD, Hazard.BURIED_LINES, Hazard.TOOLS)
_IN_GROUND = 0.3  # metres of a stake: University of Minnesota Extension drives a 6-foot stake in a foot deep
_VINES = 5, 1.5  # feet and metres of a trellis for cucumber and melon: common practice, no source
_NONE = ("", "none")
_SLACK = 0.3  # of a step that a support may lack: nobody cuts it as close as that


def write(page: Page, place: Place) -> None:
    """What it brings, four ways to build one, and which of the crops want which."""
    page.text(
        _("A plant that is held off the ground stays clean and dries fast after rain, so it falls ill less"
          " often. It is easy to pick, and it takes less room. Put the support up first, then plant. Later"
          " it would hurt the roots.")
    )  # fmt: skip
    _drawing(page)
    foot = ground.long_text(place, 1, 0.3)
    page.points(
        [
            _("Stake: one pole for each plant, at least %(foot)s deep in the ground. Tie the plant to it"
              " loosely, in a figure of eight. Tie it again each time it has grown a hand’s length or two.")
            % {"foot": foot},
            _("Cage: a ring of strong wire mesh. It is wide enough for your hand and the fruit. Tie it to a"
              " stake, or wind throws it over."),
            _("Trellis: posts with mesh or strings between them. Set a post about every %(post)s.")
            % {"post": ground.long_text(place, 5, 1.5)},
            _("Tripod: three poles tied together at the top. It stands well in wind. Sow six pole beans at"
              " the foot of each pole."),
        ],
        numbered=True,
    )  # fmt: skip
    page.heading(_("Where to put it"))
    page.points(
        [
            _("Put it on the north side of the bed. The noon sun stands in the south here, so it does not"
              " shade the other crops.")
            if place.hemisphere is Hemisphere.NORTH
            else _("Put it on the south side of the bed. The noon sun stands in the north here, so it does"
                   " not shade the other crops."),
            _("Do not shade a neighbor’s plot. Ask what height the garden allows."),
            _("Put it where you can reach it from both sides to pick."),
        ]
    )  # fmt: skip
    _crops(page, place)
    page.caution(
        "\n".join(
            [
                _(
                    "Put a cork, a ball or a small pot on the tip of each stake. People bend down there, and"
                    " a bare tip can hurt an eye."
                ),
                *(caution(one).text for one in _HAZARDS),
            ]
        )
    )


def _drawing(page: Page) -> None:
    def draw(width: float) -> Drawing:
        from schedules.reports.plant_supports import supports  # lazy: reportlab

        return supports(width)

    page.chart(draw, _("Four supports from the side: 1 a stake, 2 a cage, 3 a trellis, 4 a tripod."))


def _crops(page: Page, place: Place) -> None:
    wanting = [crop for crop in place.crops if crop.facts.support not in _NONE]
    rows = []
    for crop in wanting:
        height, begins = _height(crop, place), _begins(crop)
        rows.append(
            (
                crop.name,
                support_text(crop.facts.support),
                quantity_text(height, Quantity.LENGTH, place.units) if height else "",
                quantity_text(height + _IN_GROUND, Quantity.LENGTH, place.units) if height else "",
                local.span(begins, place),
            )
        )
    page.heading(_("Which crops want one"))
    page.table(
        rows,
        titles=(_("Crop"), _("Support"), _("Height"), _("Length of a pole"), _("Put up before")),
        shares=(3, 2, 1.4, 1.8, 2),
    )
    if not place.crops:
        page.text(
            _("Peas, pole beans, cucumber and tall tomato want one. Melon and small squash can climb, too."
              " Hold each of their fruits in a sling of cloth.")
        )  # fmt: skip
    elif not rows:
        page.text(_("No chosen crop needs a support."))
    else:
        page.quiet(
            _(
                "The dates are those of sowing or setting out in spring. A pole is %(foot)s longer than the"
                " plant is high, for the part in the ground. Varieties differ in height: read the packet."
            )
            % {"foot": ground.long_text(place, 1, 0.3)}
        )


def _height(crop: PlaceCrop, place: Place) -> float | None:
    """Of the plant, rounded up; of a vine, whose published height is of one that creeps, of its trellis."""
    if crop.facts.family == "Cucurbitaceae":
        return _VINES[0] * METRES_PER_FOOT if ground.is_us(place) else _VINES[1]
    height = crop.facts.height_m
    step = METRES_PER_FOOT / 2 if ground.is_us(place) else 0.1
    return None if height is None else ceil(height / step - _SLACK) * step


def _begins(crop: PlaceCrop) -> Window | None:
    """Sowing or setting out in spring, whichever comes first."""
    found = [local.first_window(crop, one, Turn.SPRING) for one in (Operation.SOW, Operation.TRANSPLANT)]
    return min((one for one in found if one), key=lambda one: one.earliest or date.max, default=None)


def support_text(support: str) -> str:
    """The catalogue's words for a support, translated; a garden's own words stay as they are."""
    words = {
        "optional-trellis": pgettext("support", "trellis, if you like"),
        "trellis": pgettext("support", "trellis"),
        "stake": pgettext("support", "stake"),
        "cage": pgettext("support", "cage or stake"),
    }
    return words.get(support, support)


def questions(place: Place) -> Sequence[Question]:
    """When it goes up, and on which side it stands."""
    north = place.hemisphere is Hemisphere.NORTH
    return (
        Question(
            _("When does a support go up?"),
            (_("before the crop is sown or set"), _("when the plant falls over"), _("when it bears fruit")),
            0,
            _("A pole driven in later hurts the roots."),
        ),
        Question(
            _("On which side of the bed does a tall trellis shade the other crops least here?"),
            (_("north"), _("south"), _("in the middle")),
            0 if north else 1,
            _("At noon the sun stands in the south here.")
            if north
            else _("At noon the sun stands in the north here."),
        ),
    )


TOPIC = Topic(
    code="supports",
    name=gettext_lazy("Supports"),
    about=gettext_lazy("Stakes, cages, trellises and tripods: which crops want one, how high, and when."),
    write=write,
    questions=questions,
    sources=(
        "University of Minnesota Extension: Trellises and cages to support garden vegetables.",
        "Heights: published figures of each crop, on its page in Trugbook; of a trellis for cucumber and"
        " melon: common practice, no source.",
        *(RESTS_ON[one] for one in _HAZARDS),
    ),
    own=Own(
        gettext_lazy("My own supports"),
        {
            gettext_lazy("Crop"): 2.4,
            gettext_lazy("Support"): 2.2,
            gettext_lazy("Put up"): 1.4,
            gettext_lazy("High enough?"): 1.6,
            gettext_lazy("Next year"): 2.6,
        },
    ),
)
