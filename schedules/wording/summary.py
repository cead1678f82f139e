"""A summary as a sheet: its figures, charts and tables in words and in the garden's units.

Nothing is estimated: a figure that nobody wrote down stays blank, and the sheet says so.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from datetime import date
from functools import partial

from django.utils.formats import date_format, number_format
from django.utils.functional import Promise
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy, ngettext, pgettext

from crops.wording.names import crop_label
from plots.hours import HOUR
from plots.models import Garden
from plots.quantities import LITRES_PER_GALLON, METRES_PER_FOOT, Units
from plots.wording import number_text
from plots.wording.site import SQUARE_FOOT
from schedules.amounts import GRAMS
from schedules.figures import Logged, Totals
from schedules.plan_done import Change, Sowing, Suggestion
from schedules.reports.charts import LyingBar, LyingBars, WeekBars, lying_bars, week_bars
from schedules.reports.days import short_day
from schedules.reports.document import Document, Grid, Head, Page
from schedules.reports.frost_chart import frost_chart
from schedules.reports.season import FrostChart
from schedules.risk import CHART_YEAR, drawn_curves
from schedules.seasons import Hemisphere, Side, day_number, from_day_number
from schedules.service.retrospect import Ending
from schedules.service.summary import Summary, printed_photo
from schedules.summary import MEASURES, CropYield, Figure, Measure, Period, by_week
from schedules.wording.climate import threshold_text
from schedules.wording.figures import harvest_text, left_out_texts, year_text
from schedules.wording.logs import unit_short, weight_text
from schedules.wording.retrospect import placed_text, read_by_text
from schedules.wording.risk import side_name
from schedules.work import Work
from schedules.years import span_of

_ROW_FEET = 10  # yields are told for so many feet of row, as tables do
_BARS = 24  # crops that the chart draws; the table has all of them


@dataclass(frozen=True)
class _Unit:
    """A unit of one of the garden's measures: its word, how many SI units it is, decimals worth showing."""

    word: str
    scale: float
    decimals: int

    def number(self, value: float) -> str:
        return number_text(round(value / self.scale, self.decimals))


FIGURE_NAMES: Mapping[Figure, str | Promise] = {
    Figure.PLOTS: gettext_lazy("Plots for members"),
    Figure.AREA: gettext_lazy("Ground in these plots"),
    Figure.HELD: gettext_lazy("Plots that somebody had"),
    Figure.FREE: gettext_lazy("Plots free at the end"),
    Figure.CHANGED: gettext_lazy("Plots that changed hands"),
    Figure.MEMBERS: gettext_lazy("People with a plot"),
    Figure.NEW: gettext_lazy("New among them"),
    Figure.WAITING_FIRST: gettext_lazy("Waiting for a plot at the beginning"),
    Figure.WAITING_LAST: gettext_lazy("Waiting for a plot at the end"),
    Figure.LANGUAGES: gettext_lazy("Languages they read"),
    Figure.HOURS: gettext_lazy("Hours for the garden"),
    Figure.GUEST_HOURS: gettext_lazy("Of these, by guests"),
    Figure.WORKDAYS: gettext_lazy("Workdays"),
    Figure.AT_PLOTS: gettext_lazy("Time at the plots"),
    Figure.PICKED: gettext_lazy("Food picked"),
    Figure.PICKED_PIECES: gettext_lazy("Food picked and counted, pieces"),
    Figure.CROPS: gettext_lazy("Crops picked"),
    Figure.GIVEN: gettext_lazy("Food given away"),
    Figure.GIVEN_PIECES: gettext_lazy("Food given away, pieces"),
    Figure.RECEIVERS: gettext_lazy("Who it was given to"),
    Figure.WATER: gettext_lazy("Water given"),
    Figure.WATERINGS: gettext_lazy("Waterings"),
    Figure.WORKSHOPS: gettext_lazy("Workshops"),
    Figure.EXPECTED: gettext_lazy("People expected there"),
    Figure.ATTENDED: gettext_lazy("People who came"),
}


def summary_document(summary: Summary, head: Head, *, sowing_by_sowing: bool) -> Document:
    """The sheet. A garden's plan is told crop by crop; `sowing_by_sowing` tells each with its days."""
    page = Page(head)
    writer = _Writer(summary, page)
    writer.figures()
    writer.food()
    writer.gifts()
    writer.water_and_hours()
    writer.workshops()
    writer.plan(sowing_by_sowing=sowing_by_sowing)
    writer.frosts()
    writer.photos()
    writer.changes()
    page.quiet(
        _(
            "Every number is a sum of what was written down, with nothing added for what was not. A blank "
            "means that nobody wrote it down, and not that there was none."
        )
    )
    return page.document()


def period_text(period: Period, garden: Garden) -> str:
    """A period in words: `2026` for a whole year of the garden, else its two days."""
    hemisphere = Hemisphere.of_latitude(garden.latitude)
    if (period.first, period.last) == span_of(period.first.year, hemisphere):
        return year_text(period.first.year, garden)
    days = {
        "first": date_format(period.first, "DATE_FORMAT"),
        "last": date_format(period.last, "DATE_FORMAT"),
    }
    return _("%(first)s – %(last)s") % days


class _Writer:
    """Adds a summary's parts to its page; a part of which nothing is known is left out."""

    def __init__(self, summary: Summary, page: Page) -> None:
        self.summary, self.page = summary, page
        self.units = summary.garden.units
        us = self.units == Units.US
        pounds = summary.sums.grams >= GRAMS["lb" if us else "kg"]
        weight = ("lb" if pounds else "oz") if us else ("kg" if pounds else "g")
        self.measures: Mapping[Measure, _Unit] = {
            Measure.COUNT: _Unit("", 1.0, 0),
            Measure.AREA: _Unit(
                pgettext("unit", "sq ft") if us else pgettext("unit", "m²"), SQUARE_FOOT if us else 1.0, 0
            ),
            Measure.TIME: _Unit(pgettext("unit", "h"), HOUR, 1),
            Measure.WEIGHT: _Unit(unit_short(weight), GRAMS[weight], 1),
            Measure.VOLUME: _Unit(unit_short("gal" if us else "L"), LITRES_PER_GALLON if us else 1.0, 0),
        }

    def figures(self) -> None:
        """The figures of the period, the years before beside them; rows without any number are left out."""
        summary = self.summary
        if summary.share is not None and summary.share.whole:
            said = {"part": summary.share.part, "whole": summary.share.whole}
            self.page.text(
                _("%(part)s of %(whole)s plots wrote down what they did; the sums are of these.") % said
            )
        columns = [summary.figures, *(found for _, found in summary.beside)]
        rows = [
            (self._named(figure), *(self._cell(figure, found.get(figure)) for found in columns))
            for figure in Figure
            if figure in summary.figures and any(found.get(figure) is not None for found in columns)
        ]
        if not rows:
            self.page.text(_("Nothing was written down in this time."))
            return
        periods = [summary.period, *(period for period, _ in summary.beside)]
        self.page.table(
            rows,
            titles=("", *(period_text(period, summary.garden) for period in periods)),
            shares=(3.2, *(1.2 for _ in periods)),
            numbers=range(1, len(periods) + 1),
            name=_("In figures"),
        )
        for text in left_out_texts(summary.sums):
            self.page.quiet(text)

    def _named(self, figure: Figure) -> str:
        unit = self.measures[MEASURES[figure]].word
        name = str(FIGURE_NAMES[figure])
        return f"{name}, {unit}" if unit else name

    def _cell(self, figure: Figure, value: float | None) -> str:
        return "" if value is None else self.measures[MEASURES[figure]].number(value)

    def food(self) -> None:
        """What was picked, week by week and crop by crop."""
        summary = self.summary
        if not summary.yields:
            return
        self.page.heading(_("What was picked"))
        unit = self.measures[Measure.WEIGHT]
        self._weeks(
            lambda one: one.grams if one.work == Work.PICK else None,
            unit,
            heading=_("Food picked, %(unit)s a week") % {"unit": unit.word},
        )
        weighed = [one for one in summary.yields if one.sums.grams][:_BARS]
        if len(weighed) > 1:
            bars = LyingBars(
                heading=_("Food by crop; hatched: given away"),
                bars=tuple(
                    LyingBar(
                        self._crop(one),
                        one.sums.grams / unit.scale,
                        weight_text(one.sums.grams, self.units),
                        one.sums.given_grams / unit.scale,
                    )
                    for one in weighed
                ),
            )
            self.page.chart(partial(lying_bars, bars), bars.heading)
        self._crops(unit)

    def _crops(self, unit: _Unit) -> None:
        summary = self.summary
        by_row = any(one.grams_a_metre for one in summary.yields)
        a_row = METRES_PER_FOOT * _ROW_FEET if self.units == Units.US else 1.0
        row_title = (
            _("%(unit)s from 10 ft of row") if self.units == Units.US else _("%(unit)s from 1 m of row")
        )
        rows = [
            (
                self._crop(one),
                unit.number(one.sums.grams) if one.sums.grams else "",
                str(one.sums.pieces or ""),
                unit.number(one.sums.given_grams)
                if one.sums.given_grams
                else str(one.sums.given_pieces or ""),
                _short(one.sums.first_picked, summary.period),
                _short(one.sums.last_picked, summary.period),
                *([unit.number(one.grams_a_metre * a_row) if one.grams_a_metre else ""] if by_row else []),
            )
            for one in summary.yields
        ]
        given = _("given away, %(unit)s or pieces")
        titles = [
            _("Crop"),
            _("picked, %(unit)s") % {"unit": unit.word},
            _("pieces"),
            given % {"unit": unit.word},
            _("first"),
            _("last"),
            *([row_title % {"unit": unit.word}] if by_row else []),
        ]
        self.page.table(
            rows,
            titles=titles,
            shares=(3, 1.3, 1, 1.5, 1.2, 1.2, 1.4)[: len(titles)],
            numbers=(1, 2, 3, 6),
            name=_("Food by crop"),
        )

    def _crop(self, one: CropYield) -> str:
        crop = self.summary.crops.get(one.crop or 0)
        return crop_label(crop) if crop else _("no crop named")

    def gifts(self) -> None:
        if not self.summary.gifts:
            return
        rows = [
            (
                gift.whom or _("nobody said to whom"),
                str(gift.times),
                harvest_text(gift.grams, gift.pieces, self.units) or _("not weighed"),
            )
            for gift in self.summary.gifts
        ]
        self.page.heading(_("What was given away"))
        self.page.table(
            rows,
            titles=(_("To"), _("times"), _("how much")),
            shares=(3, 1, 2),
            numbers=(1,),
            name=_("Given away"),
        )

    def water_and_hours(self) -> None:
        sums = self.summary.sums
        if sums.litres:
            unit = self.measures[Measure.VOLUME]
            self.page.heading(_("Water"))
            self._weeks(
                lambda one: one.litres if one.work == Work.WATER else None,
                unit,
                heading=_("Water given, %(unit)s a week") % {"unit": unit.word},
            )
            if text := self._water_for_food(sums):
                self.page.text(text)
        if sums.garden_minutes:
            unit = self.measures[Measure.TIME]
            self.page.heading(_("Hours for the garden"))
            self._weeks(
                lambda one: one.minutes if one.work == Work.HOURS else None,
                unit,
                heading=_("Hours for the garden, by week"),
            )

    def _water_for_food(self, sums: Totals) -> str:
        """Water for each unit of weight, where neither sum leaves anything out."""
        if not sums.grams or sums.unmeasured or sums.unweighed or sums.pieces:
            return ""
        weight, volume = self.measures[Measure.WEIGHT], self.measures[Measure.VOLUME]
        ratio = sums.litres / volume.scale / (sums.grams / weight.scale)
        return _("That is %(volume)s %(volume_unit)s of water for each %(weight_unit)s picked.") % {
            "volume": number_text(round(ratio, 1)),
            "volume_unit": volume.word,
            "weight_unit": weight.word,
        }

    def _weeks(self, value: Callable[[Logged], float | None], unit: _Unit, *, heading: str) -> None:
        found = {monday: amount / unit.scale for monday, amount in by_week(self.summary.logs, value).items()}
        if not found:
            return
        chart = WeekBars(heading, found, self.summary.period.first, self.summary.period.last)
        table = Grid(
            rows=tuple(
                (date_format(monday, "DATE_FORMAT"), number_text(round(amount, 1)))
                for monday, amount in found.items()
            ),
            shares=(2.0, 1.0),
            titles=(_("Week from"), unit.word),
            numbers=frozenset({1}),
            name=heading,
        )
        self.page.chart(partial(week_bars, chart), heading, table)

    def workshops(self) -> None:
        if not self.summary.workshops:
            return
        self.page.heading(_("Workshops"))
        self.page.table(
            [
                (
                    date_format(one.day, "DATE_FORMAT"),
                    one.title,
                    one.place,
                    "" if one.expected is None else str(one.expected),
                    "" if one.attended is None else str(one.attended),
                )
                for one in self.summary.workshops
            ],
            titles=(_("Day"), _("Workshop"), _("Where"), _("expected"), _("came")),
            shares=(1.7, 3, 2, 1, 1),
            numbers=(3, 4),
            name=_("Workshops"),
        )

    def plan(self, *, sowing_by_sowing: bool) -> None:
        """What was planned and what became of it."""
        summary = self.summary
        if not summary.sowings:
            return
        self.page.heading(_("Planned, and done"))
        if summary.plan.due:
            self.page.text(
                _(
                    "Of %(due)s sowings and plantings whose time came, %(begun)s were begun, %(in_time)s of "
                    "them within their window; %(picked)s gave a first picking."
                )
                % {
                    "due": summary.plan.due,
                    "begun": summary.plan.begun,
                    "in_time": summary.plan.in_time,
                    "picked": summary.plan.picked,
                }
            )
        if sowing_by_sowing:
            self._sowings()
        else:
            self._sowings_by_crop()

    def _sowings(self) -> None:
        period = self.summary.period
        self.page.table(
            [
                (
                    _sowing_name(one),
                    one.plot,
                    _span(one.planned, period),
                    _short(one.begun, period) + _off_text(one),
                    _short(one.picking_planned, period),
                    _lost_text(one, period) or _short(one.first_picked, period),
                )
                for one in self.summary.sowings
            ],
            titles=(_("What"), _("Plot"), _("to begin"), _("begun"), _("to pick from"), _("first picked")),
            shares=(2.6, 0.8, 1.9, 2.2, 1.3, 1.5),
            name=_("Planned, and done"),
        )

    def _sowings_by_crop(self) -> None:
        groups: dict[str, list[Sowing]] = {}
        for one in self.summary.sowings:
            groups.setdefault(one.name, []).append(one)
        rows = [
            (
                name,
                str(len(own)),
                str(sum(one.begun is not None for one in own)),
                str(sum(one.days_off == 0 for one in own)),
                str(sum(one.first_picked is not None for one in own)),
                str(sum(one.lost is not None for one in own) or ""),
            )
            for name, own in sorted(groups.items())
        ]
        self.page.table(
            rows,
            titles=(_("Crop"), _("planned"), _("begun"), _("in time"), _("picked from"), _("lost to frost")),
            shares=(3, 1, 1, 1, 1, 1),
            numbers=(1, 2, 3, 4, 5),
            name=_("Planned, and done"),
        )

    def frosts(self) -> None:
        """The period's own freezes among those of other years."""
        summary = self.summary
        own = [
            one
            for one in summary.endings
            if one.freeze is not None
            and one.placed is not None
            and one.freeze.day in summary.period
            and one.settled
        ]
        if not own or summary.climate is None:
            return
        self.page.heading(_("This year’s frosts"))
        for one in own:
            if one.celsius == 0.0 and one.freeze is not None and one.placed is not None:
                self.page.text(placed_text(one.placed))
                self._frost_chart(one)
        rows = [
            (
                side_name(one.side),
                threshold_text(one.celsius, self.units),
                date_format(one.freeze.day, "DATE_FORMAT"),
                read_by_text(one.freeze),
            )
            for one in own
            if one.freeze is not None
        ]
        self.page.table(
            rows,
            titles=("", _("colder than"), _("day"), _("thermometer")),
            shares=(2, 1, 1.5, 3),
            name=_("Frosts"),
        )

    def _frost_chart(self, ending: Ending) -> None:
        climate = self.summary.climate
        if climate is None or ending.freeze is None:
            return
        names = [(ending.celsius, threshold_text(ending.celsius, self.units))]
        curves = drawn_curves(climate, ending.side, names)
        if not any(curve.points for curve in curves):
            return
        falling = ending.side is Side.LAST
        heading = (
            _("Years in 100 with a freeze on or after the date")
            if falling
            else _("Years in 100 with a freeze on or before the date")
        )
        day = ending.freeze.day
        label = self.summary.period.first.year if falling else self.summary.period.last.year
        marker = from_day_number(day_number(day, label), CHART_YEAR)
        chart = FrostChart(heading, curves, falling, marker, date_format(day, "DATE_FORMAT"))
        self.page.chart(partial(frost_chart, chart), f"{side_name(ending.side)}. {heading}")

    def photos(self) -> None:
        """Photos that who took them gave for the report."""
        if not self.summary.photos:
            return
        self.page.heading(_("In pictures"), room=260)
        for photo in self.summary.photos:
            day = date_format(photo.log.day, "DATE_FORMAT")
            caption = f"{photo.caption}. {day}" if photo.caption else day
            self.page.picture(printed_photo(photo), photo.caption or _("A photo from the garden"), caption)

    def changes(self) -> None:
        if not self.summary.suggestions:
            return
        self.page.heading(_("What to change next year"))
        self.page.points(suggestion_text(one) for one in self.summary.suggestions)


def suggestion_text(one: Suggestion) -> str:
    """A suggestion with the numbers that give the reason for it."""
    names = pgettext("between the items of a list", ", ").join(one.names[:6])
    if len(one.names) > 6:
        names = _("%(names)s and others") % {"names": names}
    values = {"part": one.part, "whole": one.whole, "names": names, "days": one.days}
    texts = {
        Change.HANG_SHEETS: _(
            "Only %(part)s of %(whole)s plots wrote anything down. Hang log sheets in the shed, and show new "
            "members how to log at their plot."
        ),
        Change.MEASURE_HOSE: _(
            "%(part)s of %(whole)s waterings have no amount. Measure the hose once with a bucket; from then "
            "on minutes are enough."
        ),
        Change.WEIGH_BUNCHES: _(
            "%(part)s of %(whole)s pickings were neither weighed nor counted. Hang a scale in the shed, or "
            "weigh a usual bunch of each crop once."
        ),
        Change.PLAN_LESS: _(
            "%(part)s of %(whole)s sowings were never begun, or nobody wrote it down: %(names)s. Plan fewer, "
            "or share the work of beginning them."
        ),
        Change.BEGIN_EARLIER: _(
            "%(names)s: begun about %(days)s days after the window had closed. Put it into the calendar, or "
            "choose a quicker variety."
        ),
        Change.BEGIN_LATER: _("%(names)s: begun about %(days)s days before the window opened."),
        Change.WAIT_OR_COVER: _(
            "Lost to frost: %(names)s. Choose a more careful nerve for these, or keep row cover at hand."
        ),
        Change.ASK_ABOUT_PICKING: _(
            "%(names)s: begun, but no picking was written down. Ask what became of it."
        ),
        Change.OFFER_FREE_PLOTS: ngettext(
            "%(part)s plot was free at the end while %(whole)s people waited. Offer it early.",
            "%(part)s plots were free at the end while %(whole)s people waited. Offer them early.",
            one.part,
        ),
        Change.WRITE_ATTENDANCE: _(
            "How many came is not written down for %(part)s of %(whole)s workshops. Count at the door, and "
            "write it down the same day."
        ),
    }
    return texts[one.change] % values


def _sowing_name(one: Sowing) -> str:
    if one.successions == 1:
        return one.name
    return _("%(crop)s, sowing %(n)s") % {"crop": one.name, "n": one.succession}


def _short(day: date | None, period: Period) -> str:
    return "" if day is None else short_day(day, period.first.year)


def _span(days: tuple[date, date] | None, period: Period) -> str:
    if days is None:
        return _("no window")
    return f"{_short(days[0], period)} – {_short(days[1], period)}"


def _off_text(one: Sowing) -> str:
    off = one.days_off
    if not off:
        return ""
    text = (
        ngettext("%(n)s day late", "%(n)s days late", off)
        if off > 0
        else ngettext("%(n)s day early", "%(n)s days early", -off)
    )
    return f" ({text % {'n': number_format(abs(off))}})"


def _lost_text(one: Sowing, period: Period) -> str:
    return "" if one.lost is None else _("lost to frost, %(day)s") % {"day": _short(one.lost, period)}
