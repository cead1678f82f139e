"""The form of a date that a garden writes down."""

from __future__ import annotations

from typing import Any

from django import forms
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from plots.forms.days import day_input, time_input
from plots.models import YEARLY_KINDS, GardenDate


class GardenDateForm(forms.ModelForm):
    class Meta:
        model = GardenDate
        fields = ["kind", "title", "day", "last_day", "starts_at", "place", "note", "public"]
        widgets = {
            "day": day_input(),
            "last_day": day_input(),
            "starts_at": time_input(),
            "note": forms.Textarea(attrs={"rows": 3}),
        }
        help_texts = {"title": gettext_lazy("Needed for a deadline, a meeting and the like.")}

    def clean(self) -> dict[str, Any]:
        """Says beside its field what the database would only refuse."""
        cleaned = super().clean() or {}
        if cleaned.get("kind") not in (None, *YEARLY_KINDS) and not cleaned.get("title"):
            self.add_error("title", _("Say what the date is about."))
        day, last_day = cleaned.get("day"), cleaned.get("last_day")
        if day and last_day and last_day <= day:
            self.add_error("last_day", _("The last day must come after the first."))
        return cleaned
