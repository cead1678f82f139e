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
from schedules.wording.topics.topic import Own, Question, Topic

if TYPE_CHECKING:
    from reportlab.graphics.shapes import Drawing

_HAZARDS = (Hazard.LABEL, Hazard.ORGANIC, Hazard.INTERVAL)
_MOST_THINGS = 4
_LONGEST, _LONGEST_ASK = 500, 320  # characters in all, of a column of the garden's advice


def write(page: Page, place: Place) -> None:
    """Look, name, weigh; then the garden's words; then what to do, mildest first."""
    page.text(
        _("Most of what lives on a plant does no harm, and some of it eats the pests. So look before you do"
          " anything. A plant that grows well can lose a fifth of its leaves and still bear. Spraying at once"
          " often kills the helpers, too, and then the pests come back in greater number.")
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
            _("The youngest leaves: are they curled, sticky or pale?"),
            _("Below the leaves: do you see eggs, webs, or many small insects? Is something eating them?"),
            _("Flowers and fruit: do they have holes, spots or droppings?"),
            _("The stem at the soil: is it eaten, soft or dark?"),
            _("The ground: slugs and caterpillars hide there by day. Look again with a lamp at dusk."),
        ],
        numbered=True,
    )
    page.heading(_("Then, in this order"))
    page.points(_order(), numbered=True)
    _guidance(page, place)
    ground.warn(page, _HAZARDS)


def _drawn(width: float) -> Drawing:
    from schedules.reports.plant_look import plant_look  # lazy: reportlab

    return plant_look(width)


def _order() -> list[str]:
    return [
        _("Find out what it is. Take a photo, compare it, and ask somebody who knows. Bad weather, dry soil"
          " and too much plant food make spots, too."),
        _("See how much there is: a little, some, or much. Is it more than last time?"),
        _("Leave it if there is little, if you see helpers that eat it, or if the crop is nearly over."),
        _("Keep it away. Lay row cover, a thin cloth, over the plants from the first day. Leave air between"
          " plants. Water the soil, not the leaves. Grow another crop there next year."),
        _("Work by hand. Pick pests off, squash them, or rinse them off with water. Cut out what is sick."
          " Take away plants that will not recover."),
        _("Ask before you use anything stronger: first the coordinator, then the extension office or a plant"
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
    shown = place.guidance[:_MOST_THINGS]
    longest, longest_ask = _LONGEST // len(shown), _LONGEST_ASK // len(shown)
    page.table(
        [
            (
                one.thing,
                _cut(one.tolerate, longest),
                _cut(one.by_hand or one.prevent, longest),
                _cut(one.ask, longest_ask),
            )
            for one in shown
        ],
        titles=(_("What"), _("Leave it when"), _("By hand, or to keep it away"), _("Ask before more")),
        shares=(2.2, 2.6, 2.8, 1.8),
        name=_("What this garden advises"),
    )
    page.quiet(_("The garden’s pages about pests tell more, and how to know each of them."))


def _cut(text: str, longest: int) -> str:
    """As much of it as a sheet has room for, to the end of a sentence, or of a word."""
    if len(text) <= longest:
        return text
    sentence = text.rfind(". ", longest // 2, longest)
    if sentence > 0:
        return text[: sentence + 1]
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
            _("The ladybug eats them. When you look again, you see whether there are more or fewer."),
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
    about=gettext_lazy("How to look, what to leave alone, and what to try first."),
    write=write,
    questions=questions,
    sources=(
        "Order of steps and what a plant can lose: common practice of integrated pest management, no source",
        *(RESTS_ON[hazard] for hazard in _HAZARDS),
    ),
    own=Own(
        gettext_lazy("What I saw"),
        {
            gettext_lazy("Date"): 1.2,
            gettext_lazy("Plant"): 1.8,
            gettext_lazy("What I saw, and where"): 3.4,
            gettext_lazy("How much"): 1.3,
            gettext_lazy("What I did"): 2.3,
        },
    ),
)
