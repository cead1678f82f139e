"""Forms of a garden's rules, one a block, made from the columns of the block."""

from __future__ import annotations

from typing import Any

from django import forms
from django.db import models
from django.utils.text import capfirst

from plots.forms.days import KeptMonthDayField
from plots.models import GardenRules, fields_in
from plots.models.fields import MonthDayField


def _form_field(column: models.Field, **kwargs: Any) -> forms.Field | None:
    if isinstance(column, MonthDayField):
        return KeptMonthDayField(
            label=capfirst(str(column.verbose_name)), help_text=column.help_text, required=not column.blank
        )
    return column.formfield(**kwargs)


def rules_form(block: str) -> type[forms.ModelForm]:
    """The form of one block; see `plots.models.BLOCKS`."""
    return forms.modelform_factory(GardenRules, fields=fields_in(block), formfield_callback=_form_field)
