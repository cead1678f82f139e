"""A member's planting calendar on paper: one strip, month by month, then crop by crop with reasons."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator
from dataclasses import replace
from datetime import date
from itertools import groupby

from django.utils.formats import date_format
from django.utils.translation import gettext
from reportlab.graphics.shapes import Drawing, Group
from reportlab.lib.styles import ParagraphStyle
from reportlab.platypus import CondPageBreak, Flowable, Paragraph, Spacer, Table

from schedules.reports import fonts, ink, season_strip, sheet
from schedules.reports.calendar_rows import CalendarRow, CalendarSheet
from schedules.reports.days import short_day
from schedules.reports.ruler import TEXT
from schedules.reports.season import SeasonStrip, month_start

# A strip is drawn wider than the page and scaled down to 10 pt lettering.
_STRIP_SCALE = 0.67
_DATE, _MARK, _SPAN, _DATE_WITH_YEAR = 62.0, 36.0, 124.0, 74.0
_TITLES = 100.0


Style = tuple[object, ...]


def member_calendar_pdf(calendar: CalendarSheet) -> bytes:
    """The calendar as a PDF on the garden's paper.

    Names that the typeface cannot write are spelled out in brackets, and the last page says so.
    """
    fonts.register()
    setter = sheet.Setter()
    width, height = sheet.room_on(calendar.paper)
    story: list[Flowable] = [
        setter.paragraph(calendar.title, sheet.TITLE),
        setter.paragraph(calendar.subtitle, sheet.LEDE),
    ]
    if calendar.rows:
        story += _strips(replace(calendar.strip, today=None), width, height - _TITLES)
        story += _by_month(calendar, setter, width)
        story += _by_crop(calendar, setter, width)
    else:
        story.append(setter.paragraph(gettext("Nothing is planned for this plot yet.")))
    if setter.missing:
        story.append(Spacer(0, 12))
        story.append(
            setter.paragraph(
                gettext(
                    "Words in square brackets stand for letters this sheet cannot print; "
                    "the page on screen shows them."
                ),
                sheet.REASON,
            )
        )
    foot = sheet.Foot(
        garden=calendar.garden, title=calendar.title, record=calendar.record, printed_on=calendar.printed_on
    )
    return sheet.to_pdf(story, paper=calendar.paper, language=calendar.language, foot=foot)


def _strips(strip: SeasonStrip, width: float, height: float) -> Iterator[Flowable]:
    """The strip, broken between rows where one page cannot hold it, and the key to its marks."""
    units = width / _STRIP_SCALE
    for part in season_strip.pages(strip, units, height / _STRIP_SCALE):
        drawing = season_strip.season_strip(part, units)
        drawing.renderScale = _STRIP_SCALE
        yield drawing
        yield Spacer(0, 6)
    yield _key(strip, units)


def _key(strip: SeasonStrip, units: float) -> Drawing:
    """The marks and their words in as few lines as the page's width allows."""
    size, gap, line = TEXT, 20.0, 24.0
    places: list[tuple[float, int]] = []
    x, lines = 0.0, 0
    entries = season_strip.key_to_marks(strip)
    for mark, word in entries:
        run = mark.width + 6 + fonts.width_of(word, size) + gap
        if x and x + run - gap > units:
            x, lines = 0.0, lines + 1
        places.append((x, lines))
        x += run
    drawing = Drawing(units, (lines + 1) * line)
    for (mark, word), (left, row) in zip(entries, places, strict=True):
        base = drawing.height - (row + 1) * line + 3
        drawing.add(Group(*mark.contents, transform=(1, 0, 0, 1, left, base)))
        drawing.add(ink.words(left + mark.width + 6, base + 4, word, size))
    drawing.renderScale = _STRIP_SCALE
    return drawing


def _by_month(calendar: CalendarSheet, setter: sheet.Setter, width: float) -> Iterator[Flowable]:
    """Every window under the month of its best day, in order."""
    yield from _heading(gettext("Month by month"), setter)
    dated = sorted(
        ((row.window, row) for row in calendar.rows if row.window is not None),
        key=lambda pair: (pair[0][1], pair[1].crop),
    )
    this_year = calendar.strip.first.year
    free = width - _DATE - _MARK - _SPAN
    columns = [_DATE, _MARK, free * 0.42, free * 0.58, _SPAN]
    for month, entries in groupby(dated, key=lambda pair: month_start(pair[0][1])):
        name = date_format(month, "F" if month.year == this_year else "F Y")
        lines = [[setter.paragraph(name, sheet.LABEL), "", "", "", ""]]
        lines += [_month_line(row, window, setter) for window, row in entries]
        yield _table(
            lines, columns, [("SPAN", (0, 0), (-1, 0)), ("LINEBELOW", (0, 1), (-1, -1), 0.4, ink.RULE)]
        )
        yield Spacer(0, 9)


def _month_line(row: CalendarRow, window: tuple[date, date, date], setter: sheet.Setter) -> list[object]:
    earliest, best, latest = window
    return [
        _bold(short_day(best, best.year)),
        _small_mark(row.operation),
        setter.paragraph(_what(row)),
        setter.paragraph(row.crop),
        gettext("done") if row.done else f"{short_day(earliest, best.year)} – {short_day(latest, best.year)}",
    ]


def _by_crop(calendar: CalendarSheet, setter: sheet.Setter, width: float) -> Iterator[Flowable]:
    """Each crop's windows in full, each with its reasons in small print."""
    yield from _heading(gettext("Crop by crop, and why"), setter)
    columns = [_MARK, width - _MARK - 3 * _DATE_WITH_YEAR, *[_DATE_WITH_YEAR] * 3]
    year = calendar.strip.first.year
    titles = (gettext("earliest"), gettext("best"), gettext("latest"))
    for crop, rows in groupby(calendar.rows, key=lambda row: row.crop):
        head = [setter.paragraph(title, _QUIET) for title in titles]
        lines: list[list[object]] = [[setter.paragraph(crop, sheet.LABEL), "", *head]]
        style: list[Style] = [("SPAN", (0, 0), (1, 0))]
        for row in rows:
            lines.append(_window_line(row, year, setter))
            style.append(("NOSPLIT", (0, len(lines) - 1), (0, len(lines))))
            # A row cannot be broken over a page, so very long reasons take several.
            for part in textwrap.wrap(" ".join(row.reasons), 900, break_on_hyphens=False):
                style.append(("SPAN", (1, len(lines)), (-1, len(lines))))
                lines.append(["", setter.paragraph(part, sheet.REASON), "", "", ""])
        yield _table(lines, columns, style)
        yield Spacer(0, 9)


def _window_line(row: CalendarRow, year: int, setter: sheet.Setter) -> list[object]:
    dates: list[object]
    if row.window is None:
        dates = [setter.paragraph(gettext("no window")), "", ""]
    else:
        earliest, best, latest = (short_day(day, year) for day in row.window)
        dates = [gettext("done"), _bold(best), ""] if row.done else [earliest, _bold(best), latest]
    return [_small_mark(row.operation), setter.paragraph(_what(row)), *dates]


def _heading(text: str, setter: sheet.Setter) -> Iterator[Flowable]:
    """A heading with room under it for the beginning of what it heads."""
    yield CondPageBreak(120)
    yield setter.paragraph(text, sheet.HEADING)


def _what(row: CalendarRow) -> str:
    return f"{row.operation_name}, {row.detail}" if row.detail else row.operation_name


def _table(lines: list[list[object]], columns: list[float], style: list[Style]) -> Table:
    """Lines under a heading that comes again where a page ends between them."""
    common: list[Style] = [
        ("FONT", (0, 0), (-1, -1), fonts.BODY, 11, 15),
        ("TEXTCOLOR", (0, 0), (-1, -1), ink.INK),
        ("VALIGN", (0, 0), (-1, -1), "TOP"),
        ("LEFTPADDING", (0, 0), (-1, -1), 0),
        ("RIGHTPADDING", (0, 0), (-1, -1), 6),
        ("TOPPADDING", (0, 0), (-1, -1), 2),
        ("BOTTOMPADDING", (0, 0), (-1, -1), 2.5),
        ("LINEBELOW", (0, 0), (-1, 0), 0.8, ink.INK),
        ("NOSPLIT", (0, 0), (0, 1)),
    ]
    return Table(lines, colWidths=columns, style=[*common, *style], hAlign="LEFT", repeatRows=1)


def _small_mark(operation: str) -> Drawing:
    drawing = season_strip.small_mark(operation)
    drawing.renderScale = 0.62
    return drawing


def _bold(text: str) -> Paragraph:
    return Paragraph(text, _BEST)


_QUIET = ParagraphStyle("quiet", sheet.BODY, fontSize=sheet.SMALL, textColor=ink.QUIET)
_BEST = ParagraphStyle("best", sheet.BODY, fontName=fonts.BOLD)
