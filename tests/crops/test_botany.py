"""Botanical names in print."""

import pytest

from crops.botany import parts
from crops.catalogue import load_catalogue


@pytest.mark.parametrize(
    ("name", "pieces"),
    [
        ("Allium sativum", [("Allium sativum", True)]),
        ("Beta vulgaris (Cicla Group)", [("Beta vulgaris", True), (" (Cicla Group)", False)]),
        ("Apium graveolens var. dulce", [("Apium graveolens", True), (" var. ", False), ("dulce", True)]),
        ("Cucurbita maxima / C. pepo", [("Cucurbita maxima", True), (" / ", False), ("C. pepo", True)]),
        ("", []),
    ],
)
def test_ranks_signs_and_groups_stand_upright(name, pieces):
    assert parts(name) == pieces


def test_nothing_of_a_name_is_lost():
    for crop in load_catalogue().crops.values():
        shown = "".join(text for text, _ in parts(crop.botanical_name))
        assert shown.replace("×", "x") == crop.botanical_name
