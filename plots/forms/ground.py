"""Forms of plots and of who holds them."""

from __future__ import annotations

from typing import Any

from django import forms
from django.utils.translation import gettext_lazy as _

from plots.forms.quantities import QuantityField
from plots.models import Garden, Plot, Season, User
from plots.quantities import Quantity

LONGEST_KEY = 18


class PlotForm(forms.ModelForm):
    class Meta:
        model = Plot
        fields = ["label", "width_m", "length_m", "note", "retired_on"]
        widgets = {
            "note": forms.Textarea(attrs={"rows": 3}),
            "retired_on": forms.DateInput(attrs={"type": "date"}, format="%Y-%m-%d"),
        }
        help_texts = {
            "label": _("As it stands on the stake."),
            "retired_on": _("Only for a plot that is no longer gardened; its history stays."),
        }

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        for side, label in (("width_m", _("Width")), ("length_m", _("Length"))):
            self.fields[side] = QuantityField(
                quantity=Quantity.LENGTH,
                units=self.instance.garden.units,
                label=label,
                required=False,
                lowest=0.1,
                highest=1000,
            )
        if self.instance.pk is None:
            del self.fields["retired_on"]

    def clean_label(self) -> str:
        label: str = self.cleaned_data["label"]
        same = Plot.objects.filter(garden=self.instance.garden, label=label).exclude(pk=self.instance.pk)
        if same.exists():
            raise forms.ValidationError(_("This garden already has a plot with this label."))
        return label


class PeopleField(forms.ModelMultipleChoiceField):
    def clean(self, value: Any) -> Any:
        """Refuses numbers that no database key can be, before the database does so with a fault."""
        for key in value or []:
            if len(str(key)) > LONGEST_KEY:
                raise forms.ValidationError(
                    self.error_messages["invalid_choice"], code="invalid_choice", params={"value": key}
                )
        return super().clean(value)


class HolderForm(forms.Form):
    """Who gardens a plot this season."""

    season = forms.ModelChoiceField(Season.objects.none(), label=_("Season"), empty_label=None)
    holder = forms.ModelChoiceField(User.objects.none(), label=_("Held by"))
    co_gardeners = PeopleField(
        User.objects.none(),
        label=_("Co-gardeners"),
        required=False,
        help_text=_("They plan and read this plot as its holder does."),
        widget=forms.CheckboxSelectMultiple,
    )
    began_on = forms.DateField(
        label=_("From"), widget=forms.DateInput(attrs={"type": "date"}, format="%Y-%m-%d")
    )

    def __init__(self, garden: Garden, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        people = User.objects.filter(memberships__garden=garden, is_active=True)
        self.fields["season"].queryset = garden.seasons.all()
        self.fields["holder"].queryset = people
        self.fields["co_gardeners"].queryset = people
        self.fields["began_on"].initial = garden.today()
