"""When to plant here, month by month."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping, Sequence
from datetime import timedelta
from itertools import product

from django.utils.dates import MONTHS
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from schedules.entries import SHOWN_IN_TABLES, is_dated
from schedules.place import Place
from schedules.reports.document import Page
from schedules.seasons import Hemisphere
from schedules.windows import Operation, Window
from schedules.wording import operation_name
from schedules.wording.topics import local
from schedules.wording.topics.topic import Own, Question, Topic

_IN_ORDER = {Hemisphere.NORTH: tuple(range(1, 13)), Hemisphere.SOUTH: (*range(7, 13), *range(1, 7))}
_STARTS = SHOWN_IN_TABLES[:3]
# How high the table may be for the sheet to fit two sides, the letters of a line of it, and in points what a
# row has above and below and how high its lines are.
_HIGHEST, _LETTERS = 900.0, 76
_ROOMY, _CLOSE = (6.5, 13.0), (3.0, 12.0)


def write(page: Page, place: Place) -> None:
    """A line for each month: what can be begun in it, and what is picked."""
    page.text(
        _("What is there to do this month? Find it on the left. Start indoors: sow in pots, in a bright, warm"
          " place. Sow: put seed into the bed. Transplant: move a young plant to the bed.")
    )  # fmt: skip
    page.points([*local.frost_sentences(place), local.unknown_frost(place)])
    found, order = _by_month(place), _IN_ORDER[place.hemisphere]
    # Before what follows from the rest goes, the lines move closer.
    for shown, ruling in product((SHOWN_IN_TABLES, _STARTS, _STARTS[1:]), (_ROOMY, _CLOSE)):
        rows = [row for months in _alike(order, found, shown) for row in _rows(months, found, shown)]
        row, line = ruling
        if sum(row + line * (1 + len(crops) // _LETTERS) for _month, _what, crops in rows) < _HIGHEST:
            break
    page.table(
        rows,
        titles=(_("Month"), _("What to do"), _("Crops")),
        shares=(1.3, 1.2, 5.8),
        close=ruling is _CLOSE,
    )
    if not rows:
        page.text(_("Write down for each month what you mean to begin in it:"))
        page.table(
            [(str(MONTHS[month]), *[""] * len(_STARTS)) for month in order],
            titles=(_("Month"), *map(operation_name, _STARTS)),
            shares=(1.2, 2, 2, 2),
            row_height=30,
            grid=True,
        )
        return
    page.heading(_("How to read it"))
    page.points(
        [
            _("A crop stands in every month in which it can be begun. The sheet by crop has the days."),
            _("Begin quick crops such as lettuce and radish again every ten days to two weeks."),
            _("A month is only a guide. In a late spring wait, and look at the forecast for the week."),
        ]
    )
    idle = [str(MONTHS[month]) for month in order if not any(found[month, one] for one in shown)]
    if idle and len(idle) < len(order):
        told = (
            _("Nothing is begun or picked in: %(months)s.")
            if Operation.HARVEST in shown
            else _("Nothing on this sheet begins in: %(months)s.")
        )
        page.quiet(told % {"months": ", ".join(idle)})


Found = Mapping[tuple[int, Operation], list[str]]


def _alike(order: Sequence[int], found: Found, shown: Sequence[Operation]) -> list[list[int]]:
    """The months, those that follow each other with the same things to do taken together."""
    groups: list[list[int]] = []
    for month in order:
        if groups and all(set(found[month, one]) == set(found[groups[-1][0], one]) for one in shown):
            groups[-1].append(month)
        else:
            groups.append([month])
    return groups


def _rows(months: Sequence[int], found: Found, shown: Sequence[Operation]) -> list[tuple[str, str, str]]:
    """A line for each thing to do in these months, which the first line names."""
    first, last = (str(MONTHS[month]) for month in (months[0], months[-1]))
    name = first if len(months) == 1 else _("%(first)s to %(last)s") % {"first": first, "last": last}
    done = [(operation_name(one), "; ".join(found[months[0], one])) for one in shown if found[months[0], one]]
    return [(name if not n else "", *line) for n, line in enumerate(done)]


def _by_month(place: Place) -> dict[tuple[int, Operation], list[str]]:
    """Names of crops by calendar month and operation, each once, in the order of their first day."""
    found: dict[tuple[int, Operation], list[str]] = defaultdict(list)
    dated = [
        (crop.name, window)
        for crop in place.crops
        for window in crop.windows
        if window.operation in SHOWN_IN_TABLES and is_dated(window)
    ]
    for name, window in sorted(dated, key=lambda one: (str(one[1].earliest), one[0])):
        for month in _months(window):
            names = found[month, window.operation]
            if name not in names:
                names.append(name)
    return found


def _months(window: Window) -> list[int]:
    """Every month that the window touches, in order."""
    if window.earliest is None or window.latest is None:
        return []
    days = min((window.latest - window.earliest).days, 364)
    touched = [(window.earliest + timedelta(days=step)).month for step in range(days + 1)]
    return list(dict.fromkeys(touched))


def questions(place: Place) -> Sequence[Question]:
    """In which month one of the crops is first sown."""
    firsts = [
        (window.earliest, crop)
        for crop in place.crops
        for window in local.first_windows(crop, Operation.SOW)
        if window.earliest is not None and window.earliest.year == place.year
    ]
    if not firsts:
        return (
            Question(
                _("Which month is best for sowing a crop?"),
                (
                    _("the one that its frost dates and its warmth give at this place"),
                    _("the same one everywhere"),
                    _("the one in which the shops have seed"),
                ),
                0,
                _("The same crop is sown months apart in the north and in the south."),
            ),
        )
    # The one in the middle: the sheet by crop asks about the first and the last.
    first, crop = sorted(firsts, key=lambda one: one[0])[len(firsts) // 2]
    at = first.month % 3
    months = [str(MONTHS[(first.month - 1 + 2 * (n - at)) % 12 + 1]) for n in range(3)]
    words = {"crop": crop.name, "day": local.day(first)}
    return (
        Question(
            _("In which month can %(crop)s first be sown outdoors here?") % words,
            tuple(months),
            at,
            _("From %(day)s on.") % words,
        ),
    )


TOPIC = Topic(
    code="by-month",
    name=gettext_lazy("When to plant here, by month"),
    about=gettext_lazy("What can be begun and what is picked here, month by month."),
    write=write,
    questions=questions,
    sources=local.CROP_SOURCES,
    own=Own(
        gettext_lazy("My own plan"),
        {
            gettext_lazy("Month"): 1.4,
            gettext_lazy("What I mean to do"): 4.2,
            gettext_lazy("Done on"): 1.4,
        },
    ),
)
