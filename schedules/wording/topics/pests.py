"""Looking for pests before treating: the garden's own guidance first, and nothing stronger than it takes."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from crops.wording.cautions import RESTS_ON, Hazard
from schedules.place import Place
from schedules.reports.document import Page
from schedules.wording.topics import ground
from schedules.wording.topics.topic import Question, Topic

if TYPE_CHECKING:
    from reportlab.graphics.shapes import Drawing

_HAZARDS = (Hazard.LABEL, Hazard.ORGANIC, Hazard.INTERVAL)
_MOST_THINGS, _LONGEST, _LONGEST_ASK = 4, 80, 50
_LINES = 3


def write(page: Page, place: Place) -> None:
    """Look, name, weigh; then the garden's words; then what to do, mildest first."""
    page.text(
        _("Most of what lives on a plant does no harm, and some of it eats what does. So look first. A"
          " plant in good growth can lose a fifth of its leaves and still bear.")
    )  # fmt: skip
    page.heading(_("Look, twice a week"), room=220)
    page.chart(
        _drawn,
        _(
            "A plant with five places to look at: tips, below the leaves, fruit, the stem at the soil, the"
            " ground."
        ),
    )
    page.points(
        [
            _("The youngest leaves: curled, sticky, pale?"),
            _("Below the leaves: eggs, webs, small crowds, and who eats them."),
            _("Flowers and fruit: holes, spots, droppings."),
            _("The stem at the soil: gnawed, soft, dark?"),
            _("The ground: slugs and caterpillars hide there by day. Look again with a lamp at dusk."),
        ],
        numbered=True,
    )
    page.heading(_("Then, in this order"))
    page.points(_order(), numbered=True)
    _guidance(page, place)
    page.heading(_("What I saw"))
    page.table(
        [("", "", "", "", "")] * _LINES,
        titles=(_("Day"), _("Plant"), _("What I saw, and where"), _("How much"), _("What I did")),
        shares=(1.2, 1.8, 3.4, 1.3, 2.3),
        row_height=24,
        name=_("What I saw"),
    )
    ground.warn(page, _HAZARDS)


def _drawn(width: float) -> Drawing:
    from schedules.reports.plant_look import plant_look  # lazy: reportlab

    return plant_look(width)


def _order() -> list[str]:
    return [
        _("Name it. Take a photo, compare, ask somebody who knows. Weather, thirst and too much food make"
          " spots, too."),
        _("How much is it? A trace, some, or much; and is it more than last time?"),
        _("Leave it, if it is little, if its enemies are there, or if the crop is nearly done."),
        _("Keep it away: row cover on from the first day, other crops next year, air between plants, water"
          " on the soil and not on leaves."),
        _("By hand: pick off, squash, a jet of water, cut out what is sick; take away plants that will not"
          " recover."),
        _("Ask before anything stronger: the coordinator first, then the extension office or a plant"
          " clinic."),
    ]  # fmt: skip


def _guidance(page: Page, place: Place) -> None:
    """What this garden says itself; a guest is told where to ask."""
    if not place.guidance:
        page.heading(_("Whom to ask"))
        page.text(
            _("Write here whom you can ask about pests: a coordinator, a neighbor who knows, the extension"
              " office, a plant clinic.")
        )  # fmt: skip
        page.writing_lines(2)
        return
    page.heading(_("What this garden advises"))
    page.table(
        [
            (one.thing, _cut(one.tolerate), _cut(one.by_hand or one.prevent), _cut(one.ask, _LONGEST_ASK))
            for one in place.guidance[:_MOST_THINGS]
        ],
        titles=(_("What"), _("Leave it when"), _("By hand, or to keep it away"), _("Ask before more")),
        shares=(2.2, 2.6, 2.8, 1.8),
        name=_("What this garden advises"),
    )
    page.quiet(_("The whole of it, with how to tell each, is on the garden’s pages about pests."))


def _cut(text: str, longest: int = _LONGEST) -> str:
    """As much of it as a sheet has room for, to the end of a word."""
    if len(text) <= longest:
        return text
    return text[:longest].rsplit(" ", 1)[0].rstrip(" ,;:.") + "…"


def questions(place: Place) -> Sequence[Question]:
    return (
        Question(
            _("You find a few aphids, and a ladybug among them. What now?"),
            (
                _("Treat the whole bed"),
                _("Pull the plant out"),
                _("Leave them, and look again in three days"),
            ),
            2,
            _("A few feed those who eat them. Looking again tells whether there are more."),
        ),
        Question(
            _("Who says how a product may be used, and how long before picking?"),
            (_("Its label"), _("A neighbor"), _("This sheet")),
            0,
            _("The label is the law, for each crop and place; ask the coordinator before anything is used."),
        ),
    )


TOPIC = Topic(
    code="pests",
    name=gettext_lazy("Looking for pests before treating"),
    write=write,
    questions=questions,
    sources=(
        "Order of steps and what a plant can lose: common practice of integrated pest management, no source",
        *(RESTS_ON[hazard] for hazard in _HAZARDS),
    ),
)
