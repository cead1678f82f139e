"""Reading frost risk: the curve with its years, what each nerve means here, a worked question."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from datetime import date
from typing import TYPE_CHECKING

from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from schedules.climate import Basis
from schedules.nerve import NERVES
from schedules.place import FreezeDates, Place
from schedules.reports.document import Grid, Page
from schedules.reports.season import FrostChart, FrostCurve
from schedules.risk import CHART_YEAR
from schedules.seasons import Hemisphere, day_number
from schedules.wording.climate import threshold_text
from schedules.wording.topics import local
from schedules.wording.topics.topic import Own, Question, Topic

if TYPE_CHECKING:
    from reportlab.graphics.shapes import Drawing

_PERCENTS = (90, 70, 50, 30, 10)
_LATE = {Hemisphere.NORTH: (5, 20), Hemisphere.SOUTH: (11, 20)}  # asked about where no date is known
_WORKED = 30  # of 100 years: the middling choice


def write(page: Page, place: Place) -> None:
    """The curves first, then what follows from them."""
    page.text(
        _("A frost date is no promise. In some years a frost still comes after it. This sheet shows in how"
          " many. Then you can choose your own date: safer and later, or earlier at some risk.")
    )  # fmt: skip
    page.points([*local.frost_sentences(place), local.unknown_frost(place)])
    if local.is_rare(place):
        page.text(_("Rare is not never: watch the forecast on the coldest nights of winter."))
    elif not place.charts:
        _to_write_down(page)
    for chart in place.charts:
        page.heading(_side(chart), room=300)
        page.chart(_drawing(chart), _alt(chart, place), _table(chart, place))
        if chart.falling:
            _how_to_read(page, place)
            _worked(page, place)
    if not any(chart.falling for chart in place.charts):
        _how_to_read(page, place)
    _nerve(page, place)
    page.caution(
        _("A low spot or an open field can be several degrees colder than the weather station, most of all on"
          " a clear, still night. Watch the forecast, and cover what a frost would kill.")
    )  # fmt: skip


def _how_to_read(page: Page, place: Place) -> None:
    if any(curve.years for chart in place.charts for curve in chart.curves):
        page.quiet(
            _("Each mark is one year of the record. Find a day at the bottom, go up to the line, then left."
              " There you read how many years of 100 had a frost on that day or later (in autumn: by that"
              " day). The solid line is a light frost, the broken lines are harder ones.")
        )  # fmt: skip
    elif place.basis is Basis.TABLE:
        page.quiet(
            _(
                "Find a day at the bottom, go up to the line, then left. There you read how many years of 100"
                " had a frost on that day or later (in autumn: by that day). The lines join the dates of a"
                " published table; no single years are behind them."
            )
        )
    elif place.charts:
        page.quiet(
            _("This line is an estimate. It spreads the years about the date that was typed, by some 12 days"
              " either way, as frost dates do elsewhere.")
        )  # fmt: skip


def _drawing(chart: FrostChart) -> Callable[[float], Drawing]:
    def draw(width: float) -> Drawing:
        from schedules.reports.frost_chart import frost_chart  # lazy: reportlab

        return frost_chart(chart, width)

    return draw


def _side(chart: FrostChart) -> str:
    return _("The last frost of spring") if chart.falling else _("The first frost of autumn")


def _alt(chart: FrostChart, place: Place) -> str:
    lines = ", ".join(curve.name for curve in chart.curves)
    return _("%(side)s at %(place)s: %(heading)s; lines for %(lines)s.") % {
        "side": _side(chart),
        "place": place.name,
        "heading": chart.heading.lower(),
        "lines": lines,
    }


def _table(chart: FrostChart, place: Place) -> Grid:
    """The dates behind the lines."""
    rows = tuple(
        (
            _("%(count)d years of 100") % {"count": percent},
            *(_cell(one, chart, percent) for one in place.freeze),
        )
        for percent in _PERCENTS
    )
    titles = (_("A freeze in"), *(threshold_text(one.celsius, place.units) for one in place.freeze))
    return Grid(rows, (1.4, *[1.0] * len(place.freeze)), titles, name=_side(chart))


def _cell(dates: FreezeDates, chart: FrostChart, percent: int) -> str:
    found = (dates.last if chart.falling else dates.first).get(percent)
    return "–" if found is None else local.day(found)


def _to_write_down(page: Page) -> None:
    page.facts(
        [
            (_("Mean last frost of spring"), "_" * 24),
            (_("Mean first frost of autumn"), "_" * 24),
            (_("Who said so"), "_" * 24),
        ],
        label_share=0.4,
    )
    page.text(
        _("Without a record, stay two weeks on the safe side of a mean date: about half of all years are"
          " worse than the mean.")
    )  # fmt: skip


def _nerve(page: Page, place: Place) -> None:
    """What each choice accepts, with its dates where they are known."""
    freezing = next((one for one in place.freeze if one.celsius == local.FREEZING_C), None)
    names = {"careful": _("Careful"), "middling": _("Middling"), "bold": _("Bold")}
    rows = []
    for name, nerve in NERVES.items():
        percent = round(nerve.percent or 0)
        last = None if freezing is None else freezing.last.get(percent)
        first = None if freezing is None else freezing.first.get(percent)
        rows.append(
            (
                names[name],
                _("frost in %(count)d years of 10") % {"count": percent // 10}
                if percent > 10
                else _("frost in 1 year of 10"),
                _("from %(day)s") % {"day": local.day(last)} if last else _("not known here"),
                _("by %(day)s") % {"day": local.day(first)} if first else _("not known here"),
            )
        )
    page.heading(_("Careful, middling or bold?"))
    page.text(
        _("A bold date gains days, and loses plants more often. Be careful with plants that you cannot"
          " replace. Be bold with cheap seed, or when you have a cover at hand. Tender plants, such as"
          " tomato, pepper, bean and squash, die in a light frost.")
    )  # fmt: skip
    if freezing is None or local.is_rare(place):
        return
    page.table(
        rows,
        titles=(_("Choice"), _("You accept"), _("Tender plants go out"), _("Pick or cover them")),
        shares=(0.9, 1.6, 1.6, 1.7),
    )


def _worked(page: Page, place: Place) -> None:
    """One date asked and answered from the years themselves, or from the line."""
    asked = _asked(place)
    if asked is None:
        return
    when, answer = asked
    freezing = next(one for one in place.freeze if one.celsius == local.FREEZING_C)
    until = freezing.last.get(10)
    page.heading(_("A worked question"))
    page.text(
        _("You want to set tomatoes out on %(day)s. How often does a frost still come?")
        % {"day": local.day(when)}
    )
    steps = [answer]
    if until is not None and until > when:
        steps.append(
            _("So have a cover ready until %(day)s. From then on a frost comes in 1 year of 10 only.")
            % {"day": local.day(until)}
        )
    steps.append(
        _("Or wait a week. It costs you little, as plants set into warmer soil catch up.")
    )  # fmt: skip
    page.points(steps, numbered=True)


def _asked(place: Place) -> tuple[date, str] | None:
    """The day of the middling choice, and how often a freeze comes on or after it."""
    freezing = next((one for one in place.freeze if one.celsius == local.FREEZING_C), None)
    when = None if freezing is None else freezing.last.get(_WORKED)
    chart = next((one for one in place.charts if one.falling), None)
    if when is None or chart is None:
        return None
    curve = chart.curves[0]
    if not curve.years:
        return when, _("By the line: in about %(count)d years of 100.") % {"count": _WORKED}
    return when, _(
        "On the solid line count the marks from that day on: a frost came in %(count)d of %(years)d years."
    ) % {
        "count": _count(curve, when, place.year),
        "years": curve.seasons,
    }


def _count(curve: FrostCurve, when: date, year: int) -> int:
    """The years of a record with a freeze on or after a day of `year`."""
    return sum(day_number(one, CHART_YEAR) >= day_number(when, year) for one in curve.years)


def questions(place: Place) -> Sequence[Question]:
    """What a chance means, and the middle date of the place."""
    rare = next((one.last.get(10) for one in place.freeze if one.celsius == local.FREEZING_C), None)
    words = {"day": local.day(rare or date(place.year, *_LATE[place.hemisphere]))}
    found = [
        Question(
            _("“In 1 year of 10 a frost comes on %(day)s or later.” What does it mean?") % words,
            (
                _("no frost can come after %(day)s") % words,
                _("in 9 years of 10 the last frost is over by then"),
                _("every tenth spring is cold"),
            ),
            1,
            _("It is a chance, counted over many years. It names no year, and it is never 0."),
        )
    ]
    if place.last_frost is not None:
        found.append(
            local.date_question(
                _("By which day have half of all springs here had their last frost?"),
                place.last_frost,
                _("It is the middle of the curve: half of the years are later."),
            )
        )
    elif place.first_frost is not None:
        found.append(
            local.date_question(
                _("By which day have half of all autumns here had their first frost?"),
                place.first_frost,
                _("It is the middle of the curve: half of the years are earlier."),
            )
        )
    return tuple(found)


TOPIC = Topic(
    code="frost-risk",
    name=gettext_lazy("Reading frost risk"),
    about=gettext_lazy("How likely a late or an early frost is here, and how to choose a date by it."),
    write=write,
    questions=questions,
    sources=(
        "NOAA National Centers for Environmental Information: freeze probabilities, as the 1991–2020 normals"
        " define them",
        "NOAA National Weather Service, Wilmington: freeze tables (how dates scatter about their mean)",
    ),
    own=Own(
        gettext_lazy("My own frosts"),
        {
            gettext_lazy("Date"): 1.2,
            gettext_lazy("Coldest"): 1.2,
            gettext_lazy("What I covered"): 3,
            gettext_lazy("What was hurt"): 3,
        },
    ),
)
