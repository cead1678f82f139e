"""What the parts of a summary are written with: its page, its numbers, and the garden's units."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from datetime import date
from functools import partial

from django.utils.formats import date_format, number_format
from django.utils.translation import gettext as _
from django.utils.translation import pgettext

from plots.hours import HOUR
from plots.quantities import LITRES_PER_GALLON, Units
from plots.wording import number_text
from plots.wording.site import SQUARE_FOOT
from schedules.amounts import GRAMS
from schedules.figures import Logged
from schedules.reports.charts import WeekBars, week_bars
from schedules.reports.days import short_day
from schedules.reports.document import Grid, Page
from schedules.service.summary import Summary
from schedules.summary import Figure, Measure, Period, by_week
from schedules.wording.logs import unit_short


@dataclass(frozen=True)
class SheetUnit:
    """A unit of one of the garden's measures: its word, how many SI units it is, decimals worth showing.

    One with `cents` shows all of its decimals.
    """

    word: str
    scale: float
    decimals: int
    cents: bool = False

    def number(self, value: float) -> str:
        """The value, with one more decimal place where it would else be shown as nothing."""
        found = value / self.scale
        if self.cents:
            return str(number_format(found, decimal_pos=self.decimals))
        return number_text(round(found, self.decimals) or round(found, self.decimals + 1))

    def known(self, value: float) -> str:
        """The value; of nothing known nothing."""
        return self.number(value) if value else ""


def units_of(summary: Summary) -> Mapping[Measure, SheetUnit]:
    """The unit of each measure, in which the whole sheet is written."""
    us = summary.garden.units == Units.US
    columns = [summary.figures, *(found for _, found in summary.beside)]
    most = max((found.get(Figure.PICKED) or 0.0 for found in columns), default=0.0)
    heavy = most >= GRAMS["lb" if us else "kg"]
    weight = ("lb" if heavy else "oz") if us else ("kg" if heavy else "g")
    area = pgettext("unit", "sq ft") if us else pgettext("unit", "m²")
    return {
        Measure.COUNT: SheetUnit("", 1.0, 0),
        Measure.AREA: SheetUnit(area, SQUARE_FOOT if us else 1.0, 0),
        Measure.TIME: SheetUnit(pgettext("unit", "h"), HOUR, 1),
        Measure.WEIGHT: SheetUnit(unit_short(weight), GRAMS[weight], 1),
        Measure.MONEY: SheetUnit(summary.garden.rules.currency, 1.0, 2, cents=True),
        Measure.VOLUME: SheetUnit(unit_short("gal" if us else "L"), LITRES_PER_GALLON if us else 1.0, 0),
    }


@dataclass(frozen=True)
class Writer:
    """A summary, the page it is written on, and its units."""

    summary: Summary
    page: Page
    measures: Mapping[Measure, SheetUnit]

    @classmethod
    def of(cls, summary: Summary, page: Page) -> Writer:
        return cls(summary, page, units_of(summary))

    @property
    def units(self) -> str:
        """The garden's units, "us" or "metric"."""
        return self.summary.garden.units

    def weeks(self, value: Callable[[Logged], float | None], unit: SheetUnit, *, heading: str) -> None:
        """What logs add up to week by week, drawn, with its numbers."""
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


def day_text(day: date | None, period: Period) -> str:
    """A day of the period, with its year where it is not the first one's; nothing for none."""
    return "" if day is None else short_day(day, period.first.year)


def count_text(number: int | None) -> str:
    """A count; nothing where nobody wrote it down, and 0 where they wrote that."""
    return "" if number is None else number_text(number)
