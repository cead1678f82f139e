"""What logs add up to: a plot's year at a glance, and the figures of all plots that somebody sees."""

from __future__ import annotations

from collections.abc import Sequence

from django.http import HttpRequest, HttpResponse
from django.utils.translation import gettext as _
from django.views.decorators.http import require_safe

from crops.wording.names import crop_label
from plots.access import garden_to_see, may_run, oversees, plot_to_see
from plots.models import Garden
from plots.powers import Power
from plots.spelling import name_key, natural_key
from plots.views.answers import list_page
from schedules.access import known_people, logs_to_read
from schedules.amounts import depth_mm
from schedules.figures import Logged, Totals, days_by_work, gifts, grouped, months, share_that_logged, totals
from schedules.queries.diary import (
    crops_by_key,
    hours_done,
    people_by_key,
    plots_by_key,
    work_logged,
)
from schedules.service.measures import area_of
from schedules.views.figure_lists import BY, GroupRow, figures_list, months_list
from schedules.views.log_years import LogYear, log_year
from schedules.wording.figures import glance_of, month_text
from schedules.work import Work


@require_safe
def glance(request: HttpRequest, slug: str, pk: int) -> HttpResponse:
    """A plot's year: every kind of work on a strip of days, its sums, and what was picked of which crop."""
    garden = garden_to_see(request.user, slug)
    plot = plot_to_see(request.user, garden, pk)
    readable = logs_to_read(request.user, garden).filter(plot=plot)
    year = log_year(request, garden, readable)
    logs = work_logged(readable.filter(day__range=year.span), known_people(request.user, garden))
    sums, days, area = totals(logs), days_by_work(logs), area_of(plot)
    context = {
        "garden": garden,
        "plot": plot,
        "year": year,
        "totals": sums,
        "depth_mm": depth_mm(sums.litres, area) if area and sums.litres else None,
        "glance": glance_of(days, *year.span, garden.today()),
        "picked": _picked(logs),
        "gifts": gifts(logs),
        "works": list(days),
    }
    listing = months_list(garden, days)
    return list_page(request, "schedules/glance.html", listing, months(logs, *year.span), **context)


def _picked(logs: Sequence[Logged]) -> list[GroupRow]:
    """The pickings by crop, in the order of the crops' names."""
    return _crops([one for one in logs if one.work == Work.PICK])


@require_safe
def figures(request: HttpRequest, slug: str) -> HttpResponse:
    """The year's sums by plot, crop, month or member, of the plots that the person sees."""
    garden = garden_to_see(request.user, slug)
    readable = logs_to_read(request.user, garden)
    year = log_year(request, garden, readable)
    logs = work_logged(readable.filter(day__range=year.span), known_people(request.user, garden))
    sees_all = oversees(request.user, garden)
    if sees_all:
        logs = _with_all_hours(request, garden, logs, year)
    ways = [way for way in BY if way != "member" or may_run(request.user, garden, Power.PEOPLE)]
    by = request.GET.get("by", "")
    by = by if by in ways else ways[0]
    listing = figures_list(garden, by)
    context = {
        "garden": garden,
        "year": year,
        "by": by,
        "columns": [column for column in listing.columns[1:] if column.on_page],
        "ways": ways,
        "totals": totals(logs),
        "gifts": gifts(logs),
        "share": share_that_logged(logs, _gardened(garden)) if sees_all else None,
    }
    return list_page(request, "schedules/figures.html", listing, _rows(garden, logs, by), **context)


def _with_all_hours(
    request: HttpRequest, garden: Garden, logs: Sequence[Logged], year: LogYear
) -> list[Logged]:
    """The hours kept anywhere, of workdays and guests, too; none for somebody who may not see all of them."""
    hours = hours_done(garden, *year.span) if may_run(request.user, garden, Power.WORKDAYS) else []
    return [one for one in logs if one.work != Work.HOURS] + hours


def _gardened(garden: Garden) -> list[int]:
    """The plots that have not been given up."""
    return list(garden.plots.filter(retired_on__isnull=True).values_list("pk", flat=True))


def _rows(garden: Garden, logs: Sequence[Logged], by: str) -> list[GroupRow]:
    if by == "crop":
        return _picked(logs)
    if by == "month":
        groups = sorted(grouped(logs, lambda one: one.month).items())
        return [GroupRow(month_text(first), sums, order=first) for first, sums in groups]
    if by == "member":
        return _members(grouped(logs, lambda one: one.person))
    return _plots(garden, grouped(logs, lambda one: one.plot))


def _crops(logs: Sequence[Logged]) -> list[GroupRow]:
    groups = grouped(logs, lambda one: one.crop)
    known = crops_by_key(groups)
    rows = [
        GroupRow(crop_label(known[pk]) if pk in known else _("no crop named"), sums, pk=pk)
        for pk, sums in groups.items()
    ]
    return _in_order(rows)


def _members(groups: dict[int | None, Totals]) -> list[GroupRow]:
    known = people_by_key(groups)
    rows = [
        GroupRow(known[pk].name if pk in known else _("guests"), sums, pk=pk) for pk, sums in groups.items()
    ]
    return _in_order(rows)


def _plots(garden: Garden, groups: dict[int | None, Totals]) -> list[GroupRow]:
    known = plots_by_key(garden, groups)
    rows = []
    for pk, sums in groups.items():
        area = area_of(known.get(pk)) if pk else None
        depth = depth_mm(sums.litres, area) if area and sums.litres else None
        rows.append(GroupRow(known[pk].label if pk else _("at no plot"), sums, pk=pk, depth_mm=depth))
    return _in_order(rows)


def _in_order(rows: list[GroupRow]) -> list[GroupRow]:
    """By name, what has none last."""
    return sorted(rows, key=lambda row: (row.pk is None, natural_key(name_key(row.name))))
