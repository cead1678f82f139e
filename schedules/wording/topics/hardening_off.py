"""Hardening off and transplanting: ten days that get a seedling used to the open, and the day it moves."""

from __future__ import annotations

from collections.abc import Sequence

from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from crops.facts import Hardiness
from crops.wording.cautions import RESTS_ON, Hazard
from schedules.place import Place, PlaceCrop
from schedules.reports.document import Page
from schedules.windows import Operation
from schedules.wording import operation_name
from schedules.wording.calendar import row_name
from schedules.wording.topics import ground, local
from schedules.wording.topics.topic import Question, Topic

_TENDER = (Hardiness.TENDER, Hardiness.VERY_TENDER)
# Nights for tender seedlings, in °F and °C: common practice, no source.
_COOL, _WARM = (45, 7), (50, 10)
_HAZARDS = (Hazard.POTTING_DUST, Hazard.HEAT)


def write(page: Page, place: Place) -> None:
    """The days one by one, then moving day, then the dates here."""
    page.text(
        _("A seedling from a window has never met wind, full sun or a cold night. Put straight into the bed,"
          " its leaves burn and it stands still for weeks. Give it seven to ten days to get used to them.")
    )  # fmt: skip
    cool, warm = (ground.warm_text(place, *one) for one in (_COOL, _WARM))
    page.table(
        [
            (_("1 and 2"), _("An hour or two outside, in the shade and out of the wind."), _("indoors")),
            (_("3 and 4"), _("Half a day, with morning sun."), _("indoors")),
            (_("5 and 6"), _("All day; sun until noon, then shade."), _("indoors, or under cover if mild")),
            (_("7 and 8"), _("All day in the sun, in the wind that your bed has."), _("outside, sheltered")),
            (_("9 and 10"), _("All day in the sun."), _("outside")),
        ],
        titles=(_("Day"), _("In the daytime"), _("At night")),
        shares=(0.9, 4, 2.3),
        name=_("Ten days"),
    )
    page.points(
        [
            _("Water before they wilt, but a little less than indoors. Do not feed in these days."),
            _("Take tender plants in on nights below %(cool)s; pepper, eggplant and melon below %(warm)s.")
            % {"cool": cool, "warm": warm},
            _("Take everything in when frost, hail or a storm is forecast, and go on a day later."),
        ]
    )
    page.heading(_("Moving day"))
    page.points(
        [
            _("Choose a dull day or the evening. Water the pots an hour before."),
            _("Dig a hole as deep as the pot. Fill it with water once and let it sink in."),
            _("Hold a seedling by a leaf or by its soil, never by the stem. Loosen roots that go round."),
            _("Set it as deep as it stood; tomato and leek deeper. Press the soil, leave a hollow, water."),
            _("Tear off the rim of a peat pot: above the ground it would draw the water out."),
            _("Shade it for two or three days with a leafy twig or an upturned box with holes."),
        ],
        numbered=True,
    )
    _dates(page, place)
    ground.warn(page, _HAZARDS)


def _dates(page: Page, place: Place) -> None:
    rows = []
    for crop in place.crops:
        for window in local.first_windows(crop, Operation.HARDEN_OFF):
            out = local.first_window(crop, Operation.TRANSPLANT, window.turn)
            rows.append(
                (
                    row_name(crop.name, window.turn),
                    local.span(window, place.year),
                    local.span(out, place.year),
                    _("yes") if crop.facts.hardiness in _TENDER else _("no"),
                )
            )
    page.heading(_("When, here"))
    page.points([*local.frost_sentences(place), local.unknown_frost(place)])
    if rows:
        page.table(
            rows,
            titles=(
                _("Crop"), operation_name(Operation.HARDEN_OFF), operation_name(Operation.TRANSPLANT),
                _("A frost kills it"),
            ),
            shares=(3, 2, 2, 1.4),
            )  # fmt: skip
    else:
        page.text(
            _("Count ten days back from the day on which you mean to set a crop out, and write it down:")
        )
        page.writing_lines(6)


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
    write=write,
    questions=questions,
    sources=(
        "The Denver Post: Harden off plants before they go into the garden (March 2018).",
        "Better Homes and Gardens: How do I harden my greenhouse plants?",
        "Temperatures of nights: common practice, no source. Dates: the place’s own, by each crop’s figures.",
        *(RESTS_ON[one] for one in _HAZARDS),
    ),
)
