"""What a frost took, of all that stood in the ground."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from typing import Any
from uuid import uuid4

from django import forms
from django.utils.formats import date_format
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from plots.forms.days import day_input
from plots.models import Garden
from schedules.tonight import Growing


class LossForm(forms.Form):
    """Plantings to tick, and the morning on which it was seen."""

    plantings = forms.TypedMultipleChoiceField(
        label=gettext_lazy("What was lost"),
        coerce=int,
        widget=forms.CheckboxSelectMultiple,
        error_messages={
            "required": gettext_lazy("Tick what was lost."),
            "invalid_choice": gettext_lazy("Something ticked does not stand there any more. Look again."),
        },
    )
    day = forms.DateField(label=gettext_lazy("Seen on"), widget=day_input())
    key = forms.UUIDField(widget=forms.HiddenInput)

    def __init__(self, data: Any = None, *, garden: Garden, growing: Sequence[Growing]) -> None:
        super().__init__(data, initial={"day": garden.today(), "key": uuid4()})
        self.garden = garden
        self.growing = {one.planting: one for one in growing}
        self.fields["plantings"].choices = [(one.planting, _named(one)) for one in growing]
        self.fields["day"].widget.attrs["max"] = garden.today().isoformat()

    def clean_day(self) -> date:
        """No frost is seen ahead of time."""
        day: date = self.cleaned_data["day"]
        if day > self.garden.today():
            raise forms.ValidationError(_("This day is still to come."))
        return day

    def clean(self) -> dict[str, Any]:
        """Nothing was lost before it stood there, where a log tells since when it does."""
        cleaned = super().clean() or {}
        day = cleaned.get("day")
        for one in map(self.growing.get, cleaned.get("plantings", [])):
            if one is not None and day is not None and one.logged and day < one.shows:
                words = {"planting": _named(one), "day": date_format(one.shows, "MONTH_DAY_FORMAT")}
                self.add_error("day", _("%(planting)s: by its logs it shows since %(day)s.") % words)
        return cleaned


def _named(one: Growing) -> str:
    return _("%(name)s, plot %(plot)s") % {"name": one.name, "plot": one.plot_label}
