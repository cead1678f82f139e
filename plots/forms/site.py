"""Forms of the site: its size and north, rows of plots, things on the map, and places typed by hand."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from django import forms
from django.utils.translation import gettext_lazy as _

from plots.forms.quantities import NumberField, QuantityField
from plots.models import Garden, Plot, PlotKind, Site, SiteFeature
from plots.quantities import Quantity
from plots.service.site import Move
from plots.sitemap.rows import Labels, Rows, letter_number
from plots.sitemap.walk import moved_after

FARTHEST = 2000  # metres: larger sites are typed wrongly


def length(units: str, label: Any, **more: Any) -> QuantityField:
    """A length in the garden's units."""
    return QuantityField(
        quantity=Quantity.LENGTH, units=units, label=label, **{"lowest": 0.1, "highest": FARTHEST, **more}
    )


class SiteForm(forms.ModelForm):
    class Meta:
        model = Site
        fields = ["width_m", "length_m", "north_deg", "walk_by"]
        widgets = {"walk_by": forms.RadioSelect}

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        units = self.instance.garden.units
        self.fields["width_m"] = length(
            units, _("The site from left to right"), required=False,
            help_text=_("Empty: the map is as large as what stands on it."),
        )  # fmt: skip
        self.fields["length_m"] = length(units, _("The site from top to bottom"), required=False)
        self.fields["north_deg"] = NumberField(
            label=_("Where north is"), lowest=0, highest=359.9,
            help_text=_("Degrees clockwise from straight up: 0 is up, 90 right, 180 down, 270 left."),
        )  # fmt: skip


class PlacedForm(forms.ModelForm):
    """A thing with a place on the map, typed in the garden's units."""

    place_required = True

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        where = {"lowest": -FARTHEST, "required": self.place_required}
        units = self.instance.garden.units
        self.fields["left_m"] = length(units, _("From the left edge of the map"), **where)
        self.fields["top_m"] = length(units, _("From the top edge of the map"), **where)
        self.fields["turn_deg"] = NumberField(
            label=_("Turned by"), required=False, lowest=0, highest=359.9,
            help_text=_("Degrees clockwise about its middle; nothing for a straight one."),
        )  # fmt: skip

    def clean_turn_deg(self) -> float:
        return self.cleaned_data["turn_deg"] or 0.0


class FeatureForm(PlacedForm):
    class Meta:
        model = SiteFeature
        fields = ["kind", "label", "left_m", "top_m", "width_m", "length_m", "turn_deg", "accessible"]

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["width_m"] = length(self.instance.garden.units, _("Width"))
        self.fields["length_m"] = length(self.instance.garden.units, _("Length"))


class RowsForm(forms.Form):
    """So many rows of so many, this size, this path."""

    rows = NumberField(label=_("Rows"), whole=True, lowest=1, highest=200)
    per_row = NumberField(label=_("Plots in each row"), whole=True, lowest=1, highest=500)
    down = forms.ChoiceField(
        label=_("The rows run"),
        choices=[("", _("from left to right")), ("yes", _("from top to bottom"))],
        required=False,
    )
    labels = forms.ChoiceField(
        label=_("Labels"),
        choices=[
            (Labels.LETTERS.value, _("A1, A2, A3 … B1, B2, B3")),
            (Labels.NUMBERS.value, _("1, 2, 3 … all through")),
            (Labels.PAIRS.value, _("1-1, 1-2 … 2-1, 2-2")),
        ],
    )
    first = forms.CharField(label=_("Begin with"), max_length=5, help_text=_("A row's letter, or a number."))
    before = forms.CharField(
        label=_("Before each label"), max_length=8, required=False,
        help_text=_("North becomes part of every label: North A1."), strip=False,
    )  # fmt: skip
    back = forms.BooleanField(label=_("Count every second row backwards, as one walks"), required=False)
    kind = forms.ChoiceField(label=_("Kind"), choices=PlotKind.choices)
    accessible = forms.BooleanField(label=_("They can be gardened from a wheelchair"), required=False)
    with_paths = forms.BooleanField(label=_("Draw the paths between the rows"), required=False)

    def __init__(self, garden: Garden, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        units = garden.units
        self.fields["width"] = length(units, _("A plot's side along the row"))
        self.fields["depth"] = length(units, _("Its side across the row"))
        self.fields["gap"] = length(units, _("Between neighbours"), required=False, lowest=0)
        self.fields["path"] = length(units, _("Path between rows"), required=False, lowest=0)
        self.fields["left"] = length(units, _("First plot from the left edge"), required=False, lowest=0)
        self.fields["top"] = length(units, _("First plot from the top edge"), required=False, lowest=0)
        self.fields["bed_height_m"] = length(
            units, _("Height of the beds, if they are raised"), required=False, lowest=0, highest=2
        )
        self.order_fields(
            [
                "rows", "per_row", "width", "depth", "gap", "path", "down", "left", "top", "labels", "first",
                "before", "back", "kind", "accessible", "bed_height_m", "with_paths",
            ]
        )  # fmt: skip

    def clean_first(self) -> int:
        number = letter_number(self.cleaned_data["first"])
        if number is None or number < 0:
            raise forms.ValidationError(_("Begin with a letter such as A, or with a number."))
        return number

    def clean(self) -> dict[str, Any]:
        data = super().clean() or {}
        if data.get("labels") == Labels.LETTERS and data.get("first") == 0:
            self.add_error("first", _("Letters begin with A."))
        return data

    def asked(self) -> Rows:
        """What was typed, as the geometry takes it."""
        data = self.cleaned_data
        return Rows(
            rows=data["rows"],
            per_row=data["per_row"],
            width=data["width"],
            depth=data["depth"],
            gap=data["gap"] or 0.0,
            path=data["path"] or 0.0,
            left=data["left"] or 0.0,
            top=data["top"] or 0.0,
            down=bool(data["down"]),
            labels=Labels(data["labels"]),
            first=data["first"],
            before=data["before"],
            back=data["back"],
        )

    def shared(self) -> dict[str, Any]:
        """What all of the plots have in common beside their size."""
        return {key: self.cleaned_data[key] for key in ("kind", "accessible", "bed_height_m", "with_paths")}


class WalkForm(forms.Form):
    """One plot moved to another place of the walk."""

    plot = forms.TypedChoiceField(label=_("Walk past plot"), coerce=int)
    after = forms.TypedChoiceField(label=_("right after"), coerce=int, required=False, empty_value=None)

    def __init__(self, plots: Sequence[Plot], *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.plots = plots
        choices = [(plot.pk, plot.label) for plot in plots]
        self.fields["plot"].choices = choices
        self.fields["after"].choices = [("", _("the gate, before all others")), *choices]

    def clean(self) -> dict[str, Any]:
        data = super().clean() or {}
        if data.get("plot") is not None and data.get("plot") == data.get("after"):
            self.add_error("after", _("That is the plot itself."))
        return data

    def order(self) -> list[int]:
        data = self.cleaned_data
        return moved_after([plot.pk for plot in self.plots], data["plot"], data["after"])


def parse_moves(places: list[str]) -> list[Move]:
    """Places that the map's script sends, `plot-12 3.4 5.6` in metres; anything else is passed over."""
    moves = []
    for text in places:
        key, *numbers = text.split()
        try:
            left, top = (float(number) for number in numbers)
        except ValueError:
            continue
        if abs(left) <= FARTHEST and abs(top) <= FARTHEST:  # no for "nan" and "inf", too
            moves.append(Move(key, left, top))
    return moves
