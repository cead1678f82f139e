from plots.sitemap.boxes import Box
from plots.sitemap.rows import Rows, row_plots
from plots.sitemap.walk import Stop, rows_of, walk_order


def grid(kept=()):
    """A1 A2 A3 / B1 B2 B3 / C1 C2 C3 with the keys 1 to 9."""
    plots = row_plots(Rows(3, 3, 3, 6, path=1))
    kept = dict(kept)
    return [Stop(key, plot.label, plot.box, kept.get(key)) for key, plot in enumerate(plots, start=1)]


def test_the_walk_turns_at_the_end_of_each_row():
    assert walk_order(grid()) == [1, 2, 3, 6, 5, 4, 7, 8, 9]
    assert walk_order(grid()[::-1]) == [1, 2, 3, 6, 5, 4, 7, 8, 9]


def test_the_walk_begins_at_the_gate():
    assert walk_order(grid(), start=(9, 21)) == [9, 8, 7, 4, 5, 6, 3, 2, 1]


def test_the_walk_may_follow_the_columns():
    assert walk_order(grid(), columns=True) == [1, 4, 7, 8, 5, 2, 3, 6, 9]


def test_plots_of_other_sizes_stay_in_their_row():
    stops = [Stop(1, "a", Box(0, 0, 3, 6)), Stop(2, "b", Box(4, 1, 3, 3)), Stop(3, "c", Box(0, 7, 3, 6))]
    assert [[stop.label for stop in row] for row in rows_of(stops)] == [["a", "b"], ["c"]]


def test_what_is_not_on_the_map_comes_last_by_label():
    stops = [Stop(11, "herb 10"), Stop(10, "herb 2"), *grid()[:2]]
    assert walk_order(stops) == [1, 2, 10, 11]


def test_an_order_set_by_hand_holds_and_new_plots_join_their_neighbours():
    assert walk_order(grid({7: 1, 1: 2, 3: 3})) == [7, 8, 9, 1, 2, 3, 6, 5, 4]


def test_nothing_to_walk():
    assert walk_order([]) == []
