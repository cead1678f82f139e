"""The rain gauge: one number, and when it was read."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Any

from django import forms
from django.utils.formats import date_format
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from plots.forms.days import day_input
from plots.forms.quantities import QuantityField
from plots.models import Garden
from plots.quantities import Quantity
from schedules.models import RainReading
from schedules.models.water import MOST_RAIN_MM

_LONGEST_BETWEEN = 31


class RainForm(forms.Form):
    """What the gauge holds. Typed again for the same day it takes the place of what was typed before."""

    day = forms.DateField(label=gettext_lazy("Read on"), widget=day_input())
    since = forms.DateField(
        label=gettext_lazy("Emptied before that on"),
        required=False,
        widget=day_input(),
        help_text=gettext_lazy("Left empty: on the day of the reading before, or the day before this one."),
    )

    field_order = ("mm", "day", "since")

    def __init__(self, data: Any = None, *, garden: Garden) -> None:
        super().__init__(data, initial={"day": garden.today()})
        self.garden = garden
        self.fields["mm"] = QuantityField(
            quantity=Quantity.RAIN,
            units=garden.units,
            label=_("Rain in the gauge"),
            lowest=0.0,
            highest=MOST_RAIN_MM,
        )
        self.order_fields(self.field_order)

    def clean_day(self) -> date:
        day: date = self.cleaned_data["day"]
        if day > self.garden.today():
            raise forms.ValidationError(_("That day is still to come."))
        return day

    def clean(self) -> dict[str, Any]:
        """Fills in when the gauge was emptied; readings never overlap, or rain would count twice."""
        cleaned = super().clean() or {}
        day = cleaned.get("day")
        if day is None or "since" in self.errors:
            return cleaned
        others = RainReading.objects.filter(garden=self.garden).exclude(day=day)
        before = others.filter(day__lt=day).first()
        last = before.day if before else None
        near = last is not None and (day - last).days <= _LONGEST_BETWEEN
        cleaned["since"] = cleaned.get("since") or (last if near else day - timedelta(days=1))
        if cleaned["since"] >= day:
            self.add_error("since", _("The gauge was emptied before it was read."))
        elif (day - cleaned["since"]).days > _LONGEST_BETWEEN:
            self.add_error("since", _("A month of rain does not stand in a gauge: it dries up or runs over."))
        elif last is not None and cleaned["since"] < last:
            words = {"day": date_format(last)}
            self.add_error("since", _("It was read on %(day)s too; that rain would count twice.") % words)
        elif after := others.filter(day__gt=day, since__lt=day).last():
            words = {"day": date_format(after.day)}
            self.add_error("day", _("The reading of %(day)s already counts this day.") % words)
        return cleaned
