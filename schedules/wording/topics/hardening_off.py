"""Hardening off and transplanting: ten days that get a seedling used to the open, and the day it moves."""

from __future__ import annotations

from collections.abc import Sequence

from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from crops.facts import Hardiness
from crops.wording.cautions import RESTS_ON, Hazard
from schedules.place import Place, PlaceCrop
from schedules.reports.document import Page
from schedules.windows import Operation, Turn
from schedules.wording import operation_name
from schedules.wording.topics import ground, local
from schedules.wording.topics.topic import Own, Question, Topic

_MOVES = (Operation.HARDEN_OFF, Operation.TRANSPLANT)
_TENDER = (Hardiness.TENDER, Hardiness.VERY_TENDER)
# Nights for tender seedlings, in °F and °C: common practice, no source.
_COOL, _WARM = (45, 7), (50, 10)


def write(page: Page, place: Place) -> None:
    """The days one by one, then moving day and its dates here, then what goes wrong."""
    page.text(
        _("A seedling from a window does not know wind, full sun or cold nights. Planted out at once, its"
          " leaves burn. To harden it off is to get it used to the open, in seven to ten days.")
    )  # fmt: skip
    cool, warm = (ground.warm_text(place, *one) for one in (_COOL, _WARM))
    page.table(
        [
            ("1–2", _("An hour or two outside, in the shade and out of the wind."), _("indoors")),
            ("3–4", _("Half a day, with morning sun."), _("indoors")),
            ("5–6", _("All day; sun until noon, then shade."), _("indoors, or under cover if mild")),
            ("7–8", _("All day in the sun, in the wind that your bed has."), _("outside, sheltered")),
            ("9–10", _("All day in the sun."), _("outside")),
        ],
        titles=(_("Day"), _("In the daytime"), _("At night")),
        shares=(0.9, 4, 2.3),
        name=_("Ten days"),
    )
    page.points(
        [
            _("Water before they wilt, but a little less than indoors. Do not feed them in these days."),
            _(
                "On nights below %(cool)s take in all plants that a frost kills. Take in pepper, eggplant and"
                " melon below %(warm)s."
            )
            % {"cool": cool, "warm": warm},
            _("Take everything in when frost, hail or a storm is forecast, and go on a day later."),
        ]
    )
    page.heading(_("Moving day"))
    page.points(
        [
            _("Choose a cloudy day or the evening. Water the pots an hour before."),
            _("Dig a hole as deep as the pot. Fill it with water once and let it sink in."),
            _(
                "Hold the plant by a leaf or by its soil, never by the stem. If roots go round the pot, "
                "loosen them gently. Do not loosen those of squash, cucumber and melon."
            ),
            _(
                "Set it as deep as it stood in the pot; tomato and leek deeper. Press the soil down, leave a"
                " hollow around the stem, and water."
            ),
            _("Tear off the rim of a peat pot. Above the ground it would draw the water out."),
            _("Shade the plant for two or three days, with a leafy twig or a box with holes over it."),
        ],
        numbered=True,
    )
    _dates(page, place)
    _what_goes_wrong(page)
    ground.warn(page, [Hazard.POTTING_DUST])


def _dates(page: Page, place: Place) -> None:
    turns = [turn for turn in Turn if any(any(_moves(crop, place, turn)) for crop in place.crops)]
    rows = [
        (crop.name, *spans, _("yes") if crop.facts.hardiness in _TENDER else _("no"))
        for crop in place.crops
        if any(spans := [span for turn in turns for span in _moves(crop, place, turn)])
    ]
    page.heading(_("When, here"))
    page.points([local.unknown_frost(place), local.star_told(rows)])
    if rows:
        page.table(
            rows,
            titles=(
                _("Crop"),
                *(_title(one, turn) for turn in turns for one in _MOVES),
                _("Frost kills it"),
            ),
            shares=(2.6, *[1.7] * len(_MOVES) * len(turns), 1),
            close=len(rows) > local.ROOMY_ROWS,
            )  # fmt: skip
    else:
        page.text(
            _("Count ten days back from the day on which you mean to set a crop out, and write it down:")
        )
        page.writing_lines(6)


def _what_goes_wrong(page: Page) -> None:
    page.heading(_("What goes wrong"))
    page.points(
        [
            _("White or brown patches on leaves: too much sun at once. Give shade, and go on more slowly."),
            _("Plants hang at noon and stand up by evening: the roots are still small. Give shade and"
              " water."),
            _("A stem is cut off at the soil in the morning: a cutworm, a fat grub, ate it at night. Put a"
              " ring of cardboard around each stem, a finger deep in the soil."),
        ]
    )  # fmt: skip


def _title(operation: Operation, turn: Turn) -> str:
    name = operation_name(operation)
    return name if turn is Turn.SPRING else _("%(operation)s, autumn") % {"operation": name}


def _moves(crop: PlaceCrop, place: Place, turn: Turn) -> tuple[str, str]:
    """When it is hardened off and set out in a half of the year; empty where nothing is hardened off."""
    hardened = local.first_window(crop, Operation.HARDEN_OFF, turn)
    out = local.first_window(crop, Operation.TRANSPLANT, turn) if hardened else None
    return local.span(hardened, place, local.BEFORE), local.span(out, place, local.BEFORE)


def questions(place: Place) -> Sequence[Question]:
    """How long, and when for one crop."""
    found = [
        Question(
            _("How long does hardening off take?"),
            (_("one warm afternoon"), _("seven to ten days"), _("until the first flower")),
            1,
            _("Leaves need about a week to thicken."),
        )
    ]
    crop = _first(place.crops)
    if crop is not None:
        window = local.first_window(crop, Operation.TRANSPLANT)
        if window is not None and window.earliest is not None:
            found.append(
                local.date_question(
                    _("From when on can hardened %(crop)s go out here?") % {"crop": crop.name},
                    window.earliest,
                    _("Before that, frost or cold soil is likely to cost more than is gained."),
                )
            )
    return found


def _first(crops: Sequence[PlaceCrop]) -> PlaceCrop | None:
    """A tender crop where there is one."""
    raised = [one for one in crops if local.first_window(one, Operation.TRANSPLANT)]
    return next((one for one in raised if one.facts.hardiness in _TENDER), raised[0] if raised else None)


TOPIC = Topic(
    code="hardening-off",
    name=gettext_lazy("Hardening off and transplanting"),
    about=gettext_lazy("Ten days that get seedlings used to the open, and how to plant them out."),
    write=write,
    questions=questions,
    sources=(
        "The Denver Post: Harden off plants before they go into the garden (2018). Better Homes and Gardens:"
        " How do I harden my greenhouse plants? Temperatures of nights: common practice, no source. "
        + RESTS_ON[Hazard.POTTING_DUST],
    ),
    own=Own(
        gettext_lazy("My own ten days"),
        {
            gettext_lazy("Crop"): 2.4,
            gettext_lazy("First day out"): 1.6,
            gettext_lazy("First night out"): 1.6,
            gettext_lazy("Set out"): 1.4,
            gettext_lazy("How it went"): 2.6,
        },
    ),
)
