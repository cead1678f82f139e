"""The key to the site map: each line and mark beside its word, for page and paper."""

from __future__ import annotations

from django.utils.translation import gettext as _

from plots.models import FeatureKind
from plots.sitemap.boxes import Box
from plots.sitemap.drawing import Outline, PlotDrawn, SiteDrawn, plot_shapes
from plots.sitemap.features import feature_shapes
from plots.sketch import Sketch

_FRAME = (-0.2, -0.2, 3.0, 1.7)
_PLOT = Box(0, 0, 2.6, 1.3)
_SIZES = {
    FeatureKind.WATER: Box(0.8, 0.2, 0.9, 0.9),
    FeatureKind.TREE: Box(0.7, 0, 1.3, 1.3),
    FeatureKind.HEDGE: Box(0, 0.3, 2.6, 0.6),
    FeatureKind.FENCE: Box(0, 0.4, 2.6, 0.5),
    FeatureKind.PATH: Box(0, 0.3, 2.6, 0.7),
    FeatureKind.GATE: Box(0.2, 1.0, 1.4, 0.2),
}


def key_to_map(drawn: SiteDrawn) -> list[tuple[Sketch, str]]:
    """The lines and marks that this map uses, each drawn small, with its word."""
    plots = drawn.plots
    outlines = {plot.outline for plot in plots}
    marks = [
        (PlotDrawn("", "", "", _PLOT), _("plot for a member"), Outline.PERSONAL in outlines),
        (PlotDrawn("", "A1", "", _PLOT, free=True), _("free"), any(plot.free for plot in plots)),
        (PlotDrawn("", "A1", "", _PLOT, own=True), _("yours"), any(plot.own for plot in plots)),
        (
            PlotDrawn("", "", "", _PLOT, Outline.COMMUNAL),
            _("gardened by all"),
            Outline.COMMUNAL in outlines,
        ),
        (
            PlotDrawn("", "", "", _PLOT, Outline.GIVE_AWAY),
            _("gardened to give away"),
            Outline.GIVE_AWAY in outlines,
        ),
        (
            PlotDrawn("", "", "", _PLOT, accessible=True),
            _("can be gardened from a wheelchair"),
            any(plot.accessible for plot in plots),
        ),
    ]
    key = [(Sketch(*_FRAME, (), plot_shapes(plot)), word) for plot, word, used in marks if used]
    kinds = {(thing.kind, thing.kind == FeatureKind.PATH and thing.accessible) for thing in drawn.features}
    for kind, firm in sorted(kinds):
        shapes = feature_shapes(kind, _SIZES.get(FeatureKind(kind), _PLOT), accessible=firm)
        word = _("path for wheels") if firm else str(FeatureKind(kind).label)
        key.append((Sketch(*_FRAME, (), shapes), word))
    return key
