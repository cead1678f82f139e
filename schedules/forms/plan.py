"""The form with which a crop enters a plot's plan."""

from __future__ import annotations

from typing import Any

from django import forms
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy, ngettext

from crops.facts import MOST_SUCCESSIONS
from plots.forms.quantities import NumberField, QuantityField
from plots.quantities import Quantity
from schedules.entries import Way
from schedules.service import Offer
from schedules.wording import reason_sentence
from schedules.wording.calendar import way_dates, way_name
from schedules.wording.choosing import nerve_choices

LONGEST_ROW_M = 1000.0


class PlantingForm(forms.Form):
    """How, how often and how much of a crop or variety is planted."""

    way = forms.ChoiceField(label=gettext_lazy("When and how"), widget=forms.RadioSelect)
    note = forms.CharField(
        label=gettext_lazy("Note"), required=False, max_length=2000, widget=forms.Textarea(attrs={"rows": 3})
    )

    def __init__(self, *args: Any, offer: Offer, units: str, cover: str = "", **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.offer = offer
        self.fields["way"].choices = [(way.key, self._way_text(way, units)) for way in offer.dated_first]
        self.fields["successions"] = NumberField(
            label=_("How many sowings, one after another"),
            help_text=_("One is usual; more give a longer harvest of crops that are soon past."),
            whole=True,
            lowest=1,
            highest=MOST_SUCCESSIONS,
        )
        self.fields["row_length_m"] = QuantityField(
            quantity=Quantity.LENGTH,
            units=units,
            label=_("Length of row"),
            required=False,
            lowest=0.01,
            highest=LONGEST_ROW_M,
        )
        self.fields["nerve"] = forms.ChoiceField(
            label=_("Nerve"),
            required=False,
            choices=nerve_choices(_("as the plot has it")),
            help_text=_("How much frost risk its dates accept; they move with it."),
        )
        self.fields["covered"] = forms.BooleanField(
            label=_("Under a row cover"), required=False, help_text=cover
        )
        self.initial.setdefault("successions", 1)
        if offer.ways:
            self.initial.setdefault("way", offer.dated_first[0].key)
        self.order_fields(["way", "successions", "row_length_m", "nerve", "covered", "note"])

    def _way_text(self, way: Way, units: str) -> str:
        dates = way_dates(way, self.offer.year)
        if not dates and way.refusal:
            dates = _("no dates here: %(reason)s") % {"reason": reason_sentence(way.refusal[0], units)}
        return f"{way_name(way.turn, way.start)}: {dates}" if dates else way_name(way.turn, way.start)

    def clean(self) -> dict[str, Any]:
        """Refuses more sowings than the season holds."""
        cleaned = super().clean() or {}
        way, wanted = self.offer.way(cleaned.get("way", "")), cleaned.get("successions")
        if way is None or wanted is None or way.beginning is None or wanted <= way.successions:
            return cleaned
        room = ngettext(
            "There is time for %(count)d sowing.", "There is time for %(count)d sowings.", way.successions
        )
        self.add_error("successions", room % {"count": way.successions})
        return cleaned

    def choices_made(self) -> dict[str, Any]:
        """The form as what a planting keeps."""
        way = self.offer.way(self.cleaned_data["way"])
        if way is None:
            raise ValueError("the way was checked against the same offer")
        return {
            "variety": self.offer.variety,
            "turn": way.turn.value,
            "start": way.start.value,
            "successions": self.cleaned_data["successions"],
            "row_length_m": self.cleaned_data["row_length_m"],
            "nerve": self.cleaned_data["nerve"],
            "covered": self.cleaned_data["covered"],
            "note": self.cleaned_data["note"],
        }
