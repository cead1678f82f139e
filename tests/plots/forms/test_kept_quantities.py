"""A measured value that is sent back as it was shown stays what it was, to the last digit."""

from __future__ import annotations

import pytest
from django import forms

from plots.forms.quantities import QuantityField
from plots.quantities import Quantity


@pytest.mark.parametrize(
    ("quantity", "value"), [(Quantity.LENGTH, 1072), (Quantity.LENGTH, 1.0), (Quantity.WARMTH, 1.28)]
)
def test_what_was_not_touched_is_not_rounded(quantity: Quantity, value: float) -> None:
    class Form(forms.Form):
        measure = QuantityField(quantity=quantity, units="us")

    shown = Form(initial={"measure": value})["measure"].value()
    form = Form({"measure": f" {shown} "}, initial={"measure": value})
    assert form.is_valid()
    assert (form.cleaned_data["measure"], form.has_changed()) == (value, False)
    other = Form({"measure": f"{shown}1"}, initial={"measure": value})
    assert other.is_valid()
    assert other.cleaned_data["measure"] != value
    assert Form({"measure": shown}).is_valid()
