"""Seed or seedling: what is sown where it grows, what is raised under cover, and when that begins here."""

from __future__ import annotations

from collections.abc import Sequence

from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy, ngettext

from crops.facts import Method
from crops.wording.cautions import RESTS_ON, Hazard
from plots.wording import span_text
from schedules.place import Place, PlaceCrop
from schedules.reports.document import Page
from schedules.windows import Operation, Turn
from schedules.wording import operation_name
from schedules.wording.topics import ground, local
from schedules.wording.topics.topic import Own, Question, Topic

_HAZARDS = (Hazard.POTTING_DUST,)


def write(page: Page, place: Place) -> None:
    """Which crops are started how, then the dates of those that are raised under cover."""
    page.text(
        _("Seed is cheap, and there is more to choose from. A seedling is weeks ahead: it grew in a pot while"
          " it was too cold outside. Some crops do better as seed in the bed, some as seedlings.")
    )  # fmt: skip
    page.facts(_groups(place.crops), label_share=0.26)
    rows = [row for crop in place.crops if (row := _row(crop, place))]
    roomy = len(rows) <= local.ROOMY_ROWS
    page.heading(_("Raise or buy?"))
    page.points(
        [
            _("Raise seedlings if you have a bright window or a lamp, and can look after them every day."),
            _("Buy them if you need only a few, or if the date to begin has passed."),
            _("Buy short, sturdy plants without flowers. Turn a leaf over first and look for insects."),
            _("Crops with a long root, such as carrot, do not like to be moved. Sow them in the bed.")
            if roomy
            else "",
            _("Move squash, melon and cucumber while they are young, with all of their soil."),
        ]
    )
    _dates(page, rows, place)
    page.heading(_("How to raise them"))
    page.points(
        [
            _("Use clean pots with holes, and fresh potting mix. Garden soil packs hard in a pot."),
            _("Keep the mix warm and moist until seed comes up, then cooler, and as bright as can be."),
            _(
                "Water from below: stand the pots in a dish of water, and take them out when the top is"
                " moist."
            ),
            _("Get them used to the open for seven to ten days before you set them out."),
        ],
        numbered=True,
    )
    page.heading(_("What goes wrong"))
    page.points(
        [
            _("Long, pale stems: they need more light. Put them closer to the window or the lamp."),
            _("Seedlings fall over and rot at the soil: it was too wet and too cold. Throw them away, clean"
              " the pots, and sow again."),
            _("Yellow leaves after some weeks: they need a little plant food, or a bigger pot."),
            _("Too big too early: they were begun too soon. Go by the dates above."),
        ]
    )  # fmt: skip
    ground.warn(page, _HAZARDS)


def _groups(crops: Sequence[PlaceCrop]) -> list[tuple[str, str]]:
    """By how a crop is usually started; groups without a crop say what belongs to them."""
    named = {method: [one.name for one in crops if one.facts.method is method] for method in Method}
    if not crops:
        return [
            (_("Sow in the bed"), _("roots such as carrot and beet, peas, beans, corn")),
            (_("As seedlings"), _("what needs a long, warm season, such as tomato and pepper")),
            (_("Either way"), _("lettuce, cabbage and its kin, squash")),
            (_("Sets, tubers, cloves"), _("onion sets, potato, garlic")),
        ]
    return [
        (_("Sow in the bed"), "; ".join(named[Method.DIRECT])),
        (_("As seedlings"), "; ".join(named[Method.TRANSPLANT])),
        (_("Either way"), "; ".join(named[Method.EITHER])),
        (_("Sets, tubers, cloves, crowns"), "; ".join(named[Method.VEGETATIVE])),
    ]


def _row(crop: PlaceCrop, place: Place) -> tuple[str, ...]:
    """For how many weeks it grows in a pot, from when on, and when it is set out, where it is raised so."""
    facts = crop.facts
    if facts.method not in (Method.TRANSPLANT, Method.EITHER) or not facts.indoor_weeks_high:
        return ()
    low, high = facts.indoor_weeks_low or facts.indoor_weeks_high, facts.indoor_weeks_high
    weeks = ngettext("%(span)s week", "%(span)s weeks", 1 if low == high == 1 else 2) % {
        "span": span_text(low, high)
    }
    begun, out = (
        local.span(local.first_window(crop, one, Turn.SPRING), place)
        for one in (Operation.START_INDOORS, Operation.TRANSPLANT)
    )
    return (crop.name, weeks, begun, out)


def _dates(page: Page, rows: Sequence[tuple[str, ...]], place: Place) -> None:
    """When to begin under cover and when to set out, with the weeks between them."""
    if not rows:
        return
    page.heading(_("When to begin in pots, in spring"))
    if place.last_frost is None:
        page.text(local.unknown_frost(place))
    page.table(
        rows,
        titles=(_("Crop"), _("In pots for"), operation_name(Operation.START_INDOORS), _("Set out")),
        shares=(3, 1.6, 2, 2),
        close=len(rows) > local.ROOMY_ROWS,
    )


def questions(place: Place) -> Sequence[Question]:
    """Which of three is sown in its place, and how long a seedling takes."""
    found = [
        Question(
            _("Which of these is better sown where it grows?"),
            (_("tomato"), _("carrot"), _("celery")),
            1,
            _("A carrot’s long root forks when it is moved."),
        )
    ]
    raised = [
        one for one in place.crops if one.facts.method is Method.TRANSPLANT and one.facts.indoor_weeks_high
    ]
    for crop in raised[:1]:
        window = local.first_window(crop, Operation.START_INDOORS, Turn.SPRING)
        if window is not None and window.best is not None:
            found.append(
                local.date_question(
                    _("About when is %(crop)s sown in pots here?") % {"crop": crop.name},
                    window.best,
                    _("It is counted back from the day on which it can be set out."),
                )
            )
    return found


TOPIC = Topic(
    code="seed-or-seedling",
    name=gettext_lazy("Seed or seedling"),
    about=gettext_lazy("Which crops to sow in the bed, which to raise in pots, and when to begin here."),
    write=write,
    questions=questions,
    sources=(
        *local.CROP_SOURCES,
        "Ask Extension, question 562958: direct or transplant (Montgomery County, Maryland, 2019).",
        RESTS_ON[Hazard.POTTING_DUST],
    ),
    own=Own(
        gettext_lazy("My own seedlings"),
        {
            gettext_lazy("Crop"): 2.6,
            gettext_lazy("Sown"): 1.3,
            gettext_lazy("How many"): 1.2,
            gettext_lazy("Came up"): 1.3,
            gettext_lazy("Set out"): 1.3,
        },
    ),
)
