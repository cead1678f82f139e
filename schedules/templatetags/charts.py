"""Charts in a page: each comes narrow and wide, and the stylesheet shows the one that fits."""

from __future__ import annotations

from collections.abc import Callable
from functools import cache
from typing import TYPE_CHECKING, Any

from django import template

from plots.markup import Svg
from schedules.reports.season import FrostChart, SeasonStrip

if TYPE_CHECKING:
    from reportlab.graphics.shapes import Drawing

    from schedules.reports.year_glance import YearGlance

register = template.Library()

NARROW, WIDE = 360, 760


@register.inclusion_tag("schedules/_chart.html", takes_context=True)
def season_strip(context: dict[str, Any], strip: SeasonStrip, title: str, desc: str = "") -> dict[str, Any]:
    """The season's marks on a ruled strip."""
    from schedules.reports.season_strip import season_strip as draw  # lazy: reportlab

    return _variants(context, lambda width: draw(strip, width), title, desc)


@register.inclusion_tag("schedules/_chart.html", takes_context=True)
def frost_chart(context: dict[str, Any], chart: FrostChart, title: str, desc: str = "") -> dict[str, Any]:
    """The risk of a freeze through one side of the season."""
    from schedules.reports.frost_chart import frost_chart as draw  # lazy: reportlab

    return _variants(context, lambda width: draw(chart, width), title, desc)


@register.inclusion_tag("schedules/_chart.html", takes_context=True)
def year_glance(context: dict[str, Any], glance: YearGlance, title: str, desc: str = "") -> dict[str, Any]:
    """What was done in a year, by day and kind of work."""
    from schedules.reports.year_glance import year_glance as draw  # lazy: reportlab

    return _variants(context, lambda width: draw(glance, width), title, desc)


@register.inclusion_tag("schedules/_marks.html")
def marks_legend(strip: SeasonStrip) -> dict[str, Any]:
    """The key to the strip's marks, each beside its word, and to the frost behind them where there is any."""
    from schedules.reports import season_strip, svg  # lazy: reportlab

    key = season_strip.key_to_marks(strip)
    return {"marks": [(svg.to_svg(drawing, title=""), word) for drawing, word in key]}


@register.simple_tag
def mark(operation: str) -> str:
    """The mark of one operation, to stand beside its word."""
    return _mark(str(operation))


@cache
def _mark(operation: str) -> str:
    from schedules.reports import season_strip, svg  # lazy: reportlab

    return svg.to_svg(season_strip.small_mark(operation), title="", variant="mark")


def _variants(
    context: dict[str, Any], draw: Callable[[float], Drawing], title: str, desc: str
) -> dict[str, Any]:
    return {"drawings": drawn(context, draw, title, desc)}


def drawn(context: dict[str, Any], draw: Callable[[float], Drawing], title: str, desc: str = "") -> list[Svg]:
    """The drawing narrow and wide; the stylesheet shows the one that fits."""
    from schedules.reports import svg  # lazy: reportlab

    # Ids must be unique on the page, whatever else is drawn there.
    count = context.render_context.get("charts", 0) + 1
    context.render_context["charts"] = count
    return [
        svg.to_svg(draw(width), title=title, desc=desc, key=f"chart{count}-{name}", variant=name)
        for name, width in (("narrow", NARROW), ("wide", WIDE))
    ]
