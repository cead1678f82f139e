"""Several rows chosen at once."""

from __future__ import annotations

from typing import Any

from django import forms

LONGEST_KEY = 18


class SeveralField(forms.ModelMultipleChoiceField):
    """Refuses numbers that no key can be, which the database would answer with a fault."""

    widget = forms.CheckboxSelectMultiple

    def clean(self, value: Any) -> Any:
        for key in value or []:
            if len(str(key)) > LONGEST_KEY:
                raise forms.ValidationError(
                    self.error_messages["invalid_choice"], code="invalid_choice", params={"value": key}
                )
        return super().clean(value)
