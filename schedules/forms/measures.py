"""Forms for how a garden measures: a hose by a bucket and a watch, the can, bunches on a scale."""

from __future__ import annotations

from typing import Any

from django import forms
from django.db.models import Q
from django.utils.translation import gettext as _now
from django.utils.translation import gettext_lazy as _

from crops.models import Crop
from crops.wording.names import crop_name
from plots.forms.days import day_input
from plots.forms.quantities import NumberField, QuantityField
from plots.models import Garden, Units
from plots.quantities import Quantity
from schedules.amounts import GRAMS
from schedules.models.measures import MOST_BUNCHES, MOST_GRAMS, MOST_LITRES, MOST_SECONDS
from schedules.wording.logs import unit_short


class _MeasuredForm(forms.Form):
    measured_on = forms.DateField(label=_("Measured on"), widget=day_input())

    def __init__(self, *args: Any, garden: Garden, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.garden = garden
        self.initial.setdefault("measured_on", garden.today())

    def clean_measured_on(self) -> Any:
        """Nothing is measured ahead of time."""
        day = self.cleaned_data["measured_on"]
        if day > self.garden.today():
            raise forms.ValidationError(_now("This day is still to come."))
        return day


class HoseForm(_MeasuredForm):
    """A bucket of known size, and how long it took to fill."""

    name = forms.CharField(
        label=_("Hose or tap"), max_length=60,
        help_text=_("As people call it: north tap. Measured again by this name, the new figure counts."),
    )  # fmt: skip
    seconds = NumberField(label=_("Seconds to fill it"), lowest=1, highest=MOST_SECONDS)

    def __init__(self, *args: Any, garden: Garden, **kwargs: Any) -> None:
        super().__init__(*args, garden=garden, **kwargs)
        self.fields["litres"] = QuantityField(
            quantity=Quantity.VOLUME, units=garden.units, label=_now("Water in the bucket"),
            lowest=0.1, highest=MOST_LITRES,
        )  # fmt: skip
        self.order_fields(["name", "litres", "seconds", "measured_on"])


class BunchForm(_MeasuredForm):
    """Some bunches of one crop on a scale together: one alone tells little."""

    crop = forms.ModelChoiceField(Crop.objects.none(), label=_("Crop"))
    bunches = NumberField(
        label=_("How many bunches were weighed"), whole=True, lowest=1, highest=MOST_BUNCHES,
        help_text=_("Five or more give a fair figure (common practice, no source)."),
    )  # fmt: skip
    weight = NumberField(label=_("Their weight together"), lowest=0.001)
    unit = forms.ChoiceField(label=_("Weighed in"))

    def __init__(self, *args: Any, garden: Garden, **kwargs: Any) -> None:
        super().__init__(*args, garden=garden, **kwargs)
        self.fields["crop"].queryset = Crop.objects.filter(Q(garden=None) | Q(garden=garden))
        self.fields["crop"].label_from_instance = lambda crop: crop_name(crop.name)
        units = ("oz", "lb", "g", "kg") if garden.units == Units.US else ("g", "kg", "oz", "lb")
        self.fields["unit"].choices = [(unit, unit_short(unit)) for unit in units]
        self.order_fields(["crop", "bunches", "weight", "unit", "measured_on"])

    def clean(self) -> dict[str, Any]:
        """The weight in grams, likely for bunches."""
        cleaned = super().clean() or {}
        if "weight" in cleaned and "unit" in cleaned:
            cleaned["grams"] = cleaned["weight"] * GRAMS[cleaned["unit"]]
            if cleaned["grams"] > MOST_GRAMS:
                self.add_error("weight", _now("This is more than bunches weigh. Is the unit right?"))
        return cleaned


class CanForm(forms.Form):
    """What the watering can holds."""

    def __init__(self, *args: Any, garden: Garden, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["litres"] = QuantityField(
            quantity=Quantity.VOLUME, units=garden.units, label=_now("A can holds"),
            lowest=0.1, highest=MOST_LITRES,
        )  # fmt: skip
