"""The plans of members as their printed calendars take them, for a whole garden in few queries."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Collection, Iterable, Sequence
from dataclasses import dataclass, field
from datetime import date

from django.db.models import Q, QuerySet
from django.utils import translation
from django.utils.formats import date_format, time_format
from django.utils.text import get_text_list
from django.utils.translation import gettext as _

from plots.dates import Certainty, GardenDay
from plots.models import Assignment, Garden, Plot, User
from plots.queries import dates_of
from plots.spelling import natural_key
from plots.wording.dates import told
from schedules.climate import Climate
from schedules.entries import Entry, by_date
from schedules.reports.calendar_rows import CalendarRow
from schedules.reports.days import short_day
from schedules.reports.member_plan import DayLine, MemberPlan, PlotPlan
from schedules.reports.season import FrostMiddle, FrostPoint, SeasonStrip, StripRow, strip_span
from schedules.service.calendar import GardenDates, PlantingDates, PlotCalendar, dated_plantings
from schedules.service.sheet import Sentences, calendar_rows
from schedules.strips import frost_middles, frost_points, rows_of_entries, rows_of_plantings
from schedules.windows import Operation, Start
from schedules.wording import operation_name
from schedules.wording.calendar import row_name
from schedules.wording.climate import climate_source_text

# Dates that are worth a word on a sheet for the wall; a season's own begin and end are on the lists.
_FIXED = ("workday", "water_on", "water_off", "deadline", "renewal", "hours", "clear_by")


@dataclass(frozen=True, slots=True)
class Holding:
    """Plots that are gardened together, by whom, and the language they read."""

    people: str
    plots: tuple[Plot, ...]
    language: str


@dataclass(frozen=True)
class Planned:
    """A calendar in plain values, and the entries that it is made of, in the order of dates."""

    plan: MemberPlan
    entries: tuple[Entry, ...]


def who_have_plots(garden: Garden, members: Iterable[User], today: date) -> list[User]:
    """Those of the members who hold or share a plot today, in order; 2 queries."""
    known = list(members)
    current = _held(garden, known, today).prefetch_related("co_gardeners")
    keys = {person.pk for one in current for person in _people(one)}
    return [one for one in known if one.pk in keys]


def _held(garden: Garden, members: Sequence[User], today: date) -> QuerySet[Assignment]:
    own = Q(holder__in=members) | Q(co_gardeners__in=members)
    current = Assignment.objects.on(today).filter(own, plot__garden=garden, plot__retired_on__isnull=True)
    return current.distinct().select_related("holder", "plot")


def holdings_of(garden: Garden, members: Iterable[User], today: date) -> list[Holding]:
    """What each of the members holds or shares today, in order, without those who have no plot; 2 queries.

    Whoever asks for the sheet stands first among the people of their plots.
    """
    known = list(members)
    held: dict[int, list[Assignment]] = defaultdict(list)
    for one in _held(garden, known, today).prefetch_related("co_gardeners"):
        for person in _people(one):
            held[person.pk].append(one)
    return [_holding(garden, member, held[member.pk]) for member in known if held[member.pk]]


def holding_of_plots(garden: Garden, plots: Iterable[Plot], today: date) -> list[Holding]:
    """Each plot by itself with the people who garden it; 2 queries."""
    known = _in_order(plots)
    people: dict[int, list[str]] = defaultdict(list)
    current = Assignment.objects.on(today).filter(plot__in=known).select_related("holder")
    for one in current.prefetch_related("co_gardeners"):
        people[one.plot_id] += [person.name for person in _people(one)]
    language = translation.get_language() or "en"
    return [
        Holding(", ".join(dict.fromkeys(people[plot.pk])) or plot.get_kind_display(), (plot,), language)
        for plot in known
    ]


def member_plans(
    garden: Garden, holdings: Sequence[Holding], *, year: int, today: date, paper: str, large: bool = False
) -> list[Planned]:
    """The calendars of `holdings`, in order; garden and climate are read once, plantings once a language."""
    dates = GardenDates.of(garden)
    frost = _Frost(dates.climate if dates else None)
    found: dict[int, Planned] = {}
    for language in dict.fromkeys(one.language for one in holdings):
        own = [(at, one) for at, one in enumerate(holdings) if one.language == language]
        with translation.override(language):
            known = _by_plot(garden, [one for _at, one in own], {year - 1, year}, dates)
            make = _Maker(garden, year, today, paper, large, frost)
            found |= {at: make.plan(one, known) for at, one in own}
    return [found[at] for at in range(len(holdings))]


def plots_text(holding: Holding) -> str:
    """The plots of a sheet: "Plot 14", "Plots 14 and 15"."""
    labels = [plot.label for plot in holding.plots]
    if len(labels) == 1:
        return _("Plot %(plot)s") % {"plot": labels[0]}
    return _("Plots %(plots)s") % {"plots": get_text_list(labels, _("and"))}


def no_frost_dates() -> str:
    """Why nothing has a date in a garden without a climate."""
    return _("The garden has not said yet where its frost dates come from.")


def day_lines(days: Iterable[GardenDay], year: int) -> list[DayLine]:
    """The garden's dates as sheets print them, without those that do not take place."""
    return [
        DayLine(one.day, when_of(one, year), told(one), one.kind in _FIXED)
        for one in days
        if one.certainty is not Certainty.OFF
    ]


def when_of(day: GardenDay, year: int) -> str:
    """When a date of the garden is: "Sat May 4, 9 a.m.–noon"."""
    text = f"{date_format(day.day, 'D')} {short_day(day.day, year)}"
    if day.last_day is not None:
        text += f" – {short_day(day.last_day, year)}"
    if day.starts_at is not None:
        text += f", {time_format(day.starts_at)}"
    return f"{text}–{time_format(day.ends_at)}" if day.ends_at is not None else text


def _people(assignment: Assignment) -> list[User]:
    return [assignment.holder, *assignment.co_gardeners.all()]


def _holding(garden: Garden, member: User, rows: Sequence[Assignment]) -> Holding:
    names = [member.name, *(person.name for one in rows for person in _people(one) if person.pk != member.pk)]
    people = ", ".join(dict.fromkeys(names))
    return Holding(people, _in_order(one.plot for one in rows), _language(member, garden))


def _language(person: User, garden: Garden) -> str:
    return person.language or garden.language or translation.get_language() or "en"


def _in_order(plots: Iterable[Plot]) -> tuple[Plot, ...]:
    return tuple(sorted(plots, key=lambda plot: natural_key(plot.label)))


def _by_plot(
    garden: Garden, holdings: Iterable[Holding], years: Collection[int], dates: GardenDates | None
) -> dict[int, list[PlantingDates]]:
    plots = list({plot.pk: plot for one in holdings for plot in one.plots}.values())
    found: dict[int, list[PlantingDates]] = defaultdict(list)
    for dated in dated_plantings(garden, plots, years, dates):
        found[dated.planting.plot_id].append(dated)
    return found


@dataclass
class _Frost:
    """The frost of a span of months, counted once for all who have the same."""

    climate: Climate | None
    _known: dict[tuple[date, date], tuple[tuple[FrostPoint, ...], tuple[FrostMiddle, ...]]] = field(
        default_factory=dict
    )

    def strip(self, rows: tuple[StripRow, ...], year: int) -> SeasonStrip:
        span = strip_span(rows, year)
        if span not in self._known:
            climate = self.climate
            self._known[span] = (
                (frost_points(climate, *span), frost_middles(climate, *span)) if climate else ((), ())
            )
        points, middles = self._known[span]
        return SeasonStrip(rows, *span, frost=points, middles=middles)


class _Maker:
    """Makes plans of one garden in the language that is active."""

    def __init__(
        self, garden: Garden, year: int, today: date, paper: str, large: bool, frost: _Frost
    ) -> None:
        self.garden, self.year, self.today, self.frost = garden, year, today, frost
        self.common = {
            "garden": garden.name,
            "record": climate_source_text(garden),
            "year": year,
            "language": translation.get_language() or "en",
            "paper": paper,
            "printed_on": today,
            "large": large,
        }
        self.sentences = Sentences(garden.units)
        days = dates_of(garden, date(year - 1, 1, 1), date(year + 1, 12, 31))
        self.days = day_lines(days, year)

    def plan(self, holding: Holding, known: dict[int, list[PlantingDates]]) -> Planned:
        calendars = [PlotCalendar.of_year(self.year, known.get(plot.pk, [])) for plot in holding.plots]
        plots = tuple(
            self._plot(plot, calendar) for plot, calendar in zip(holding.plots, calendars, strict=True)
        )
        strip = self.frost.strip(tuple(row for plot in plots for row in plot.sowings), self.year)
        plan = MemberPlan(
            title=_("%(plots)s in %(year)d") % {"plots": plots_text(holding), "year": self.year},
            people=holding.people,
            plots=plots,
            strip=strip,
            days=tuple(one for one in self.days if strip.first <= one.day <= strip.last),
            **self.common,
        )
        entries = sorted((row for calendar in calendars for row in calendar.entries), key=by_date)
        return Planned(plan, tuple(entries))

    def _plot(self, plot: Plot, calendar: PlotCalendar) -> PlotPlan:
        entries = calendar.entries
        rows = calendar_rows(calendar, self.garden.units, self.sentences)
        if self.frost.climate is None:
            rows = tuple(_without_dates(dated) for dated in calendar.plantings)
        return PlotPlan(plot.label, rows, rows_of_entries(entries), rows_of_plantings(entries))


_BEGUN_BY: dict[Start, Operation] = {Start.SOW: Operation.SOW, Start.TRANSPLANT: Operation.TRANSPLANT}


def _without_dates(dated: PlantingDates) -> CalendarRow:
    """What is planned in a garden that has no frost dates."""
    operation = _BEGUN_BY[dated.way.start]
    return CalendarRow(
        crop=row_name(dated.name, dated.way.turn),
        operation=operation.value,
        operation_name=operation_name(operation),
        reasons=(no_frost_dates(),),
    )
