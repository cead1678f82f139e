"""Facts in words: every one of every crop, in both systems of units."""

import pytest

from crops.catalogue import load_catalogue
from crops.sheet import SECTIONS
from crops.wording.facts import SECTION_TITLES, fact_text, from_frost, line_label, line_text, thin_text
from tests.texts import plain

CROPS = load_catalogue().crops
LINES = {line.fields[0]: line for section in SECTIONS for line in section.lines}


def read(slug, name, units="us"):
    return plain(line_text(CROPS[slug], LINES[name], units))


@pytest.mark.parametrize(
    ("slug", "name", "us", "metric"),
    [
        ("carrot", "sow_depth_m", "1/4 in", "0.6 cm"),
        ("carrot", "row_spacing_m", "18 in", "46 cm"),
        ("carrot", "soil_min_c", "40 °F", "4.4 °C"),
        ("carrot", "soil_optimum_low_c", "45–85 °F", "7.2–29.4 °C"),
        ("asparagus", "kill_c", "0 °F", "−17.8 °C"),
        ("tomato", "container_litres", "3 gal", "11.4 L"),
        ("tomato", "maturity_days_low", "65–90 days, from transplanting", "65–90 days, from transplanting"),
        ("tomato", "hardiness", "very tender", "very tender"),
        ("tomato", "fall_crop", "no", "no"),
        ("tomato", "support", "a cage", "a cage"),
        ("turnip", "emergence_days_optimum", "1 day", "1 day"),
        ("beet", "thin_when", "2–3 in tall", "5–8 cm tall"),
        ("garlic", "soil_min_c", "", ""),
        ("asparagus", "first_harvest_year", "year 3", "year 3"),
        ("chives", "first_harvest_year", "year 1", "year 1"),
    ],
)
def test_a_fact_reads_in_the_garden_units(slug, name, us, metric):
    assert (read(slug, name), read(slug, name, "metric")) == (us, metric)


def test_every_known_fact_of_every_crop_has_words_in_both_units():
    for crop in CROPS.values():
        for name, line in LINES.items():
            values = [getattr(crop, field) for field in line.fields]
            known = all(value not in (None, "") for value in values)
            for units in ("us", "metric"):
                assert bool(line_text(crop, line, units)) == known, (crop.slug, name)


def test_every_line_and_section_has_a_name():
    labels = [line_label(line) for line in LINES.values()]

    assert len(set(labels)) == len(labels) == len(LINES)
    assert SECTION_TITLES.keys() == {section.key for section in SECTIONS}


@pytest.mark.parametrize(
    ("weeks", "words"),
    [
        ([-6, 2], "from 6 weeks before to 2 weeks after the mean last frost"),
        ([-4, 1], "from 4 weeks before to 1 week after the mean last frost"),
        ([-6, -1], "1–6 weeks before the mean last frost"),
        ([-4, 0], "0–4 weeks before the mean last frost"),
        ([1, 5], "1–5 weeks after the mean last frost"),
        ([0, 4], "0–4 weeks after the mean last frost"),
        ([2, 2], "2 weeks after the mean last frost"),
        ([-1, -1], "1 week before the mean last frost"),
    ],
)
def test_weeks_around_a_frost(weeks, words):
    assert plain(from_frost(weeks, "mean last frost")) == words


def test_autumn_is_counted_from_the_first_frost():
    assert read("garlic", "autumn_weeks_early") == "from 2 weeks before to 4 weeks after the mean first frost"
    assert read("carrot", "fall_margin_days") == "by 14 days after the mean first frost"
    assert read("tomato", "fall_margin_days") == "14 days before the mean first frost"


def test_one_end_of_a_range_can_be_asked_for():
    assert plain(fact_text(CROPS["carrot"], "soil_optimum_high_c", "us")) == "85 °F"
    assert plain(fact_text(CROPS["carrot"], "maturity_days_low", "us")) == "70 days"


@pytest.mark.parametrize(
    ("typed", "us", "metric"),
    [
        ("first true leaves", "the first true leaves show", "the first true leaves show"),
        ("2-3 true leaves", "2–3 true leaves", "2–3 true leaves"),
        ("1 in tall", "1 in tall", "2.5 cm tall"),
        ("they touch", "they touch", "they touch"),
    ],
)
def test_when_to_thin(typed, us, metric):
    assert (plain(thin_text(typed, "us")), plain(thin_text(typed, "metric"))) == (us, metric)


def test_the_catalogue_s_ways_to_say_when_to_thin_are_all_understood():
    said = {crop.thin_when for crop in CROPS.values()} - {""}

    shown = [plain(thin_text(thin, "metric")) for thin in said]

    assert not [text for text in shown if " in " in text or "-" in text]
    assert any(text.endswith(" cm tall") for text in shown)
