"""When to plant here, crop by crop."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from crops.wording.facts import from_frost
from schedules.entries import SHOWN_IN_TABLES, spans_of_turn
from schedules.place import Place, PlaceCrop
from schedules.reports.document import Page
from schedules.windows import Operation, Turn
from schedules.wording import operation_name
from schedules.wording.calendar import row_name
from schedules.wording.topics import local
from schedules.wording.topics.topic import Own, Question, Topic

_ROOMY = 36  # lines of both tables that leave room for more words on two sides
_REFUSAL = 2  # lines that a crop without dates takes


def write(page: Page, place: Place) -> None:
    """One line for each crop and half of the year, from sowing indoors to picking."""
    rows = [row for crop in place.crops for row in _rows(crop, place)]
    refused = [row for crop in place.crops if (row := _refusal(crop))]
    roomy = len(rows) + _REFUSAL * len(refused) <= _ROOMY
    if not roomy:
        rows = [row for crop in place.crops for row in _rows(crop, place, local.BEFORE)]
    else:
        page.text(
        _("Each crop has its days: too early, and cold kills it; too late, and it is not ripe in time. Some"
          " crops can be begun twice, in spring and again for autumn.")
        )  # fmt: skip
    page.points([*local.frost_sentences(place), local.unknown_frost(place), _risk(place)])
    page.table(
        rows,
        titles=(_("Crop"), *map(operation_name, SHOWN_IN_TABLES)),
        shares=(3.1, 1.7, 1.7, 1.7, 2),
        close=not roomy,
    )
    if not place.crops:
        page.text(local.no_crops())
        page.writing_lines(8)
    _by_rule(page, place)
    if refused:
        page.heading(_("No dates here"))
        page.table(refused, titles=(_("Crop"), _("Why")), shares=(1.5, 5), close=not roomy)
    page.heading(_("How to read it"))
    page.points(
        [
            local.star_told(rows),
            _("Start indoors: sow in pots, in a bright, warm place. Sow: put the seed into the bed."
              " Transplant: move the young plant from its pot to the bed."),
            _("The first date is the earliest that makes sense. The last date is the latest. Aim for the"
              " middle."),
            _("Picking dates are for one sowing. Sow again while the dates last, and you pick longer.")
            if roomy
            else "",
            _("Look at the soil and at the forecast, too. Seed rots in wet, cold soil, whatever the date.")
            if roomy
            else "",
        ]
    )  # fmt: skip


def _risk(place: Place) -> str:
    if place.basis is None:
        return ""
    if place.nerve_percent is None:
        return _("The dates are counted from the mean frost dates, as published guides do it.")
    return _(
        "The dates take a risk: in %(count)d years of 100 a frost that kills young plants still comes."
    ) % {"count": round(place.nerve_percent)}


def _rows(crop: PlaceCrop, place: Place, before: str = "") -> Iterator[tuple[str, ...]]:
    for turn in Turn:
        spans = spans_of_turn(crop.windows, turn)
        if any(spans):
            yield (
                row_name(crop.name, turn),
                *(local.days(one.earliest, one.latest, place, before) if one else "" for one in spans),
            )


def _refusal(crop: PlaceCrop) -> tuple[str, ...]:
    """A crop without any dates, and why in its first reason."""
    if not crop.rows or any(row.window for row in crop.rows):
        return ()
    reason = next((row.reasons[0] for row in crop.rows if row.reasons), "")
    return (crop.name, reason) if reason else ()


def _by_rule(page: Page, place: Place) -> None:
    """Without frost dates: the weeks that the published rules count from them."""
    if place.basis is not None or not place.crops:
        return
    frost = _("mean last frost")
    rows = []
    for crop in place.crops:
        facts = crop.facts
        sown, out = (
            from_frost([early, late], frost) if early is not None and late is not None else ""
            for early, late in (
                (facts.sow_weeks_early, facts.sow_weeks_late),
                (facts.transplant_weeks_early, facts.transplant_weeks_late),
            )
        )
        rows.append((crop.name, sown, out))
    page.table(
        rows,
        titles=(_("Crop"), operation_name(Operation.SOW), operation_name(Operation.TRANSPLANT)),
        shares=(1.4, 2, 2),
    )


def questions(place: Place) -> Sequence[Question]:
    """About the crop with the earliest beginning, and about the one with the latest."""
    dated = [
        (window.earliest, crop, operation)
        for crop in place.crops
        for operation in (Operation.SOW, Operation.TRANSPLANT)
        for window in local.first_windows(crop, operation, Turn.SPRING)
        if window.earliest is not None
    ]
    if not dated:
        return (
            Question(
                _("A packet says “sow 4 weeks before the last frost”. What do you need to know?"),
                (
                    _("the mean last frost of this place"),
                    _("the day the packet was filled"),
                    _("the day the shops begin to sell plants"),
                ),
                0,
                _("Weeks are counted from the frost date of the place, not of the shop or the packet."),
            ),
        )
    dated.sort(key=lambda one: one[0])
    found = []
    for first, crop, operation in dated[:1] + dated[1:][-1:]:
        words = {"crop": crop.name, "what": operation_name(operation).lower(), "day": local.day(first)}
        found.append(
            local.date_question(
                _("%(crop)s: what is the earliest day to %(what)s it here?") % words,
                first,
                _("The table gives %(day)s as the first date.") % words,
            )
        )
    return found


TOPIC = Topic(
    code="by-crop",
    name=gettext_lazy("When to plant here, by crop"),
    about=gettext_lazy("What to sow, set out and pick here, and from when to when, crop by crop."),
    write=write,
    questions=questions,
    sources=local.CROP_SOURCES,
    own=Own(
        gettext_lazy("My own dates"),
        {
            gettext_lazy("Crop"): 2.4,
            gettext_lazy("Sown"): 1.4,
            gettext_lazy("Set out"): 1.4,
            gettext_lazy("First picked"): 1.4,
            gettext_lazy("How it went"): 3,
        },
    ),
)
