"""Form fields about pests, damage and products used; the form of a log takes them in."""

from __future__ import annotations

from typing import Any

from django import forms
from django.utils.translation import gettext as _now
from django.utils.translation import gettext_lazy as _

from plots.forms.quantities import NumberField
from schedules.intervals import LONGEST_DAYS
from schedules.models import SeverityChoice
from schedules.scouting import Seen, Used
from schedules.work import Work


class ScoutingFields(forms.Form):
    """What a scouting and a product used tell beside the work; each needs its own and ignores the other's."""

    seen = forms.CharField(
        label=_("What was seen"),
        required=False,
        max_length=80,
        help_text=_("In your own words; “not known” will do. A photo helps."),
        widget=forms.TextInput(attrs={"list": "things-seen"}),
    )
    seen_on = forms.CharField(
        label=_("On what"),
        required=False,
        max_length=120,
        help_text=_("The plant and the part of it: tomato, undersides of the lower leaves."),
    )
    severity = forms.ChoiceField(
        label=_("How much"),
        required=False,
        choices=[("", _("cannot say")), *SeverityChoice.choices],
        widget=forms.RadioSelect,
    )
    product = forms.CharField(label=_("Product, as its label names it"), required=False, max_length=120)
    label_days = NumberField(
        label=_("Days before picking, from its label"),
        required=False,
        whole=True,
        lowest=0,
        highest=LONGEST_DAYS,
        help_text=_("For this crop, as printed on the label in your hand. 0 only where the label says so."),
    )
    asked = forms.CharField(
        label=_("Who agreed to it"),
        required=False,
        max_length=120,
        help_text=_("Most gardens want to be asked first; the neighbours want to know."),
    )
    label_read = forms.BooleanField(
        label=_("I have read the label, and it allows this crop and this place"), required=False
    )

    def clean(self) -> dict[str, Any]:
        """A scouting says what it saw; a product needs its name, its days, and a label that was read."""
        cleaned = super().clean() or {}
        work = str(cleaned.get("work") or self.data.get("work", ""))
        if work == Work.SCOUT and not cleaned.get("seen") and "seen" not in self.errors:
            self.add_error("seen", _now("What did you see? “Nothing” is worth writing down too."))
        if work == Work.TREAT:
            self._clean_product(cleaned)
        return cleaned

    def _clean_product(self, cleaned: dict[str, Any]) -> None:
        if not cleaned.get("product") and "product" not in self.errors:
            self.add_error("product", _now("Which product? Copy its name from the label."))
        if cleaned.get("label_days") is None and "label_days" not in self.errors:
            self.add_error("label_days", _now("How many days does the label ask for before picking?"))
        if not cleaned.get("label_read"):
            self.add_error("label_read", _now("Read the label first: it is the law, whatever else is said."))

    def told_seen(self) -> Seen | None:
        """What a valid scouting saw; `None` for other work."""
        cleaned = self.cleaned_data
        if cleaned.get("work") != Work.SCOUT:
            return None
        return Seen(cleaned["seen"], cleaned["seen_on"], cleaned["severity"])

    def told_used(self) -> Used | None:
        """Which product a valid form says was used; `None` for other work."""
        cleaned = self.cleaned_data
        if cleaned.get("work") != Work.TREAT:
            return None
        return Used(cleaned["product"], cleaned["label_days"], cleaned["asked"])
