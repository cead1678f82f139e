"""Form fields for measured values: typed in the garden's units or any other, kept in SI."""

from __future__ import annotations

from typing import Any

from django import forms
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from plots.quantities import (
    Quantity,
    QuantityError,
    TwoWaysError,
    as_typed,
    parse_number,
    parse_quantity,
    unit_for,
)
from plots.wording import number_text, quantity_text, unit_text

_TEXT_LONGEST = 40


class _TypedNumberField(forms.Field):
    """A number that people type as they write it: 2.5, 2,5, 1/4, 1 1/2."""

    widget = forms.TextInput
    default_error_messages = {
        "unreadable": gettext_lazy("“%(typed)s” cannot be read as a number. Write it like 2.5 or 1 1/2."),
        "two_ways": gettext_lazy(
            "“%(typed)s” can be read in two ways: please write %(whole)s or %(parted)s."
        ),
        "too_low": gettext_lazy("This is too little: at least %(limit)s."),
        "nothing": gettext_lazy("This must be more than %(limit)s."),
        "too_high": gettext_lazy("This is too much: at most %(limit)s."),
    }

    def __init__(self, *, lowest: float | None = None, highest: float | None = None, **kwargs: Any) -> None:
        super().__init__(**kwargs)
        self.lowest, self.highest = lowest, highest

    def parse(self, text: str) -> float:
        return parse_number(text)

    def limit_text(self, limit: float) -> str:
        return number_text(limit)

    def to_python(self, value: Any) -> float | None:
        text = str(value or "").strip()
        if not text:
            return None
        try:
            if len(text) > _TEXT_LONGEST:
                raise QuantityError(text)
            return self.parse(text)
        except TwoWaysError as error:
            ways = {"whole": text.replace(",", ""), "parted": text.replace(",", ".")}
            raise self._wrong("two_ways", typed=text, **ways) from error
        except QuantityError as error:
            raise self._wrong("unreadable", typed=text) from error

    def validate(self, value: Any) -> None:
        super().validate(value)
        if value is None:
            return
        if self.lowest is not None and value < self.lowest:
            limit, nothing = self.limit_text(self.lowest), self.limit_text(0)
            # A limit may be too small for the garden's unit to show.
            raise self._wrong("nothing" if limit == nothing and self.lowest > 0 else "too_low", limit=limit)
        if self.highest is not None and value > self.highest:
            raise self._wrong("too_high", limit=self.limit_text(self.highest))

    def has_changed(self, initial: Any, data: Any) -> bool:
        try:
            return self.to_python(data) != initial
        except forms.ValidationError:
            return True

    def widget_attrs(self, widget: forms.Widget) -> dict[str, Any]:
        return {"autocomplete": "off", "maxlength": str(_TEXT_LONGEST), **super().widget_attrs(widget)}

    def _wrong(self, code: str, **params: object) -> forms.ValidationError:
        return forms.ValidationError(self.error_messages[code], code=code, params=params)


class NumberField(_TypedNumberField):
    """A plain number; with `whole`, a whole one."""

    default_error_messages = {
        "not_whole": gettext_lazy("This must be a whole number."),
        "unreadable_whole": gettext_lazy("“%(typed)s” cannot be read as a number. Write it like 12."),
    }

    def __init__(self, *, whole: bool = False, **kwargs: Any) -> None:
        super().__init__(**kwargs)
        self.whole = whole
        if whole:
            self.error_messages["unreadable"] = self.error_messages["unreadable_whole"]

    def to_python(self, value: Any) -> float | int | None:
        number = super().to_python(value)
        if number is None or not self.whole:
            return number
        if number != int(number):
            raise self._wrong("not_whole")
        return int(number)

    def prepare_value(self, value: Any) -> Any:
        return f"{value:.10g}" if isinstance(value, int | float) else value


class QuantityField(_TypedNumberField):
    """A measured value in the garden's unit, which the label names; `lowest` and `highest` are SI.

    A unit typed beside the number counts: `18 cm` means that in a garden of feet and inches, too.
    """

    default_error_messages = {
        "unreadable": gettext_lazy(
            "“%(typed)s” cannot be read. Write it like %(example)s or %(example)s %(unit)s."
        ),
    }

    def __init__(self, *, quantity: Quantity, units: str, label: str = "", **kwargs: Any) -> None:
        self.quantity, self.units = quantity, units
        self._shown: tuple[str, float] | None = None
        self.unit = unit_for(quantity, units)
        shown = unit_text(self.unit)
        super().__init__(label=_("%(label)s, %(unit)s") % {"label": label, "unit": shown}, **kwargs)

    def get_bound_field(self, form: forms.BaseForm, field_name: str) -> forms.BoundField:
        """Notes what the form shows at first: sent back as it stood, it is that value, not its rounding."""
        kept = form.get_initial_for_field(self, field_name)
        self._shown = (self.prepare_value(kept), kept) if isinstance(kept, int | float) else None
        return super().get_bound_field(form, field_name)

    def parse(self, text: str) -> float:
        if self._shown is not None and text == self._shown[0]:
            return self._shown[1]
        return parse_quantity(text, self.quantity, self.units)

    def limit_text(self, limit: float) -> str:
        return quantity_text(limit, self.quantity, self.units)

    def prepare_value(self, value: Any) -> Any:
        return as_typed(value, self.unit) if isinstance(value, int | float) else value

    def _wrong(self, code: str, **params: object) -> forms.ValidationError:
        example = "1/4" if self.unit.fractions else "2.5"
        return super()._wrong(code, example=example, unit=unit_text(self.unit), **params)
