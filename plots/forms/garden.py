"""Forms of a garden and its seasons."""

from __future__ import annotations

from itertools import groupby
from typing import Any

from django import forms
from django.conf import settings
from django.utils.translation import gettext_lazy as _

from plots.forms.days import day_input
from plots.forms.quantities import QuantityField
from plots.models import MOST_ROW_COVER_C, Garden, NerveChoice, Season, zone_names
from plots.quantities import Quantity


def zone_choices() -> list[tuple[str, Any]]:
    """Every zone of a region of the earth, by region."""
    zones = sorted(zone for zone in zone_names() if "/" in zone and not zone.startswith("Etc/"))
    regions = groupby(zones, key=lambda zone: zone.split("/", 1)[0])
    return [
        ("UTC", "UTC"),
        *(
            (region, [(zone, zone.split("/", 1)[1].replace("_", " ")) for zone in group])
            for region, group in regions
        ),
    ]


def offer_languages(form: forms.BaseForm) -> None:
    """A choice of the languages Trugbook speaks, or no question where it speaks one."""
    if len(settings.LANGUAGES) == 1:
        del form.fields["language"]
        return
    choices = [("", _("as the browser asks")), *settings.LANGUAGES]
    form.fields["language"] = forms.ChoiceField(label=_("Language"), choices=choices, required=False)


def _elevation(units: str) -> QuantityField:
    return QuantityField(
        quantity=Quantity.LENGTH,
        units=units,
        label=_("Height above the sea"),
        required=False,
        lowest=-500,
        highest=9000,
    )


class NewGardenForm(forms.ModelForm):
    """The little that a garden needs to begin; everything can be changed later."""

    time_zone = forms.ChoiceField(label=_("Time zone"), choices=zone_choices)

    class Meta:
        model = Garden
        fields = ["name", "time_zone", "latitude"]
        labels = {"name": _("Name of the garden")}


class GardenForm(forms.ModelForm):
    """The garden's settings."""

    time_zone = forms.ChoiceField(label=_("Time zone"), choices=zone_choices)

    class Meta:
        model = Garden
        fields = [
            "name",
            "place",
            "time_zone",
            "latitude",
            "longitude",
            "elevation_m",
            "units",
            "paper",
            "nerve",
            "row_cover_c",
            "row_cover_source",
            "language",
            "public_line",
        ]
        help_texts = {
            "nerve": _("How much frost risk the planting dates accept. Members may choose otherwise."),
            "row_cover_source": _("The package of the cover, or whoever measured it."),
            "public_line": _(
                "What anybody reads who scans a stake whose plot has no line of its own: “Grown by "
                "beginners, please look and don't pick.”"
            ),
        }

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["elevation_m"] = _elevation(self.instance.units)
        self.fields["row_cover_c"] = QuantityField(
            quantity=Quantity.WARMTH,
            units=self.instance.units,
            label=_("A row cover keeps off"),
            lowest=0,
            highest=MOST_ROW_COVER_C,
            help_text=_("Light covers keep off 2 to 5 °F, 1 to 3 °C (harvesttotable.com)."),
        )
        self.fields["nerve"].choices = [("", _("as the frost dates suggest")), *NerveChoice.choices]
        offer_languages(self)


class PlaceForm(forms.ModelForm):
    """Where the garden lies."""

    time_zone = forms.ChoiceField(label=_("Time zone"), choices=zone_choices)

    class Meta:
        model = Garden
        fields = ["place", "time_zone", "latitude", "longitude", "elevation_m"]
        labels = {"place": _("Town and region")}

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["elevation_m"] = _elevation(self.instance.units)


class UnitsForm(forms.ModelForm):
    """What the garden measures in, prints on and speaks."""

    class Meta:
        model = Garden
        fields = ["units", "paper", "language"]

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        offer_languages(self)


class SeasonForm(forms.ModelForm):
    class Meta:
        model = Season
        fields = ["name", "starts_on", "ends_on"]
        widgets = {
            "starts_on": day_input(),
            "ends_on": day_input(),
        }

    def clean(self) -> dict[str, Any]:
        """Checks the constraints here, because the garden is not one of the fields."""
        cleaned = super().clean() or {}
        starts, ends = cleaned.get("starts_on"), cleaned.get("ends_on")
        if starts and ends and ends <= starts:
            self.add_error("ends_on", _("The last day must come after the first."))
        same = Season.objects.filter(garden=self.instance.garden, name=cleaned.get("name"))
        if same.exclude(pk=self.instance.pk).exists():
            self.add_error("name", _("This garden already has a season of this name."))
        return cleaned
