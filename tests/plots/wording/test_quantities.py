"""Measured values in words."""

from fractions import Fraction

import pytest
from django.template import Context, Template
from django.utils import translation

from plots.quantities import Quantity
from plots.wording import number_text, quantity_text, range_text, span_text
from tests.texts import plain


@pytest.mark.parametrize(
    ("value", "text"),
    [(2.0, "2"), (2.5, "2.5"), (-6, "−6"), (Fraction(3, 2), "1 1/2"), (0.125, "0.125"), (1500, "1500")],
)
def test_numbers_have_no_needless_zeros(value, text):
    assert number_text(value) == text


def test_numbers_have_the_decimal_mark_of_the_language():
    with translation.override("de"):
        assert plain(quantity_text(4.4, Quantity.TEMPERATURE, "metric")) == "4,4 °C"


@pytest.mark.parametrize(
    ("low", "high", "text"), [(4, 6, "4–6"), (5, 5, "5"), (-6, 2, "−6 to 2"), (-6, -1, "−6 to −1")]
)
def test_a_range_never_sets_a_dash_beside_a_minus(low, high, text):
    assert span_text(low, high) == text


def test_a_range_has_its_unit_once():
    assert plain(range_text(0.0254, 0.0381, Quantity.SHORT_LENGTH, "us")) == "1–1 1/2 in"


@pytest.mark.parametrize(
    ("filter_name", "value", "us", "metric"),
    [
        ("short_length", 0.00635, "1/4 in", "0.6 cm"),
        ("length_of", 3.048, "10 ft", "3.05 m"),
        ("temperature", -2.2, "28 °F", "−2.2 °C"),
        ("warmth", -1.1666, "−2.1 °F", "−1.2 °C"),
    ],
)
def test_filters_show_the_garden_s_units_and_nothing_for_nothing(filter_name, value, us, metric):
    template = Template("{% load quantities %}{{ value|" + filter_name + ":units }}")

    shown = [template.render(Context({"value": value, "units": units})) for units in ("us", "metric")]
    assert [plain(text) for text in shown] == [us, metric]
    assert template.render(Context({"value": None, "units": "us"})) == ""
