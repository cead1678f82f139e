"""The low that a forecast gives for the night."""

from __future__ import annotations

from typing import Any

from django import forms
from django.utils.translation import gettext as _

from plots.forms.quantities import QuantityField
from plots.models import Garden
from plots.quantities import Quantity
from schedules.models.readings import COLDEST_C, WARMEST_C


class TonightForm(forms.Form):
    """One temperature, in the garden's units unless another is written behind it."""

    def __init__(self, data: Any = None, *, garden: Garden) -> None:
        super().__init__(data)
        self.fields["low"] = QuantityField(
            quantity=Quantity.TEMPERATURE,
            units=garden.units,
            label=_("Lowest tonight, by the forecast"),
            lowest=COLDEST_C,
            highest=WARMEST_C,
        )
