"""Text columns that keep one spelling, whatever was typed or looked up, alike on every database."""

from __future__ import annotations

from typing import Any

from django.core.exceptions import ValidationError
from django.core.validators import EmailValidator
from django.db import models
from django.utils.translation import gettext_lazy as _

from plots.month_days import parse_month_day
from plots.spelling import folded, tidy


class _SpelledField(models.CharField):
    def spell(self, value: str) -> str:
        """The one spelling that is kept; each column below has its own."""
        raise NotImplementedError

    def to_python(self, value: Any) -> Any:
        """Also prepares what is saved or looked up, because `CharField.get_prep_value` asks here."""
        value = super().to_python(value)
        if value is None:
            return None
        return self.spell(value) or (None if self.null else "")

    def pre_save(self, model_instance: models.Model, add: bool) -> Any:
        value = self.get_prep_value(getattr(model_instance, self.attname))
        setattr(model_instance, self.attname, value)
        return value


class TidyField(_SpelledField):
    """Composed characters and single spaces: the accents of a decomposed name would be misplaced on paper."""

    def spell(self, value: str) -> str:
        return tidy(value)


class FoldedField(_SpelledField):
    """Also without case, for what people sign in with; SQLite's own LOWER knows only A to Z."""

    def spell(self, value: str) -> str:
        return folded(value)


an_email_address = EmailValidator(_("This does not look like an email address."))


class MonthDayField(models.CharField):
    """A day of the year, kept as `MM-DD`; empty where the garden has none. See `plots.month_days`."""

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        kwargs.setdefault("max_length", 5)
        super().__init__(*args, **kwargs)
        self.validators = [*self.validators, _validate_month_day]


def _validate_month_day(value: str) -> None:
    if value and parse_month_day(value) is None:
        raise ValidationError(_("“%(value)s” is not a day of the year."), params={"value": value})
