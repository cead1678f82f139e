from plots.sitemap.boxes import Box, overlaps
from plots.sitemap.rows import Labels, Rows, letters, next_first, row_paths, row_plots, taken_labels

FOOT = 0.3048


def labels(**asked):
    return [
        plot.label for plot in row_plots(Rows(**{"rows": 2, "per_row": 3, "width": 3, "depth": 6, **asked}))
    ]


def test_plots_are_called_as_asked():
    assert labels() == ["A1", "A2", "A3", "B1", "B2", "B3"]
    assert labels(labels=Labels.LETTERS, first=26) == ["Z1", "Z2", "Z3", "AA1", "AA2", "AA3"]
    assert labels(labels=Labels.NUMBERS, first=101) == ["101", "102", "103", "104", "105", "106"]
    assert labels(labels=Labels.PAIRS, before="N") == ["N1-1", "N1-2", "N1-3", "N2-1", "N2-2", "N2-3"]


def test_rows_run_across_or_down_with_paths_between():
    asked = {"rows": 3, "per_row": 2, "width": 3, "depth": 6, "gap": 0.5, "path": 1, "left": 2, "top": 4}
    across = Rows(**asked)
    assert [plot.box for plot in row_plots(across)][1:3] == [Box(5.5, 4, 3, 6), Box(2, 11, 3, 6)]
    assert row_paths(across) == [Box(2, 10, 6.5, 1), Box(2, 17, 6.5, 1)]
    down = Rows(**asked, down=True)
    assert [plot.box for plot in row_plots(down)][1:3] == [Box(2, 7.5, 6, 3), Box(9, 4, 6, 3)]
    assert row_paths(down) == [Box(8, 4, 1, 6.5), Box(15, 4, 1, 6.5)]
    assert row_paths(Rows(3, 2, 3, 6)) == []


def test_every_second_row_may_be_counted_back():
    plots = row_plots(Rows(2, 3, 1, 1, back=True))
    assert [(plot.label, plot.box.left) for plot in plots[2:4]] == [("A3", 2), ("B1", 2)]


def test_a_garden_in_feet_leaves_no_noise_and_no_overlap():
    asked = Rows(6, 10, 10 * FOOT, 20 * FOOT, gap=2 * FOOT, path=4 * FOOT)
    plots = row_plots(asked)
    assert plots[-1].box == Box(32.9184, 36.576, 3.048, 6.096)
    boxes = [(plot.label, plot.box) for plot in plots]
    assert overlaps([*boxes, *((f"path {n}", box) for n, box in enumerate(row_paths(asked)))]) == []


def test_stakes_that_stand_already_are_named():
    assert taken_labels(row_plots(Rows(1, 3, 1, 1)), ["a2", "A3 ", "B1"]) == ["A2", "A3"]


def test_new_rows_go_on_behind_the_old():
    assert next_first([], Labels.LETTERS) == 1
    assert next_first(["Z9"], Labels.LETTERS) == 27
    assert next_first(["3-1", "12-4", "herb bed"], Labels.PAIRS) == 13
    assert [letters(n) for n in (28, 52, 53)] == ["AB", "AZ", "BA"]
