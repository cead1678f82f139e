"""Forms of the crops: finding one, a garden's own crops, and its varieties."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from django import forms
from django.db import models
from django.forms.boundfield import BoundField
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from crops.facts import CropFacts, with_changes
from crops.models import Crop, SeedTable, Variety
from crops.sheet import FACT_FIELDS, LINES, SECTIONS, Flaw, Measure, flaws
from crops.wording.facts import SECTION_TITLES, fact_text, yes_or_no
from crops.wording.names import table_name
from plots.forms.quantities import NumberField, QuantityField
from plots.models import Garden
from plots.quantities import Quantity
from plots.spelling import folded

_QUANTITIES = {
    Measure.SHORT_LENGTH: Quantity.SHORT_LENGTH,
    Measure.TEMPERATURE: Quantity.TEMPERATURE,
    Measure.VOLUME: Quantity.VOLUME,
}
_YES_NO = ("true", "false")


@dataclass(frozen=True)
class FieldSection:
    """The fields of one section of the sheet; closed when nothing in it is filled in, wrong or needed."""

    key: str
    title: str
    fields: list[BoundField]
    open: bool


class FactsForm(forms.ModelForm):
    """A form over the columns of facts, in the garden's units; the subclass says what blank fields mean."""

    garden: Garden

    def __init__(self, *args: Any, garden: Garden, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.garden = garden
        for name in FACT_FIELDS:
            self.fields[name] = self._fact_field(name)

    def _fact_field(self, name: str) -> forms.Field:
        line, column = LINES[name], self._meta.model._meta.get_field(name)
        common = {
            "label": _column_name(self._meta.model, name),
            "required": False,
            "help_text": " ".join(str(text) for text in (column.help_text, self.blank_text(name)) if text),
        }
        if line.measure in _QUANTITIES:
            quantity, limits = _QUANTITIES[line.measure], {"lowest": line.lowest, "highest": line.highest}
            return QuantityField(quantity=quantity, units=self.garden.units, **limits, **common)
        if line.measure == Measure.TEXT:
            return forms.CharField(max_length=80, **common)
        if line.measure == Measure.CHOICE:
            return forms.ChoiceField(choices=self._choices(name, column), **common)
        if line.measure == Measure.YES_NO:
            return self.yes_no_field(name, common)
        whole = isinstance(column, models.IntegerField)
        return NumberField(whole=whole, lowest=line.lowest, highest=line.highest, **common)

    def _choices(self, name: str, column: models.Field) -> list[tuple[str, str]]:
        return [("", self.blank_choice(name)), *column.flatchoices]

    def blank_text(self, name: str) -> str:
        """What an empty text field means; a crop and a variety mean different things by it."""
        raise NotImplementedError

    def blank_choice(self, name: str) -> str:
        """What no choice means, likewise."""
        raise NotImplementedError

    def yes_no_field(self, name: str, common: dict[str, Any]) -> forms.Field:
        """A tick for a crop; for a variety, which may leave it to its crop, a choice."""
        raise NotImplementedError

    def facts_as_typed(self) -> CropFacts:
        """The facts as they would be with what is typed, to see whether they agree."""
        raise NotImplementedError

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or self.cleaned_data
        for flaw, first, second in flaws(self.facts_as_typed()):
            if first not in self.errors and second not in self.errors:
                self.add_error(self._place(flaw, first, second), self._flaw_text(flaw, first, second))
        return cleaned

    def _place(self, flaw: Flaw, first: str, second: str) -> str:
        """The field to say it beside: of two that are out of order, one that was typed just now."""
        typed_second = second in self.changed_data and first not in self.changed_data
        return second if flaw == Flaw.OUT_OF_ORDER and typed_second else first

    def _flaw_text(self, flaw: Flaw, first: str, second: str) -> str:
        facts = self.facts_as_typed()
        model = self._meta.model
        names = {"first": _column_name(model, first), "second": _column_name(model, second)}
        if flaw == Flaw.OUT_OF_ORDER:
            values = {
                "low": fact_text(facts, first, self.garden.units),
                "high": fact_text(facts, second, self.garden.units),
            }
            return _("“%(first)s” (%(low)s) cannot be more than “%(second)s” (%(high)s).") % (names | values)
        if flaw == Flaw.HALF_GIVEN:
            return _("“%(second)s” is given, so this must be given too; the same figure will do.") % names
        return _("Say from which day the days to maturity are counted.")

    def given(self) -> dict[str, Any]:
        """What is typed and readable, by the names of facts."""
        values = {name: self.cleaned_data.get(name) for name in ("botanical_name", *FACT_FIELDS)}
        return {name: value for name, value in values.items() if value is not None and value != ""}

    def leading(self) -> list[BoundField]:
        """The fields that stand before the sections: the name and what goes with it."""
        return [self[name] for name in self.fields if name not in FACT_FIELDS]

    def sections(self) -> Iterator[FieldSection]:
        """The fields of facts, section by section, for the page."""
        for section in SECTIONS:
            bound = [self[name] for name in section.fields]
            to_see = any(
                field.errors or field.field.required or field.value() not in (None, "", False)
                for field in bound
            )
            yield FieldSection(section.key, str(SECTION_TITLES[section.key]), bound, to_see)


class VarietyForm(FactsForm):
    """A garden's variety: blank means as the crop, whose own figure stands beside each field."""

    class Meta:
        model = Variety
        fields = ["name", "note", "botanical_name", *FACT_FIELDS]
        widgets = {"note": forms.Textarea(attrs={"rows": 2})}
        help_texts = {"note": gettext_lazy("A seed packet, a catalogue, your own seasons.")}

    def __init__(self, *args: Any, garden: Garden, crop: Crop, **kwargs: Any) -> None:
        self.crop, self.crop_facts = crop, crop.facts()
        super().__init__(*args, garden=garden, **kwargs)
        self.fields["botanical_name"].help_text = _as_crop(self.crop_facts.botanical_name)

    def blank_text(self, name: str) -> str:
        if LINES[name].measure in (Measure.CHOICE, Measure.YES_NO):
            return ""
        return _as_crop(fact_text(self.crop_facts, name, self.garden.units))

    def blank_choice(self, name: str) -> str:
        return _as_crop(fact_text(self.crop_facts, name, self.garden.units))

    def yes_no_field(self, name: str, common: dict[str, Any]) -> forms.Field:
        as_crop = _as_crop(yes_or_no(getattr(self.crop_facts, name)))
        choices = [("", as_crop), *((value, yes_or_no(value == "true")) for value in _YES_NO)]
        return forms.TypedChoiceField(
            choices=choices, coerce=lambda value: value == "true", empty_value=None, **common
        )

    def get_initial_for_field(self, field: forms.Field, field_name: str) -> Any:
        value = super().get_initial_for_field(field, field_name)
        return str(value).lower() if isinstance(value, bool) else value

    def clean_name(self) -> str:
        name: str = self.cleaned_data["name"]
        others = Variety.objects.filter(garden=self.garden, crop=self.crop).exclude(pk=self.instance.pk)
        if folded(name) in {folded(other) for other in others.values_list("name", flat=True)}:
            raise forms.ValidationError(_("This garden already has a variety of this name."))
        return name

    def facts_as_typed(self) -> CropFacts:
        return with_changes(self.crop_facts, self.given())


class CropForm(FactsForm):
    """A crop of the garden's own: blank means unknown."""

    class Meta:
        model = Crop
        fields = ["name", "botanical_name", "family", "note", "emergence_table", *FACT_FIELDS]
        widgets = {"note": forms.Textarea(attrs={"rows": 2})}
        help_texts = {
            "note": gettext_lazy("A book, a seed packet, your own seasons."),
            "emergence_table": gettext_lazy("A crop whose seed comes up in about the same time."),
        }

    def __init__(self, *args: Any, garden: Garden, **kwargs: Any) -> None:
        super().__init__(*args, garden=garden, **kwargs)
        for name in ("hardiness", "method"):
            self.fields[name].required = True
        tables = self.fields["emergence_table"]
        tables.queryset = SeedTable.objects.filter(readings__isnull=False).distinct()
        tables.label_from_instance = lambda table: table_name(table.key)
        tables.empty_label = _("no crop that we know")

    def blank_text(self, name: str) -> str:
        return ""

    def blank_choice(self, name: str) -> str:
        return _("choose one") if name in ("hardiness", "method") else _("not known")

    def yes_no_field(self, name: str, common: dict[str, Any]) -> forms.Field:
        return forms.BooleanField(**common)

    def clean_name(self) -> str:
        name: str = self.cleaned_data["name"]
        others = Crop.objects.filter(garden=self.garden).exclude(pk=self.instance.pk)
        if folded(name) in {folded(other) for other in others.values_list("name", flat=True)}:
            raise forms.ValidationError(_("This garden already has a crop of this name."))
        return name

    def facts_as_typed(self) -> CropFacts:
        given = {"botanical_name": "", "hardiness": "", "method": "", **self.given()}
        return CropFacts(slug="", name="", family="", **given)


def _as_crop(text: str) -> str:
    return _("As the crop: %(text)s") % {"text": text} if text else _("As the crop: not known")


def _column_name(model: type[models.Model], name: str) -> str:
    text = str(model._meta.get_field(name).verbose_name)
    return text[:1].upper() + text[1:]
