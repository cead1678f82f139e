"""Units: what people type, what is kept, and what they read again."""

from fractions import Fraction

import pytest

from plots.quantities import (
    CENTIMETRE,
    FAHRENHEIT,
    INCH,
    METRE,
    Quantity,
    QuantityError,
    as_typed,
    fahrenheit_to_celsius,
    in_unit,
    parse_number,
    parse_quantity,
    unit_for,
)


@pytest.mark.parametrize(
    ("text", "number"),
    [
        ("12", 12.0), ("0.25", 0.25), (".25", 0.25), ("0,25", 0.25), ("1/4", 0.25), ("1 1/2", 1.5),
        ("¼", 0.25), ("1½", 1.5), ("1 ½", 1.5), ("3⁄8", 0.375), ("-6", -6.0),
        ("−6", -6.0), ("–2.5", -2.5), ("+3", 3.0),
        ("0,125", 0.125), ("1250", 1250.0), ("1 / 3", 1 / 3),
    ],
)  # fmt: skip
def test_numbers_are_read_as_people_write_them(text, number):
    assert parse_number(text) == number


@pytest.mark.parametrize(
    "text", ["", "a few", "1e3", "1/0", "1,000", "12,500", "1.2.3", "--3", "1/2/3", "nan", "inf"]
)
def test_what_is_no_number_is_refused(text):
    with pytest.raises(QuantityError):
        parse_number(text)


@pytest.mark.parametrize(
    ("text", "quantity", "units", "value"),
    [
        ("1/4", Quantity.SHORT_LENGTH, "us", 0.00635),
        ("0.6", Quantity.SHORT_LENGTH, "metric", 0.006),
        ("18 cm", Quantity.SHORT_LENGTH, "us", 0.18),
        ("5 mm", Quantity.SHORT_LENGTH, "us", 0.005),
        ('3/8"', Quantity.SHORT_LENGTH, "metric", 0.009525),
        ("10", Quantity.LENGTH, "us", 3.048),
        ("2 ft 6 in", Quantity.LENGTH, "metric", 0.762),
        ("2' 6″", Quantity.LENGTH, "metric", 0.762),
        ("3 m", Quantity.LENGTH, "us", 3.0),
        ("50", Quantity.TEMPERATURE, "us", 10.0),
        ("-2.2 °C", Quantity.TEMPERATURE, "us", -2.2),
        ("28 F", Quantity.TEMPERATURE, "metric", -2.222222222),
        ("-1.8", Quantity.WARMTH, "us", -1.0),
        ("2 gallons", Quantity.VOLUME, "metric", 7.570823568),
    ],
)
def test_quantities_are_kept_in_si(text, quantity, units, value):
    assert parse_quantity(text, quantity, units) == value


@pytest.mark.parametrize(
    "text", ["3 kg", "6 in 2 ft", "1 2 3", "10 °F", "ft", "3,000", "4 in 5", "1 ft 2 ft"]
)
def test_what_is_no_length_is_refused(text):
    with pytest.raises(QuantityError):
        parse_quantity(text, Quantity.LENGTH, "us")


@pytest.mark.parametrize("inches", [0.125, 0.25, 0.375, 0.5, 0.75, 1, 1.5, 2, 2.5, 18, 84, 100.125])
def test_inches_come_back_as_typed(inches):
    typed = as_typed(INCH.to_si(inches), INCH)

    assert parse_number(typed) == inches
    assert "." not in typed


def test_whole_degrees_survive_being_kept_to_a_tenth():
    for fahrenheit in range(-40, 121):
        kept = round(fahrenheit_to_celsius(fahrenheit), 1)
        assert in_unit(kept, FAHRENHEIT) == fahrenheit
        assert as_typed(kept, FAHRENHEIT) == str(fahrenheit)


def test_known_temperatures():
    assert [fahrenheit_to_celsius(f) for f in (32, 41, 50, 104)] == [0.0, 5.0, 10.0, 40.0]
    assert [round(fahrenheit_to_celsius(f), 1) for f in (28, 24, 22)] == [-2.2, -4.4, -5.6]


def test_what_is_shown_is_no_more_exact_than_its_source():
    assert in_unit(0.4572, CENTIMETRE) == 46
    assert in_unit(0.125, CENTIMETRE) == 12.5
    assert in_unit(0.0127, CENTIMETRE) == 1.3
    assert in_unit(0.2921, INCH) == Fraction(23, 2)
    assert in_unit(1.2345, METRE) == 1.23


def test_a_garden_reads_its_own_units():
    assert unit_for(Quantity.SHORT_LENGTH, "us") is INCH
    assert unit_for(Quantity.SHORT_LENGTH, "metric") is CENTIMETRE
