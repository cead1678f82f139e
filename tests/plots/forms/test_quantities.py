"""Fields for measures: typed as people write, kept in SI, refused with a sentence."""

import pytest
from django.core.exceptions import ValidationError

from plots.forms.quantities import NumberField, QuantityField
from plots.quantities import Quantity
from tests.texts import plain


def depth(**more):
    return QuantityField(quantity=Quantity.SHORT_LENGTH, units="us", label="Depth", **more)


def refusal(field, typed):
    with pytest.raises(ValidationError) as caught:
        field.clean(typed)
    return plain(caught.value.messages[0])


def test_a_measure_is_kept_in_si_and_comes_back_as_typed():
    field = depth()

    assert field.label == "Depth, in"
    assert field.clean("1/4") == 0.00635
    assert field.prepare_value(0.00635) == "1/4"
    assert field.prepare_value("a quarter") == "a quarter"


def test_a_blank_is_nothing_unless_it_is_needed():
    assert depth(required=False).clean("  ") is None
    assert refusal(depth(), "") == "Please fill this in."


def test_what_is_wrong_is_said_in_the_typist_s_words():
    field = depth(lowest=0.0127, highest=0.3048)

    assert refusal(field, "deep") == "“deep” cannot be read. Write it like 1/4 or 1/4 in."
    assert refusal(field, "1/4") == "This is too little: at least 1/2 in."
    row = QuantityField(quantity=Quantity.LENGTH, units="us", lowest=0.01)
    assert refusal(row, "0") == "This must be more than 0 ft."
    assert refusal(field, "18") == "This is too much: at most 12 in."
    assert "cannot be read" in refusal(field, "9" * 50)


@pytest.mark.parametrize(
    ("typed", "changed"), [("1/4", False), ("0.25 in", False), ("1/2", True), ("deep", True)]
)
def test_a_field_has_changed_when_its_value_has(typed, changed):
    assert depth().has_changed(0.00635, typed) == changed


def test_whole_numbers_are_whole():
    field = NumberField(whole=True, lowest=1)

    assert field.clean("30") == 30
    assert refusal(field, "30.5") == "This must be a whole number."
    assert refusal(field, "0") == "This is too little: at least 1."
    assert refusal(field, "many") == "“many” cannot be read as a number. Write it like 12."
    fraction = "“many” cannot be read as a number. Write it like 2.5 or 1 1/2."
    assert refusal(NumberField(), "many") == fraction
    two_ways = "“4,000” can be read in two ways: please write 4000 or 4.000."
    assert refusal(field, "4,000") == refusal(depth(), "4,000") == two_ways
    assert NumberField().prepare_value(7.0) == "7"
