"""Forms of plots and of who holds them."""

from __future__ import annotations

from datetime import date
from typing import Any

from django import forms
from django.utils.translation import gettext_lazy as _

from plots import queries
from plots.forms.days import day_input
from plots.forms.several import SeveralField
from plots.forms.site import PlacedForm, length
from plots.models import Garden, Plot, PlotKind, Season, User


class PlotForm(PlacedForm):
    place_required = False

    class Meta:
        model = Plot
        fields = [
            "label", "kind", "width_m", "length_m", "accessible", "bed_height_m", "note", "public_line",
            "left_m", "top_m", "turn_deg",
        ]  # fmt: skip
        widgets = {"note": forms.Textarea(attrs={"rows": 3})}
        labels = {"accessible": _("It can be gardened from a wheelchair")}
        help_texts = {
            "label": _("As it stands on the stake."),
            "public_line": _("What anybody reads who scans the stake. Empty: the garden's line."),
        }

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        units = self.instance.garden.units
        self.fields["width_m"] = length(units, _("Width, from left to right"), required=False)
        self.fields["length_m"] = length(units, _("Length, from top to bottom"), required=False)
        self.fields["bed_height_m"] = length(
            units, _("Height of the bed, if it is raised"), required=False, lowest=0, highest=2
        )

    def clean_kind(self) -> str:
        """A plot that somebody holds stays personal."""
        kind: str = self.cleaned_data["kind"]
        if kind == PlotKind.PERSONAL or self.instance.pk is None:
            return kind
        holding = self.instance.assignments.standing(self.instance.garden.today()).first()
        if holding is not None:
            raise forms.ValidationError(
                _("%(person)s holds this plot. End that first."), params={"person": holding.holder}
            )
        return kind

    def clean(self) -> dict[str, Any]:
        """A plot on the map has both distances and both sides."""
        data = super().clean() or {}
        if data.get("left_m") is None and data.get("top_m") is None:
            return data
        for name in ("left_m", "top_m", "width_m", "length_m"):
            if data.get(name) is None and name not in self.errors:
                self.add_error(name, _("A plot on the map needs this, too."))
        return data

    def clean_label(self) -> str:
        label: str = self.cleaned_data["label"]
        same = Plot.objects.filter(garden=self.instance.garden, label=label).exclude(pk=self.instance.pk)
        if same.exists():
            raise forms.ValidationError(_("This garden already has a plot with this label."))
        return label


class HolderForm(forms.Form):
    """Who gardens a plot this season."""

    season = forms.ModelChoiceField(Season.objects.none(), label=_("Season"), empty_label=None)
    holder = forms.ModelChoiceField(User.objects.none(), label=_("Held by"))
    co_gardeners = SeveralField(
        User.objects.none(),
        label=_("Co-gardeners"),
        required=False,
        help_text=_("They plan and read this plot as its holder does."),
        widget=forms.CheckboxSelectMultiple,
    )
    began_on = forms.DateField(label=_("From"), widget=day_input())

    why = forms.CharField(label=_("Why"), max_length=300, required=False, help_text=_("Kept in its history."))

    def __init__(self, garden: Garden, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.garden = garden
        people = User.objects.active_in(garden)
        self.fields["season"].queryset = garden.seasons.all()
        self.fields["holder"].queryset = people
        self.fields["co_gardeners"].queryset = people
        self.fields["began_on"].initial = garden.today()

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or {}
        check_cap(self, self.garden, cleaned.get("holder"), cleaned.get("began_on"))
        return cleaned


def check_cap(form: forms.Form, garden: Garden, holder: User | None, day: date | None) -> None:
    """More plots for a household than the garden's rules allow need a reason, in the form's field `why`."""
    if holder is None or day is None or form.cleaned_data.get("why"):
        return
    cap, held = garden.rules.plots_per_household, queries.plots_of_household(garden, holder, day=day)
    if held >= cap:
        words = {"person": holder, "held": held, "cap": cap}
        text = _(
            "The household of %(person)s holds %(held)s; the rules allow %(cap)s. Say why, all the same."
        )
        form.add_error("why", text % words)
