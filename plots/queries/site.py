"""The site map with all that its drawing and its table show, read in a bounded number of queries."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Sequence
from dataclasses import dataclass, replace

from django.db.models import Exists, OuterRef, QuerySet
from django.urls import reverse
from django.utils.translation import gettext as _

from plots.models import Assignment, Garden, Plot, PlotKind, Site, SiteFeature, WalkBy
from plots.quantities import METRES_PER_FOOT, Units
from plots.sitemap.boxes import Box, extent, nearest, outside, overlaps
from plots.sitemap.drawing import FeatureDrawn, Outline, PlotDrawn, SiteDrawn, round_length, site_size
from plots.sitemap.rows import Labels, Rows, letters, next_first, row_paths, row_plots
from plots.sitemap.walk import Stop, rows_of, walk_order
from plots.spelling import natural_key
from plots.wording import site as words


@dataclass(frozen=True, slots=True)
class MapRow:
    """A plot as the table beside the map tells it."""

    plot: Plot
    seen: bool  # whether the reader may open it
    own: bool
    free: bool
    row: str
    corner: str
    water: str
    water_m: float | None  # metres to walk
    marks: str


@dataclass(frozen=True, slots=True)
class SiteMap:
    """The drawing, the rows of its table, what is not on the map, and what does not fit."""

    site: Site
    drawn: SiteDrawn
    rows: Sequence[MapRow]
    features: Sequence[SiteFeature]
    unplaced: Sequence[Plot]
    findings: Sequence[str]
    area_m2: float

    @property
    def is_empty(self) -> bool:
        return not self.drawn.plots and not self.drawn.features


def site_of(garden: Garden) -> Site:
    """The garden's site; one not kept yet where nobody has said anything about it."""
    return Site.objects.filter(garden=garden).first() or Site(garden=garden)


def plot_box(plot: Plot) -> Box | None:
    """Where the plot lies, `None` if it is not on the map."""
    if plot.left_m is None or plot.top_m is None or plot.width_m is None or plot.length_m is None:
        return None
    return Box(plot.left_m, plot.top_m, plot.width_m, plot.length_m, plot.turn_deg)


def feature_box(feature: SiteFeature) -> Box:
    return Box(feature.left_m, feature.top_m, feature.width_m, feature.length_m, feature.turn_deg)


def gardened_plots(garden: Garden) -> QuerySet[Plot]:
    """The plots that are not given up."""
    return garden.plots.filter(retired_on__isnull=True)


def plots_in_walk_order(plots: Iterable[Plot], garden: Garden) -> list[Plot]:
    """The plots as one walks past them from the gate: by the rows of the map, or as the garden has set it."""
    by_key = {plot.pk: plot for plot in plots}
    gate = garden.features.filter(kind="gate").order_by("pk").first()
    order = walk_order(
        [_stop(plot) for plot in by_key.values()],
        start=feature_box(gate).middle if gate else None,
        columns=site_of(garden).walk_by == WalkBy.COLUMNS,
    )
    return [by_key[key] for key in order]


def site_map(garden: Garden, *, seen: Collection[int], own: Collection[int], oversees: bool) -> SiteMap:
    """The map for somebody who may open the plots `seen` and gardens those of `own`.

    Who oversees the garden also finds which plots are free and what does not fit; names of people are never
    on it.
    """
    held = Assignment.objects.standing(garden.today()).filter(plot=OuterRef("pk"))
    plots = sorted(
        gardened_plots(garden).annotate(held=Exists(held)), key=lambda plot: natural_key(plot.label)
    )
    features = list(garden.features.all())
    site = site_of(garden)
    placed = [(plot, box) for plot in plots if (box := plot_box(plot))]
    free = {plot.pk for plot in plots if oversees and plot.is_personal and not plot.held}
    drawn = _drawn(garden, site, placed, features, seen=seen, own=own, free=free)
    return SiteMap(
        site=site,
        drawn=drawn,
        rows=_rows(garden, placed, features, seen=seen, own=own, free=free),
        features=features,
        unplaced=[plot for plot in plots if plot_box(plot) is None],
        findings=findings(site, placed, features) if oversees else [],
        area_m2=sum(box.area for _plot, box in placed),
    )


@dataclass(frozen=True, slots=True)
class RowsLookedAt:
    """Rows that nobody has made yet, drawn among what is there: the new plots are underlined."""

    drawn: SiteDrawn
    labels: Sequence[str]
    findings: Sequence[str]
    area_m2: float

    @property
    def last(self) -> str:
        return self.labels[-1]


def rows_looked_at(
    garden: Garden,
    asked: Rows,
    *,
    kind: str,
    accessible: bool = False,
    bed_height_m: float | None = None,
    with_paths: bool = False,
) -> RowsLookedAt:
    """How the rows would lie among the plots and things that there are."""
    site = site_of(garden)
    features = list(garden.features.all())
    old = [(plot, box) for plot in gardened_plots(garden) if (box := plot_box(plot))]
    laid = row_plots(asked)
    shared = {"kind": kind, "accessible": accessible, "bed_height_m": bed_height_m}
    new = [(Plot(label=plot.label, **shared), plot.box) for plot in laid]
    paths = row_paths(asked) if with_paths else []
    drawn = SiteDrawn(
        [
            *(plot_drawn(plot, box, garden.units) for plot, box in old),
            *(plot_drawn(plot, box, garden.units, own=True) for plot, box in new),
        ],
        [
            *(feature_drawn(thing) for thing in features),
            *(FeatureDrawn(f"path-{number}", "path", "", _("path"), box) for number, box in enumerate(paths)),
        ],
        site.width_m,
        site.length_m,
        site.north_deg,
        words.north_letter(),
    )
    return RowsLookedAt(
        replace(drawn, bar=scale_bar(site_size(drawn)[0], garden.units)),
        [plot.label for plot in laid],
        findings(site, [*old, *new], features),
        sum(plot.box.area for plot in laid),
    )


def next_rows(garden: Garden) -> dict[str, object]:
    """Where further rows would begin: below all that is there, behind the last letter in use."""
    _right, down = extent(boxes_of(garden))
    labels = list(garden.plots.values_list("label", flat=True))
    feet = garden.units == Units.US
    path = 4 * METRES_PER_FOOT if feet else 1.2
    return {
        "rows": 6,
        "per_row": 10,
        "width": 10 * METRES_PER_FOOT if feet else 3.0,
        "depth": 20 * METRES_PER_FOOT if feet else 6.0,
        "gap": 0.0,
        "path": path,
        "left": 0.0,
        "top": round(down + path, 4) if down else 0.0,
        "first": letters(next_first(labels, Labels.LETTERS)),
        "with_paths": True,
    }


def boxes_of(garden: Garden) -> list[Box]:
    """All that lies on the map."""
    plots = [box for plot in gardened_plots(garden) if (box := plot_box(plot))]
    return [*plots, *(feature_box(thing) for thing in garden.features.all())]


def findings(site: Site, placed: Sequence[tuple[Plot, Box]], features: Sequence[SiteFeature]) -> list[str]:
    """What lies on the same ground or beyond the site's edge, in sentences; paths may cross one another."""
    plots = [(_("Plot %(plot)s") % {"plot": plot}, box) for plot, box in placed]
    things = [(_feature_name(thing), feature_box(thing)) for thing in features]
    both = [*plots, *things]
    boxes: list[tuple[int, Box]] = [(place, box) for place, (_name, box) in enumerate(both)]
    shared = [
        words.overlap_text(both[one][0], both[other][0])
        for one, other in overlaps(boxes)
        if one < len(plots)  # two things that are no plots may share ground: a gate in a hedge
    ]
    beyond = [both[place][0] for place in outside(boxes, site.width_m, site.length_m)]
    return [*shared, words.outside_text(beyond)] if beyond else shared


def scale_bar(width_m: float, units: str) -> tuple[float, str]:
    """A round length of about a quarter of the width, and its words."""
    length = round_length(width_m / 4, METRES_PER_FOOT if units == Units.US else 1.0)
    return length, words.scale_text(length, units)


def _drawn(
    garden: Garden,
    site: Site,
    placed: Sequence[tuple[Plot, Box]],
    features: Sequence[SiteFeature],
    *,
    seen: Collection[int],
    own: Collection[int],
    free: Collection[int],
) -> SiteDrawn:
    plots = [
        plot_drawn(
            plot,
            box,
            garden.units,
            own=plot.pk in own,
            free=plot.pk in free,
            address=reverse("plots:plot", args=[garden.slug, plot.pk]) if plot.pk in seen else "",
        )
        for plot, box in placed
    ]
    drawn = SiteDrawn(
        plots,
        [feature_drawn(thing) for thing in features],
        site.width_m,
        site.length_m,
        site.north_deg,
        words.north_letter(),
    )
    return replace(drawn, bar=scale_bar(site_size(drawn)[0], garden.units))


def plot_drawn(
    plot: Plot, box: Box, units: str, *, own: bool = False, free: bool = False, address: str = ""
) -> PlotDrawn:
    name = words.name_text(
        _("Plot %(plot)s") % {"plot": plot.label},
        words.size_text(plot.width_m, plot.length_m, units),
        *marks(plot, own=own, free=free),
    )
    outline = {PlotKind.COMMUNAL: Outline.COMMUNAL, PlotKind.GIVE_AWAY: Outline.GIVE_AWAY}.get(
        PlotKind(plot.kind), Outline.PERSONAL
    )
    return PlotDrawn(f"plot-{plot.pk}", plot.label, name, box, outline, plot.accessible, free, own, address)


def marks(plot: Plot, *, own: bool, free: bool) -> list[str]:
    """What the map's lines and marks say about a plot, in words."""
    said = [
        "" if plot.is_personal else str(plot.get_kind_display()),
        _("accessible") if plot.accessible else "",
        _("yours") if own else "",
        _("free") if free else "",
    ]
    return [word for word in said if word]


def feature_drawn(feature: SiteFeature) -> FeatureDrawn:
    return FeatureDrawn(
        f"feature-{feature.pk}",
        feature.kind,
        feature.label,
        _feature_name(feature),
        feature_box(feature),
        feature.accessible,
    )


def _feature_name(feature: SiteFeature) -> str:
    kind = str(feature.get_kind_display())
    return f"{kind} “{feature.label}”" if feature.label else kind


def _rows(
    garden: Garden,
    placed: Sequence[tuple[Plot, Box]],
    features: Sequence[SiteFeature],
    *,
    seen: Collection[int],
    own: Collection[int],
    free: Collection[int],
) -> list[MapRow]:
    taps = [(thing, feature_box(thing)) for thing in features if thing.kind == "water"]
    rows = rows_of([_stop(plot) for plot, _box in placed])
    where = {
        stop.key: words.row_text(row, place)
        for row, stops in enumerate(rows, start=1)
        for place, stop in enumerate(stops, start=1)
    }
    made = []
    for plot, box in placed:
        tap = nearest(box, taps)
        made.append(
            MapRow(
                plot=plot,
                seen=plot.pk in seen,
                own=plot.pk in own,
                free=plot.pk in free,
                row=where[plot.pk],
                corner=words.corner_text(box.left, box.top, garden.units),
                water=words.water_text(tap[0].label, tap[1], garden.units) if tap else "",
                water_m=tap[1] if tap else None,
                marks=", ".join(marks(plot, own=plot.pk in own, free=plot.pk in free)),
            )
        )
    return made


def _stop(plot: Plot) -> Stop:
    return Stop(plot.pk, plot.label, plot_box(plot), plot.walk_place)
