"""What is asked about nerve, chances and free space."""

from __future__ import annotations

from datetime import date
from typing import Any

from django import forms
from django.db.models import QuerySet
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from crops.models import Variety
from crops.models.planting import FIRST_YEAR, LAST_YEAR
from plots.forms.days import day_input
from plots.forms.quantities import QuantityField
from plots.models import Garden, Plot
from plots.quantities import Quantity
from schedules.fits import Room
from schedules.forms.plan import LONGEST_ROW_M
from schedules.wording.choosing import nerve_choices


class NerveForm(forms.Form):
    """How much frost risk somebody accepts for what they grow."""

    def __init__(self, *args: Any, unset: str, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["nerve"] = forms.ChoiceField(
            label=_("Your nerve"), required=False, choices=nerve_choices(unset), widget=forms.RadioSelect
        )


class DayField(forms.DateField):
    """A day of the calendar that plans can be made for."""

    widget = day_input()

    def validate(self, value: date | None) -> None:
        super().validate(value)
        if value is not None and not FIRST_YEAR < value.year < LAST_YEAR:
            raise forms.ValidationError(_("This year lies too far away."))


class RoomForm(forms.Form):
    """A day, the space that is free from it on, and until when."""

    day = DayField(label=gettext_lazy("From the day"))
    until = DayField(
        label=gettext_lazy("Free until"),
        required=False,
        help_text=gettext_lazy("Left empty: to the end of the season."),
    )
    covered = forms.BooleanField(label=gettext_lazy("Under a row cover"), required=False)

    def __init__(self, *args: Any, garden: Garden, plots: QuerySet[Plot], unset: str, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["row_m"] = QuantityField(
            quantity=Quantity.LENGTH,
            units=garden.units,
            label=_("Length of row that is free"),
            required=False,
            lowest=0.01,
            highest=LONGEST_ROW_M,
        )
        self.fields["plot"] = _plot_field(plots)
        self.fields["nerve"] = forms.ChoiceField(
            label=_("Nerve"), required=False, choices=nerve_choices(unset)
        )
        self.order_fields(["day", "until", "row_m", "plot", "nerve", "covered"])

    def clean(self) -> dict[str, Any]:
        """The space has to be free for at least a day."""
        cleaned = super().clean() or {}
        day, until = cleaned.get("day"), cleaned.get("until")
        if day and until and until <= day:
            self.add_error("until", _("This day must come after the first one."))
        return cleaned

    def room(self) -> Room:
        """What was asked for, of a valid form."""
        return Room(self.cleaned_data["day"], self.cleaned_data["until"], self.cleaned_data["row_m"])


class ChanceForm(forms.Form):
    """A day to begin a crop on, and of which variety."""

    day = DayField(label=gettext_lazy("Begun on the day"))
    covered = forms.BooleanField(label=gettext_lazy("Under a row cover"), required=False)

    def __init__(
        self, *args: Any, varieties: QuerySet[Variety], plots: QuerySet[Plot], **kwargs: Any
    ) -> None:
        super().__init__(*args, **kwargs)
        self.fields["variety"] = forms.ModelChoiceField(
            varieties, label=_("Variety"), required=False, empty_label=_("any variety")
        )
        self.fields["plot"] = _plot_field(plots)
        self.order_fields(["day", "variety", "plot", "covered"])


def _plot_field(plots: QuerySet[Plot]) -> forms.ModelChoiceField:
    return forms.ModelChoiceField(plots, label=_("Plot"), required=False, empty_label=_("none in particular"))
