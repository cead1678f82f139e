"""The frost-risk page in words: what its sentences, charts and tables say."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from django.utils.dates import MONTHS
from django.utils.formats import date_format
from django.utils.translation import gettext as _
from django.utils.translation import ngettext, pgettext

from plots.wording import number_text
from schedules.climate import Basis, Climate
from schedules.frost import Freeze, FrostRecord, Outcome, RecordCurve
from schedules.reports.days import short_day
from schedules.reports.season import FrostChart
from schedules.risk import CHART_YEAR, Asked, drawn_curves
from schedules.seasons import Side, from_day_number
from schedules.wording.climate import threshold_text

FREEZING_C = 0.0
_SHORT, _HALF, _LONG = 90, 50, 10  # the chances, in percent, at which a season's length is told
_FEW_YEARS_NAMED = 12
_FEW_SEASONS = 10  # common practice, no source


@dataclass(frozen=True, slots=True)
class MonthRow:
    """The middle of a month: normal air and soil temperature in °C."""

    name: str
    air_c: float
    soil_c: float


def month_day(day: date) -> str:
    """A date without its year."""
    return date_format(day, "MONTH_DAY_FORMAT")


def lede_text(climate: Climate, units: str) -> str:
    """The page in a sentence or two: the middle and the rare date of each side, at freezing."""
    sentences = [text for side in Side if (text := _side_text(climate, side, units))]
    if sentences:
        return " ".join([*sentences, *_few_seasons_text(climate)])
    if climate.risk(Side.LAST, FREEZING_C) or climate.risk(Side.FIRST, FREEZING_C):
        return _("Freezes are so rare here that no date can be named for them.")
    if climate.basis is Basis.RECORD:
        return _(
            "The record has too few whole seasons to name frost dates: three springs or autumns are needed."
        )
    return _("Nothing is known about freezes at %(temperature)s.") % {
        "temperature": threshold_text(FREEZING_C, units)
    }


def _few_seasons_text(climate: Climate) -> list[str]:
    """A caution where so few seasons count that rare dates are hardly more than guesses."""
    curves = [climate.risk(side, FREEZING_C) for side in Side]
    seasons = min((curve.used for curve in curves if isinstance(curve, RecordCurve)), default=_FEW_SEASONS)
    if seasons >= _FEW_SEASONS:
        return []
    text = _(
        "The record has only %(count)s seasons that count: what comes in 1 year of 10 is a guess in so few, "
        "and careful dates are no safer than it. A longer record near by tells more."
    )
    return [text % {"count": number_text(seasons)}]


def asked_text(asked: Asked, basis: Basis, units: str) -> str:
    """How often a freeze comes on or after, or on or before, the asked date."""
    values = {
        "temperature": threshold_text(asked.celsius, units),
        "date": month_day(asked.day),
        "count": asked.count,
        "used": asked.used,
        "percent": asked.percent,
    }
    if basis is Basis.RECORD:
        if asked.side is Side.LAST:
            text = _("A freeze (%(temperature)s or colder) on or after %(date)s came in %(count)s of"
                     " %(used)s years, %(percent)s %%.")  # fmt: skip
        else:
            text = _("A freeze (%(temperature)s or colder) on or before %(date)s came in %(count)s of"
                     " %(used)s years, %(percent)s %%.")  # fmt: skip
    elif asked.side is Side.LAST:
        text = _("A freeze (%(temperature)s or colder) on or after %(date)s comes in about %(percent)s of"
                 " 100 years.")  # fmt: skip
    else:
        text = _("A freeze (%(temperature)s or colder) on or before %(date)s comes in about %(percent)s of"
                 " 100 years.")  # fmt: skip
    return text % values


def freeze_text(freeze: Freeze | None, label_year: int) -> str:
    """A year's own freeze for a table; its year stands beside it where that is not the label."""
    if freeze is None:
        return "–"
    if isinstance(freeze, date):
        return short_day(freeze, label_year)
    return _("none") if freeze is Outcome.NONE else pgettext("a year whose days are missing", "missing")


def side_name(side: Side) -> str:
    """What one side is called over its chart and table."""
    return _("Last freeze of spring") if side is Side.LAST else _("First freeze of autumn")


def chart_of(
    climate: Climate,
    side: Side,
    names: Sequence[tuple[float, str]],
    *,
    asked: Asked | None,
    marker: date | None,
) -> FrostChart:
    """One side's curves, each (temperature, name); `marker` is drawn where the asked date is of this side."""
    falling = side is Side.LAST
    on_side = asked if asked is not None and asked.side is side else None
    return FrostChart(
        heading=_("Years in 100 with a freeze on or after the date")
        if falling
        else _("Years in 100 with a freeze on or before the date"),
        curves=drawn_curves(climate, side, names),
        falling=falling,
        marker=marker if on_side else None,
        marker_text=month_day(on_side.day) if on_side else "",
    )


def length_texts(climate: Climate, units: str) -> list[str]:
    """How long the season between freezes lasts; only a record knows."""
    if climate.freeze_free is None:
        return []
    lengths = climate.freeze_free(FREEZING_C)
    named = [(percent, lengths.reached_in(percent)) for percent in (_SHORT, _HALF, _LONG)]
    return [
        ngettext(
            "%(days)s days or more in %(years)s year of 10",
            "%(days)s days or more in %(years)s years of 10",
            percent // 10,
        )
        % {"days": days, "years": percent // 10}
        for percent, days in named
        if days is not None
    ]


def left_out_texts(record: FrostRecord) -> list[str]:
    """Which seasons are left out for missing days, at freezing."""
    texts = []
    for side, spring in ((Side.LAST, True), (Side.FIRST, False)):
        years = record.curve(side, FREEZING_C).left_out
        if not years:
            continue
        named = ", ".join(str(year) for year in years[-_FEW_YEARS_NAMED:])
        if len(years) > _FEW_YEARS_NAMED:
            named = _("%(count)s, the latest %(years)s") % {"count": len(years), "years": named}
        text = _("Springs left out: %(years)s.") if spring else _("Autumns left out: %(years)s.")
        texts.append(text % {"years": named})
    return texts


def month_rows(climate: Climate) -> list[MonthRow]:
    """Normal air and soil at the middle of each month, or nothing without normals."""
    if climate.air_c is None or climate.soil_c is None:
        return []
    indices = [date(CHART_YEAR, month, 15).timetuple().tm_yday - 1 for month in range(1, 13)]
    return [
        MonthRow(str(MONTHS[month]), climate.air_c[index], climate.soil_c[index])
        for month, index in enumerate(indices, start=1)
    ]


def _side_text(climate: Climate, side: Side, units: str) -> str:
    curve = climate.risk(side, FREEZING_C)
    days = [None if curve is None else curve.day(percent) for percent in (50, 10)]
    if days[0] is None or days[1] is None:
        return ""
    values = {
        "temperature": threshold_text(FREEZING_C, units),
        "half": month_day(from_day_number(days[0], CHART_YEAR)),
        "rare": month_day(from_day_number(days[1], CHART_YEAR)),
    }
    if side is Side.LAST:
        return _("In half of the years the last freeze of spring (%(temperature)s) comes on or after"
                 " %(half)s, in 1 year of 10 on or after %(rare)s.") % values  # fmt: skip
    return _("In half of the years the first freeze of autumn comes on or before %(half)s, in 1 year of 10"
             " on or before %(rare)s.") % values  # fmt: skip
