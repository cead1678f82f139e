"""What a spreadsheet may not calculate."""

import csv
import io
from datetime import date
from decimal import Decimal

import pytest

from plots.csv_out import BOM, csv_text


@pytest.mark.parametrize("text", ["=1+1", "+1", "-1", "@sum", "\tx", "\rx"])
def test_text_that_would_be_calculated_is_quoted(text):
    (row,) = list(csv.reader(io.StringIO(csv_text(["a"], [[text]]).removeprefix(BOM), newline="")))[1:]
    assert row == [f"'{text}"]


def test_values_read_back_as_they_were():
    values = [-2.5, Decimal("3.10"), date(2024, 5, 1), None, True, 'a "quoted", name', "two\nlines", "Ελένη"]
    text = csv_text(["n"] * len(values), [values])
    assert text.startswith(BOM)
    (row,) = list(csv.reader(io.StringIO(text.removeprefix(BOM), newline="")))[1:]
    assert row == ["-2.5", "3.10", "2024-05-01", "", "1", 'a "quoted", name', "two\nlines", "Ελένη"]
