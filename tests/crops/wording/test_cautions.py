"""Cautions stand with what they rest on, and only where they are due."""

from crops.catalogue import load_catalogue
from crops.wording.cautions import RESTS_ON, Hazard, caution, cautions

CROPS = load_catalogue().crops


def texts(slug):
    return " ".join(caution.text for caution in cautions(CROPS[slug]))


def test_crops_raised_under_cover_warn_of_potting_mix():
    assert "Legionella" in texts("tomato")
    assert "Legionella" not in texts("carrot")


def test_what_is_poisonous_says_so_first():
    assert cautions(CROPS["potato"])[0].text.startswith("Do not eat green")
    assert "cooked through" in texts("bean-lima")
    assert "cooked through" not in texts("basil")


def test_every_caution_says_whose_it_is():
    assert all(caution.rests_on for crop in CROPS.values() for caution in cautions(crop))


def test_every_hazard_is_told_with_what_it_rests_on():
    found = [caution(hazard) for hazard in Hazard]
    assert all(one.text.endswith(".") and one.rests_on for one in found)
    assert len({one.text for one in found}) == len(found) == len(RESTS_ON)


def test_no_caution_calls_anything_safe_or_names_a_dose():
    """They defer to labels, laboratories and law, and promise nothing."""
    words = " ".join(caution(hazard).text for hazard in Hazard).lower()
    assert not {"safe", "harmless", "guarantee", "teaspoon", "ounces"} & set(words.replace(".", " ").split())
    assert "the label is the law" in words
    assert "laboratory’s own reading" in words
