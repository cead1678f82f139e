"""Autumn crops and successions: counting back from frost, and sowing again while the dates last."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy, ngettext

from schedules.entries import is_dated, ways
from schedules.place import Place, PlaceCrop
from schedules.reports.document import Page
from schedules.windows import Operation, Start, Turn, Window
from schedules.windows.growth import maturity_days
from schedules.wording import operation_name
from schedules.wording.topics import local
from schedules.wording.topics.topic import Own, Question, Topic

_BEGINNINGS = (Operation.SOW, Operation.TRANSPLANT)
_SLOW_DAYS = 14  # what is commonly added for the shorter days of autumn
_MOST_SOWN_AGAIN = 16


def write(page: Page, place: Place) -> None:
    """The sum first, then the dates, then sowing again."""
    page.text(
        _("Sow autumn crops in summer, when few people think of it. Many of them stand light frost, and some"
          " taste sweeter after it. Count back from the first frost to find the last day to sow.")
    )  # fmt: skip
    page.points([local.autumn_frost(place), local.unknown_frost(place)])
    _sum(page, place)
    rows = [row for crop in place.crops if (row := _row(crop, place))]
    page.heading(_("For autumn, here"))
    page.table(
        rows,
        titles=(
            _("Crop"), operation_name(Operation.START_INDOORS), operation_name(Operation.SOW),
            operation_name(Operation.TRANSPLANT), operation_name(Operation.HARVEST),
        ),
        shares=(2.6, 2, 2, 2, 2),
    )  # fmt: skip
    if not place.crops:
        page.text(local.no_crops())
        page.writing_lines(6)
    elif not rows:
        page.text(
            _("No chosen crop has dates for autumn here. Spinach, radish, lettuce, kale and their"
              " kin are good ones to look up.")
        )  # fmt: skip
    page.points(
        [
            _("Summer soil is hot and dry. Sow a little deeper than in spring, and water every day."),
            _("Lettuce and spinach hardly come up in hot soil. Sow them in the evening, and shade the row."),
            _("Cover the bed on the first cold nights. You may pick for two or three more weeks."),
            _("What goes wrong most often: it is sown too late, stays small, and stops growing in the cold."),
        ]
    )
    _again(page, place)


def _sum(page: Page, place: Place) -> None:
    """Counting back for one crop, as it can be done for any packet."""
    frost = place.first_frost
    crop, days = _example(place)
    page.heading(_("How to count back"), room=150)
    if frost is None or crop is None:
        page.points(
            [
                _("Write down the mean first frost of your place."),
                _("Take the days to the first picking from the packet, and add two weeks for shorter days."),
                _("Add the days you want to pick. Crops that a frost kills must be done by then."),
                _("Count so many days back from the frost: that is the last good day to sow."),
            ],
            numbered=True,
        )
        return
    last = date.fromordinal(frost.toordinal() - days - _SLOW_DAYS)
    page.points(
        [
            _("Mean first frost here: %(day)s.") % {"day": local.day(frost)},
            _("%(crop)s: from sowing to the first picking takes about %(days)d days.")
            % {"crop": crop.name, "days": days},
            _("Plants grow slower as days get shorter: add %(days)d days.") % {"days": _SLOW_DAYS},
            _("So, by this rule, sow by %(day)s. The dates in the table also count warmth and risk.")
            % {"day": local.day(last)},
        ],
        numbered=True,
    )


def _example(place: Place) -> tuple[PlaceCrop | None, int]:
    """A crop that is sown for autumn, with its middle days to the first picking."""
    for crop in place.crops:
        days = maturity_days(crop.facts, Start.SOW)
        if days is not None and local.first_window(crop, Operation.SOW, Turn.AUTUMN):
            return crop, days[1]
    return None, 0


def _row(crop: PlaceCrop, place: Place) -> tuple[str, ...]:
    shown = (Operation.START_INDOORS, Operation.SOW, Operation.TRANSPLANT, Operation.HARVEST)
    spans = [local.span(local.first_window(crop, one, Turn.AUTUMN), place) for one in shown]
    return (crop.name, *spans) if any(spans) else ()


def _again(page: Page, place: Place) -> None:
    """What is sown again, how often and until when."""
    rows = [row for crop in place.crops if (row := _series(crop, place))]
    page.heading(_("Sowing again"))
    page.text(
        _("One long row ripens all at once. Sow a short row every few weeks, and you pick all season. Sow the"
          " next row when the last one has its first true leaves.")
    )  # fmt: skip
    page.table(
        rows[:_MOST_SOWN_AGAIN],
        titles=(_("Crop"), _("Again every"), _("From"), _("Last sowing by"), _("Sowings")),
        shares=(3, 1.6, 1.8, 2, 1.2),
        numbers=(4,),
    )
    if len(rows) > _MOST_SOWN_AGAIN:
        rest = "; ".join(row[0] for row in rows[_MOST_SOWN_AGAIN:])
        page.quiet(_("Also sown again: %(crops)s.") % {"crops": rest})


def _series(crop: PlaceCrop, place: Place) -> tuple[str, ...]:
    every = crop.facts.succession_days
    if not every:
        return ()
    sown = [one for one in crop.windows if one.operation in _BEGINNINGS and is_dated(one)]
    if not sown:
        return ()
    first = min(one.earliest for one in sown if one.earliest is not None)
    last = max(one.latest for one in sown if one.latest is not None)
    times = sum(_times(crop.windows, turn) for turn in Turn)
    if times < 2:
        return ()
    days = ngettext("%(count)d day", "%(count)d days", every) % {"count": every}
    return (crop.name, days, local.short(first, place), local.short(last, place), str(times))


def _times(windows: Sequence[Window], turn: Turn) -> int:
    """How often the crop can be begun in one half of the year, in whichever way gives most."""
    begun = [way.successions for way in ways(windows) if way.turn is turn and way.beginning]
    return max(begun, default=0)


def questions(place: Place) -> Sequence[Question]:
    """The slow days, and one crop's last sowing."""
    found = [
        Question(
            _("A packet says 60 days. Why do you count on more in autumn?"),
            (_("old seed is slower"), _("days get shorter and cooler"), _("rain holds plants back")),
            1,
            _("About two weeks are commonly added."),
        )
    ]
    for crop in place.crops:
        window = local.first_window(crop, Operation.SOW, Turn.AUTUMN)
        if window is not None and window.latest is not None:
            found.append(
                local.date_question(
                    _("Until when can %(crop)s be sown for autumn here?") % {"crop": crop.name},
                    window.latest,
                    _("Later sowings are seldom ripe in time."),
                )
            )
            break
    return found


TOPIC = Topic(
    code="autumn",
    name=gettext_lazy("Autumn crops and sowing again"),
    about=gettext_lazy("What to sow in summer for autumn, until when here, and what to sow again."),
    write=write,
    questions=questions,
    sources=(
        *local.CROP_SOURCES,
        "Virginia Cooperative Extension: Fall vegetable gardening (2004); Cornell Cooperative Extension of"
        " Oneida County: Timely planting, key to a successful fall garden (2019).",
    ),
    own=Own(
        gettext_lazy("My own sowings"),
        {
            gettext_lazy("Crop"): 2.6,
            gettext_lazy("Sown"): 1.3,
            gettext_lazy("Sown again"): 1.5,
            gettext_lazy("First picked"): 1.5,
            gettext_lazy("Last picked"): 1.5,
        },
    ),
)
