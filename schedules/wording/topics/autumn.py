"""Autumn crops and successions: counting back from frost, and sowing again while the dates last."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy, ngettext

from schedules.entries import SHOWN_IN_TABLES, is_dated, spans_of_turn, ways
from schedules.place import Place, PlaceCrop
from schedules.reports.document import Page
from schedules.windows import Operation, Start, Turn, Window
from schedules.windows.growth import maturity_days
from schedules.wording import operation_name
from schedules.wording.topics import local
from schedules.wording.topics.topic import Own, Question, Topic

_BEGINNINGS = (Operation.SOW, Operation.TRANSPLANT)
_SLOW_DAYS = 14  # what is commonly added for the shorter days of autumn


def write(page: Page, place: Place) -> None:
    """The sum first, then the dates of autumn and of sowing again."""
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
            _("Crop"), *map(operation_name, SHOWN_IN_TABLES), _("Again every"), _("Again until"),
        ),
        shares=(2.2, 1.75, 1.75, 1.75, 1.75, 1, 0.95),
        close=len(rows) > local.ROOMY_ROWS,
    )  # fmt: skip
    if not place.crops:
        page.text(local.no_crops())
        page.writing_lines(6)
    elif not any(any(_autumn(crop, place)) for crop in place.crops):
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
            _(
                "So, by this rule, sow by %(day)s. The table goes by how warm it is here instead: in a hot"
                " summer crops ripen sooner, so its dates may be later."
            )
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
    """Its dates of autumn, and how it is sown again in the whole year, where it has any of these."""
    told = (*_autumn(crop, place), *_series(crop, place))
    return (crop.name, *told) if any(told) else ()


def _autumn(crop: PlaceCrop, place: Place) -> list[str]:
    """One for each of `SHOWN_IN_TABLES`, empty where it is not done."""
    spans = spans_of_turn(crop.windows, Turn.AUTUMN)
    return [local.days(one.earliest, one.latest, place) if one else "" for one in spans]


def _again(page: Page, place: Place) -> None:
    """Why, and where the sheet says how often and until when."""
    page.heading(_("Sowing again"))
    page.text(
        _("One long row ripens all at once. Sow a short row every few weeks, and you pick all season. Sow the"
          " next row when the last one has its first true leaves.")
    )  # fmt: skip
    if any(any(_series(crop, place)) for crop in place.crops):
        page.text(_("The last two columns of the table say how often, and until when."))


def _series(crop: PlaceCrop, place: Place) -> tuple[str, str]:
    """How often it is sown again, and the last day for it; empty where it is not."""
    every = crop.facts.succession_days
    sown = [one.latest for one in crop.windows if one.operation in _BEGINNINGS and is_dated(one)]
    last = max((day for day in sown if day is not None), default=None)
    if not every or last is None or sum(_times(crop.windows, turn) for turn in Turn) < 2:
        return "", ""
    days = ngettext("%(count)d day", "%(count)d days", every) % {"count": every}
    return days, local.short(last, place)


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
