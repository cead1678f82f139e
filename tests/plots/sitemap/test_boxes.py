import pytest

from plots.sitemap.boxes import Box, extent, nearest, outside, overlap, overlaps


@pytest.mark.parametrize(
    ("other", "shared"),
    [
        (Box(3, 0, 3, 6), False),  # touching along a side
        (Box(2.99, 0, 3, 6), False),  # a stake's width
        (Box(2.9, 0, 3, 6), True),
        (Box(1, 1, 1, 1), True),  # inside
        (Box(0, 6.1, 3, 6), False),
        (Box(3, 6, 2, 2, turn=45), False),  # a turned one, whose own corners leave the first free
        (Box(2.4, 5.4, 2, 2, turn=45), True),
    ],
)
def test_two_boxes_share_ground_or_not(other, shared):
    first = Box(0, 0, 3, 6)
    assert overlap(first, other) is shared
    assert overlap(other, first) is shared


def test_a_box_turned_by_a_quarter_takes_its_length_across():
    box = Box(0, 0, 2, 6, turn=90)
    assert box.reach() == (-2, 2, 4, 4)
    assert overlap(box, Box(3, 0, 2, 2.5))
    assert not overlap(box, Box(0, 4, 2, 2))


def test_all_pairs_are_found_in_order():
    boxes = [
        ("c", Box(0, 0, 2, 2)),
        ("a", Box(1, 1, 2, 2)),
        ("b", Box(1.5, 1.5, 9, 9)),
        ("d", Box(20, 0, 1, 1)),
    ]
    assert overlaps(boxes) == [("c", "a"), ("c", "b"), ("a", "b")]
    assert overlaps([]) == []


def test_thousands_of_plots_side_by_side_share_nothing():
    boxes = [((row, n), Box(n * 3.048, row * 6.096, 3.048, 6.096)) for row in range(40) for n in range(50)]
    assert overlaps(boxes) == []


def test_what_leaves_the_site_is_named():
    boxes = [("in", Box(0, 0, 3, 6)), ("right", Box(8, 0, 3, 6)), ("above", Box(0, -1, 1, 1))]
    assert outside(boxes, 10, 10) == ["right", "above"]
    assert outside(boxes, None, None) == ["above"]
    assert extent(box for _name, box in boxes) == (11, 6)
    assert extent([]) == (0, 0)


def test_the_nearest_tap():
    taps = [("gate tap", Box(0, 0, 0.5, 0.5)), ("shed tap", Box(9.75, 4.75, 0.5, 0.5))]
    assert nearest(Box(5, 2, 2, 6), taps) == ("shed tap", 3.0)
    assert nearest(Box(5, 2, 2, 6), []) is None
