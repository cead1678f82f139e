"""The plantings that logs are about: found by their crop, held, and told with what else is logged of them."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from crops.models import Planting
from schedules.anchors import TELLING
from schedules.models import WorkLog
from schedules.plausible import Done, Sown, cleared_with_plot
from schedules.queries.logs import plantings_to_log


def find_plantings(rows: Sequence[WorkLog]) -> None:
    """Where a crop was named for several plots, finds which planting of each is meant, if just one can be."""
    first = rows[0]
    if len(rows) < 2 or first.crop is None or first.planting is not None or first.work not in TELLING:
        return
    known: dict[int, list[Planting]] = {}
    for planting in plantings_to_log(first.garden, [row.plot.pk for row in rows if row.plot]):
        if planting.crop_id == first.crop.pk and planting.year <= first.day.year:
            known.setdefault(planting.plot_id, []).append(planting)
    for row in rows:
        here = known.get(row.plot.pk, []) if row.plot else []
        newest = [one for one in here if one.year == here[0].year]
        if len(newest) == 1:
            row.planting, row.crop = newest[0], None


def sown_at(rows: Sequence[WorkLog]) -> dict[int, Sown]:
    """The plantings that logs are about, with what else is known of them; holds them until all is kept."""
    about = {row.planting_id: row.plot_id for row in rows if row.planting_id}
    if not about:
        return {}
    held = Planting.objects.select_for_update(of=("self",)).select_related("crop").order_by("pk")
    plantings = list(held.filter(pk__in=about))
    others = WorkLog.objects.standing().exclude(pk__in=[row.pk for row in rows if row.pk])
    done: dict[int, list[Done]] = {}
    told = others.filter(planting__in=about).values_list("planting", "work", "day", "succession")
    for planting, *values in told:
        done.setdefault(planting, []).append(Done(*values))
    cleared: dict[int, list[date]] = {}
    for plot, day in others.of_whole_plots().filter(plot__in=about.values()).values_list("plot", "day"):
        cleared.setdefault(plot, []).append(day)
    found = {}
    for one in plantings:
        own = done.get(one.pk, [])
        own = own + cleared_with_plot(own, cleared.get(one.plot_id, []))
        found[one.pk] = Sown(one.year, one.successions, own, one.crop.perennial)
    return found
