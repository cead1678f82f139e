"""Sentences for what reading a station file found."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from datetime import date
from typing import Any

from django.utils.formats import date_format, number_format
from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from plots.wording import number_text
from schedules.stations import Fault, Finding, Run, StationFormat

Values = Mapping[str, Any]


def layout_name(layout: StationFormat | str) -> str:
    """What a layout is called on a page."""
    return {
        StationFormat.GHCN_CSV: _("GHCN-Daily, CSV with one line per day"),
        StationFormat.GHCN_LONG: _("GHCN-Daily, CSV with one line per value"),
        StationFormat.GHCN_DLY: _("GHCN-Daily, fixed columns (.dly)"),
        StationFormat.PLAIN: _("plain CSV with a unit row"),
    }[StationFormat(layout)]


def finding_sentence(finding: Finding) -> str:
    """One finding as a sentence, led by its line: "Line 12: …"."""
    text = _SENTENCES[finding.fault](finding.values)
    if finding.line is None:
        return text
    return _("Line %(line)s: %(text)s") % {"line": finding.line, "text": text}


def run_sentence(run: Run) -> str:
    """A stretch of days with one minimum, as a sentence."""
    return _("%(first)s to %(last)s: %(days)s days in a row with a minimum of %(temperature)s.") % {
        "first": day_text(run.first_day),
        "last": day_text(run.last_day),
        "days": run.days,
        "temperature": _both_scales(run.tmin_c),
    }


def day_text(day: date) -> str:
    """A day with its year."""
    return date_format(day, "DATE_FORMAT")


def _both_scales(celsius: float) -> str:
    return _("%(celsius)s °C (%(fahrenheit)s °F)") % {
        "celsius": number_text(round(celsius, 1)),
        "fahrenheit": number_text(round(celsius * 1.8 + 32)),
    }


def _because(values: Values, text: str) -> str:
    """A refusal with the line that shows its reason; that line's number leads the whole sentence already."""
    because = values.get("because")
    if not isinstance(because, Finding):
        return text
    return f"{_SENTENCES[because.fault](because.values)} {text}"


def _bad_date(values: Values) -> str:
    return _("“%(text)s” is not a date with the year first, such as 2024-05-09.") % values


def _future_day(values: Values) -> str:
    return _("%(day)s has not been yet.") % {"day": day_text(values["day"])}


def _bad_number(values: Values) -> str:
    return _("“%(text)s” under %(column)s is not a number; leave a missing value empty.") % values


def _impossible_value(values: Values) -> str:
    return _("%(text)s under %(column)s cannot be a day's value in the unit that the file declares.") % values


def _duplicate_day(values: Values) -> str:
    return _("%(day)s stands on line %(first_line)s already, with another value.") % {
        "day": day_text(values["day"]),
        "first_line": values["first_line"],
    }


def _short_line(values: Values) -> str:
    return _("the line is cut short: %(columns)s of %(expected)s columns.") % values


def _min_above_max(values: Values) -> str:
    return _("on %(day)s the minimum, %(low)s, is above the maximum, %(high)s; both are kept.") % {
        "day": day_text(values["day"]),
        "low": _both_scales(values["tmin_c"]),
        "high": _both_scales(values["tmax_c"]),
    }


def _not_text(_values: Values) -> str:
    return _("This is not a text file. If it is a spreadsheet, save the sheet as CSV and choose that file.")


def _web_page(_values: Values) -> str:
    return _("This is a web page, not the station's file. Follow its download link and choose what comes.")


def _empty(_values: Values) -> str:
    return _("The file is empty.")


def _broken_archive(_values: Values) -> str:
    return _("The compressed file is damaged or was not downloaded to its end. Download it again.")


def _broken_line(_values: Values) -> str:
    return _("The file cannot be split into columns; a quotation mark may open and never close.")


def _too_large(values: Values) -> str:
    return _("The file is larger than %(megabytes)s MB. Choose the file of one station.") % values


def _unknown_layout(values: Values) -> str:
    return (
        _(
            "“%(text)s” is not the start of a station file. It may be a GHCN-Daily file, CSV or .dly, or a"
            " CSV with the header date,tmin,tmax,precip and a row of units under it."
        )
        % values
    )


def _no_unit_row(_values: Values) -> str:
    return _(
        "the units are not stated, and they are never guessed. Put a row of units under the header, such as"
        " ,C,C,mm or ,F,F,in."
    )


def _unknown_unit(values: Values) -> str:
    if not values["unit"]:
        return _("the unit row leaves %(column)s without a unit; write C, F or K, and mm or in.") % values
    return (
        _("“%(unit)s” is no unit for %(column)s; write C, F, K or tenths C, and mm, in or tenths mm.")
        % values
    )


def _no_minimum_column(values: Values) -> str:
    return (
        _("no column holds the day's minimum temperature (tmin); the columns are: %(columns)s. Choose it when"
          " you download the file.") % values
    )  # fmt: skip


def _several_stations(values: Values) -> str:
    return _("the file holds several stations: %(first)s and %(second)s. Choose the file of one.") % values


def _not_whole_tenths(values: Values) -> str:
    return (
        _(
            "%(text)s under %(column)s is not a whole number of tenths, which GHCN-Daily's column names"
            " promise. Download the GHCN-Daily file itself, or rename the columns date,tmin,tmax,precip and"
            " put a row of units under them."
        )
        % values
    )


def _never_warm(values: Values) -> str:
    temperature = _both_scales(values["celsius"])
    warmest = (
        _("read as the file declares it, the warmest day on record would be %(temperature)s.")
        if values["maximum"]
        else _("read as the file declares it, the warmest night on record would be %(temperature)s.")
    ) % {"temperature": temperature}
    return (
        warmest
        + " "
        + _(
            "Whole degrees under GHCN-Daily's names, which promise tenths of °C, come out like this."
            " Download the GHCN-Daily file itself, or rename the columns date,tmin,tmax,precip and state the"
            " units under them."
        )
    )


def _impossible_values(values: Values) -> str:
    count = values["count"]
    text = ngettext(
        "%(count)s value is impossible, too many for a slip of the pen: check the unit row.",
        "%(count)s values are impossible, too many for slips of the pen: check the unit row.",
        count,
    ) % {"count": number_format(count)}
    return _because(values, text)


def _columns_swapped(values: Values) -> str:
    return _(
        "the minimum is above the maximum on %(count)s of %(days)s days: the two columns look swapped."
    ) % {"count": number_format(values["count"]), "days": number_format(values["days"])}


def _mostly_unreadable(values: Values) -> str:
    text = ngettext(
        "%(count)s line cannot be used, too many for the file to be trusted.",
        "%(count)s lines cannot be used, too many for the file to be trusted.",
        values["count"],
    ) % {"count": number_format(values["count"])}
    return _because(values, text)


def _no_minimums(values: Values) -> str:
    return _because(values, _("No day of the file has a minimum temperature that can be used."))


def _unknown_logger(values: Values) -> str:
    return (
        _(
            "“%(text)s”: no line near the start of the file names a column of times and one of temperatures,"
            " such as: Date Time, Temperature (°C)."
        )
        % values
    )


def _no_logger_unit(values: Values) -> str:
    return (
        _(
            "the column “%(column)s” does not say whether it holds °C or °F. Write (°C) or (°F) after its"
            " name."
        )
        % values
    )


def _date_order_open(values: Values) -> str:
    return _("“%(text)s” may begin with the month or with the day. Say below which it is.") % values


def _date_order_wrong(values: Values) -> str:
    if "text" in values:
        return (
            _("“%(text)s” has no such month: the file writes its dates the other way. Say so below.") % values
        )
    return _("Read so, its days lie months apart: the file writes its dates the other way. Say so below.")


_SENTENCES: dict[Fault, Callable[[Values], str]] = {
    Fault.BAD_DATE: _bad_date,
    Fault.FUTURE_DAY: _future_day,
    Fault.BAD_NUMBER: _bad_number,
    Fault.IMPOSSIBLE_VALUE: _impossible_value,
    Fault.DUPLICATE_DAY: _duplicate_day,
    Fault.SHORT_LINE: _short_line,
    Fault.MIN_ABOVE_MAX: _min_above_max,
    Fault.NOT_TEXT: _not_text,
    Fault.WEB_PAGE: _web_page,
    Fault.EMPTY: _empty,
    Fault.BROKEN_ARCHIVE: _broken_archive,
    Fault.BROKEN_LINE: _broken_line,
    Fault.TOO_LARGE: _too_large,
    Fault.UNKNOWN_LAYOUT: _unknown_layout,
    Fault.NO_UNIT_ROW: _no_unit_row,
    Fault.UNKNOWN_UNIT: _unknown_unit,
    Fault.NO_MINIMUM_COLUMN: _no_minimum_column,
    Fault.SEVERAL_STATIONS: _several_stations,
    Fault.NOT_WHOLE_TENTHS: _not_whole_tenths,
    Fault.NEVER_WARM: _never_warm,
    Fault.IMPOSSIBLE_VALUES: _impossible_values,
    Fault.COLUMNS_SWAPPED: _columns_swapped,
    Fault.MOSTLY_UNREADABLE: _mostly_unreadable,
    Fault.NO_MINIMUMS: _no_minimums,
    Fault.UNKNOWN_LOGGER: _unknown_logger,
    Fault.NO_LOGGER_UNIT: _no_logger_unit,
    Fault.DATE_ORDER_OPEN: _date_order_open,
    Fault.DATE_ORDER_WRONG: _date_order_wrong,
}
