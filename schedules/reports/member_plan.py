"""What a member's calendar is made of, in every edition: words already translated, dates as dates."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import date

from django.utils.translation import gettext as _

from schedules.reports import season_strip
from schedules.reports.calendar_rows import CalendarRow
from schedules.reports.days import short_day
from schedules.reports.document import Head, Page
from schedules.reports.leaves import LARGE, USUAL, Foot, Sizes, lost
from schedules.reports.season import SeasonStrip, StripRow
from schedules.reports.setting import bracketed

_BEGINNINGS = ("start-indoors", "sow", "transplant")
_SHORTEST = 4
_A_FEW = 4


@dataclass(frozen=True, slots=True)
class PlotPlan:
    """What is planned for one plot; `sowings` and `plantings` are its lines of a strip, one for each."""

    label: str
    rows: tuple[CalendarRow, ...]
    sowings: tuple[StripRow, ...]
    plantings: tuple[StripRow, ...]


@dataclass(frozen=True, slots=True)
class DayLine:
    """A date of the garden: its day, when it is in words, what it is; `fixed` where nobody may miss it."""

    day: date
    when: str
    what: str
    fixed: bool = True


@dataclass(frozen=True, slots=True, kw_only=True)
class MemberPlan:
    """A member's plots in one year.

    `people` are who gardens them, `record` says where the dates came from, `strip` has the months, the frost
    and the rows of all plots, sowing by sowing. `language` is a tag, `paper` "letter" or "a4".
    """

    title: str
    people: str
    garden: str
    record: str
    year: int
    plots: tuple[PlotPlan, ...]
    strip: SeasonStrip
    days: tuple[DayLine, ...]
    language: str
    paper: str
    printed_on: date
    large: bool = False

    @property
    def rows(self) -> Iterator[CalendarRow]:
        """The rows of all plots."""
        return (row for plot in self.plots for row in plot.rows)

    @property
    def several(self) -> bool:
        """Whether it must be said which plot something is about."""
        return len(self.plots) > 1


def head_of(plan: MemberPlan, *, title: str = "") -> Head:
    """The head of its sheets."""
    return Head(
        garden=plan.garden,
        title=title or plan.title,
        paper=plan.paper,
        language=plan.language,
        printed_on=plan.printed_on,
        subtitle=plan.people,
        note=plan.record,
        large=plan.large,
    )


def foot_of(plan: MemberPlan) -> Foot:
    """The foot of its sheets."""
    texts = [plan.garden, plan.title, plan.people, *(row.crop for row in plan.rows)]
    record = bracketed(plan.record) if any(map(lost, texts)) else plan.record
    return Foot(plan.garden, plan.title, record, plan.printed_on)


def sizes_of(plan: MemberPlan) -> Sizes:
    """The type that its sheets are set in."""
    return LARGE if plan.large else USUAL


def add_strip(page: Page, plan: MemberPlan, *, by_planting: bool = False) -> None:
    """The strip and the key to its marks; a row for each sowing, or for each planting with all of them."""
    rows = tuple(
        replace(row, label=named(row.label, plot, plan))
        for plot in plan.plots
        for row in (plot.plantings if by_planting else plot.sowings)
    )
    if rows:
        strip = replace(plan.strip, rows=rows)
        page.chart(
            lambda width: season_strip.season_strip(strip, width),
            _("Each planting's season as marks on a ruled strip; the tables below say the same in words."),
        )
        page.key(season_strip.key_to_marks(strip))


def what_of(row: CalendarRow) -> str:
    """An operation, and which of several it is: "sow, sowing 2 of 3"."""
    return f"{row.operation_name}, {row.detail}" if row.detail else row.operation_name


def named(name: str, plot: PlotPlan, plan: MemberPlan) -> str:
    """A crop, with its plot where there are several."""
    if not plan.several:
        return name
    return _("%(crop)s (%(plot)s)") % {"crop": name, "plot": plot.label}


def span_of(row: CalendarRow, year: int) -> str:
    """From the earliest to the latest day, as short as it is clear; the hook's day where it is done."""
    if row.window is None:
        return _("no window")
    earliest, _best, latest = row.window
    if row.done:
        return _("done")
    return f"{short_day(earliest, year)} – {short_day(latest, year)}"


def nothing_planned(plan: MemberPlan) -> tuple[str, str]:
    """What an empty calendar says, and the step that fills it."""
    if plan.several:
        step = _(
            "Choose crops for your plots under “Plan” in Trugbook, or tell a coordinator what you would like"
            " to grow, and print this sheet again."
        )
    else:
        step = _(
            "Choose crops for the plot under “Plan” in Trugbook, or tell a coordinator what you would like"
            " to grow, and print this sheet again."
        )
    return _("Nothing is planned yet."), step


def nothing_dated(plan: MemberPlan) -> tuple[str, ...]:
    """What a calendar without any date says: that nothing is planned, or the reason that all crops share."""
    rows = list(plan.rows)
    if not rows:
        return nothing_planned(plan)
    reasons = {row.reasons for row in rows}
    return reasons.pop() if len(reasons) == 1 and not any(row.window for row in rows) else ()


def without_days(plan: MemberPlan) -> list[DayLine]:
    """The crops that have no window, a few to a line; nothing where all have."""
    dated = {(plot.label, row.crop) for plot in plan.plots for row in plot.rows if row.window}
    found = [
        named(row.crop, plot, plan)
        for plot in plan.plots
        for row in plot.rows
        if (plot.label, row.crop) not in dated
    ]
    names = list(dict.fromkeys(found))
    few = [names[n : n + _A_FEW] for n in range(0, len(names), _A_FEW)]
    return [DayLine(date.max, _("no window"), ", ".join(some)) for some in few]


def frost_lines(plan: MemberPlan) -> list[DayLine]:
    """The days that half of the years have their last and their first frost by, each once."""
    kinds = {middle.falling: middle for middle in reversed(plan.strip.middles)}
    return [
        DayLine(
            middle.day,
            short_day(middle.day, plan.year),
            _("Half of the years have had their last frost")
            if middle.falling
            else _("Half of the years have had their first frost"),
        )
        for middle in sorted(kinds.values(), key=lambda one: one.day)
    ]


def key_dates(plan: MemberPlan, most: int) -> list[DayLine]:
    """At most so many dates that a year hangs on, in order: frosts, the shortest windows, days of the garden.

    A short window to begin in is missed soonest.
    """
    shortest = sorted(
        (row for row in _named_rows(plan) if _begins(row[1])),
        key=lambda pair: ((pair[1].latest or date.max) - (pair[1].earliest or date.min), pair[1].best),
    )
    crops = [
        DayLine(row.earliest or date.max, span_of(row, plan.year), f"{row.operation_name}: {name}")
        for name, row in shortest[:_SHORTEST]
    ]
    days = [one for one in plan.days if one.fixed and one.day >= plan.printed_on]
    chosen: Sequence[DayLine] = [*frost_lines(plan), *crops, *days]
    return sorted(chosen[:most], key=lambda one: one.day)


def _named_rows(plan: MemberPlan) -> list[tuple[str, CalendarRow]]:
    return [(named(row.crop, plot, plan), row) for plot in plan.plots for row in plot.rows]


def _begins(row: CalendarRow) -> bool:
    return row.window is not None and not row.done and row.operation in _BEGINNINGS
