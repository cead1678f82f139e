"""Forms of a garden's rules, one a block, made from the columns of the block."""

from __future__ import annotations

from typing import Any

from django import forms
from django.db import models
from django.utils.text import capfirst
from django.utils.translation import gettext as _

from plots.forms.days import KeptMonthDayField
from plots.models import GardenRules, ListPriority, fields_in
from plots.models.fields import MonthDayField

# What comes before the date only by a question that somebody was asked.
QUESTIONS = {ListPriority.NEAR: "near_question", ListPriority.GROUP: "group_question"}


def _form_field(column: models.Field, **kwargs: Any) -> forms.Field | None:
    if isinstance(column, MonthDayField):
        return KeptMonthDayField(
            label=capfirst(str(column.verbose_name)), help_text=column.help_text, required=not column.blank
        )
    return column.formfield(**kwargs)


class RulesForm(forms.ModelForm):
    """What the rules of any one block have in common."""

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or self.cleaned_data
        first = {cleaned.get(f"priority_{number}") for number in (1, 2, 3)}
        for priority, question in QUESTIONS.items():
            if priority in first and not cleaned.get(question) and question not in self.errors:
                self.add_error(question, _("Write the question; who joins is asked it, and it decides."))
        return cleaned


def rules_form(block: str) -> type[forms.ModelForm]:
    """The form of one block; see `plots.models.BLOCKS`."""
    return forms.modelform_factory(
        GardenRules, form=RulesForm, fields=fields_in(block), formfield_callback=_form_field
    )
