import pytest

from plots.sitemap.boxes import Box
from plots.sitemap.drawing import (
    FeatureDrawn,
    Outline,
    PlotDrawn,
    SiteDrawn,
    plot_shapes,
    site_size,
    site_sketch,
)
from plots.sitemap.features import feature_shapes
from plots.sitemap.names import name_reach
from plots.sketch import Pen, Ring, Strokes, Words

BOX = Box(0, 0, 3, 6)


def pens(shapes):
    return [shape.pen for shape in shapes if isinstance(shape, Strokes)]


def words(shapes):
    return [shape for shape in shapes if isinstance(shape, Words)]


@pytest.mark.parametrize(
    ("outline", "accessible", "drawn"),
    [
        (Outline.PERSONAL, False, [Pen.FIRM]),
        (Outline.PERSONAL, True, [Pen.FIRM, Pen.HEAVY]),
        (Outline.COMMUNAL, False, [Pen.FIRM, Pen.THIN]),
        (Outline.GIVE_AWAY, False, [Pen.BROKEN]),
        (Outline.RETIRED, False, [Pen.DOTTED]),
    ],
)
def test_kinds_of_plots_are_told_apart_by_their_lines(outline, accessible, drawn):
    assert pens(plot_shapes(PlotDrawn("p", "A1", "", BOX, outline, accessible))) == drawn


def test_kinds_of_things_are_told_apart_by_their_lines():
    kinds = ("path", "water", "gate", "shed", "compost", "hedge", "fence", "tree", "table", "other")
    drawn = {feature_shapes(kind, BOX) for kind in kinds} | {feature_shapes("path", BOX, accessible=True)}
    assert len(drawn) == len(kinds) + 1


@pytest.mark.parametrize(
    ("box", "turn"),
    [(Box(0, 0, 3, 6), -90), (Box(0, 0, 6, 3), 0), (Box(0, 0, 6, 3, turn=200), 20), (Box(0, 0, 3, 6, 90), 0)],
)
def test_a_label_stands_along_its_plot_and_never_on_its_head(box, turn):
    label = words(plot_shapes(PlotDrawn("p", "A1", "", box)))[0]
    assert (label.turn + 180) % 360 - 180 == turn
    assert label.middle == box.middle


@pytest.mark.parametrize("label", ["7", "A10", "North field 12-34"])
def test_a_label_fits_into_its_plot(label):
    written = words(plot_shapes(PlotDrawn("p", label, "", BOX, free=True)))[0]
    assert written.size <= BOX.width * 0.52
    assert 0.62 * written.size * len(label) <= BOX.length


def test_free_plots_have_a_ring_and_ones_own_a_line():
    free = plot_shapes(PlotDrawn("p", "A1", "", BOX, free=True))
    assert [shape for shape in free if isinstance(shape, Ring)] != []
    assert pens(plot_shapes(PlotDrawn("p", "A1", "", BOX, own=True))) == [Pen.FIRM, Pen.HEAVY]


def test_the_map_is_as_large_as_the_site_and_what_lies_beyond_it():
    plots = [PlotDrawn("p", "A1", "", Box(8, 0, 3, 6))]
    assert site_size(SiteDrawn(plots, [])) == (11, 6)
    assert site_size(SiteDrawn(plots, [], width=10, length=20)) == (11, 20)
    assert site_size(SiteDrawn([], [])) == (4, 4)


def test_paths_lie_under_all_else_and_plots_on_top():
    things = [FeatureDrawn(kind, kind, "", kind, Box(0, 0, 1, 1)) for kind in ("water", "path")]
    sketch = site_sketch(SiteDrawn([PlotDrawn("plot", "A1", "", BOX)], things))
    assert [thing.key for thing in sketch.things] == ["path", "water", "plot"]


def test_names_of_things_are_written_across_no_line():
    """A gate at the edge with a fence beside it, a tap on a path with a name, a shed above a plot."""
    things = [
        FeatureDrawn("gate", "gate", "Lane gate", "", Box(0.3, 19.3, 2.5, 0.5)),
        FeatureDrawn("path", "path", "Long path", "", Box(0, 8, 26, 1.6)),
        FeatureDrawn("water", "water", "tap at the path", "", Box(18, 8.4, 0.8, 0.8)),
        FeatureDrawn("shed", "shed", "Shed", "", Box(20, 12, 3, 2)),
        FeatureDrawn("fence", "fence", "", "", Box(2.8, 19.3, 20, 0.5)),
    ]
    plots = [PlotDrawn("p", "A1", "", Box(20, 14.1, 3, 3))]
    sketch = site_sketch(SiteDrawn(plots, things, width=26, length=20))
    places = {
        word.text: name_reach(word.middle, word.text, word.size)
        for thing in sketch.things if thing.key not in ("p", "path") for word in words(thing.shapes)
    }  # fmt: skip
    gate, tap, shed = places["Lane gate"], places["tap at the path"], places["Shed"]
    assert gate[3] <= 20 or gate[1] >= 20  # not over the edge
    assert (tap[0] >= 18.8, tap[1] > 8, tap[3] < 9.6) == (True, True, True)  # on the path
    assert shed[0] >= 23 or shed[2] <= 20 or shed[3] <= 12


def test_north_points_where_it_is_said():
    def letter(north):
        around = site_sketch(SiteDrawn([], [], north=north)).around
        *_rest, line, found = around
        tail, tip = line.pieces[0]
        return round(tip[0] - tail[0], 6), round(tip[1] - tail[1], 6), found.text

    up, right = letter(0), letter(90)
    assert (up[0], up[1] < 0, up[2]) == (0, True, "N")
    assert (right[0] > 0, right[1]) == (True, 0)
