"""Form fields for days and times of day, and for days of the year typed as people write them."""

from __future__ import annotations

from typing import Any

from django import forms
from django.utils.dates import MONTHS, MONTHS_3
from django.utils.translation import gettext_lazy, override

from plots.month_days import parse_month_day
from plots.months import AmbiguousDayError, NotADayError, month_and_day
from plots.wording import month_day_text


def day_input() -> forms.DateInput:
    """The browser's own calendar; it reads and sends days as ISO 8601 whatever it shows."""
    return forms.DateInput(attrs={"type": "date"}, format="%Y-%m-%d")


def time_input() -> forms.TimeInput:
    return forms.TimeInput(attrs={"type": "time"}, format="%H:%M")


class MonthDayField(forms.CharField):
    """A day of the year, as "May 10" or "10 May"; cleaned to (month, day)."""

    default_error_messages = {
        "unreadable": gettext_lazy("“%(typed)s” is not a day of the year. Write it like %(example)s."),
        "ambiguous": gettext_lazy(
            "“%(typed)s” may be two days of the year. Write the month's name, like %(example)s."
        ),
    }

    def __init__(self, **kwargs: Any) -> None:
        super().__init__(max_length=30, **kwargs)

    def clean(self, value: Any) -> tuple[int, int] | None:
        """Month and day, or `None` for an empty field."""
        text = super().clean(value)
        if not text:
            return None
        params = {"typed": text, "example": month_day_text((5, 10))}
        try:
            return month_and_day(text, _month_names())
        except AmbiguousDayError as error:
            raise forms.ValidationError(self.error_messages["ambiguous"], "ambiguous", params) from error
        except NotADayError as error:
            raise forms.ValidationError(self.error_messages["unreadable"], "unreadable", params) from error

    def prepare_value(self, value: Any) -> Any:
        """A stored day in the page's language, or what was typed."""
        return month_day_text(value) if isinstance(value, tuple) else value


class KeptMonthDayField(MonthDayField):
    """The same, for the column of that name in `plots.models.fields`: cleaned to `MM-DD`, or empty."""

    def clean(self, value: Any) -> str:  # type: ignore[override]
        found = super().clean(value)
        return "{:02}-{:02}".format(*found) if found else ""

    def prepare_value(self, value: Any) -> Any:
        found = parse_month_day(value) if isinstance(value, str) else None
        return super().prepare_value(found) if found else value

    def has_changed(self, initial: Any, data: Any) -> bool:
        return bool(self.prepare_value(initial) != data)


def _month_names() -> list[dict[str, int]]:
    """Names and short names of months in the page's language, then in English."""
    own = _names_now()
    with override("en"):
        return own + _names_now()


def _names_now() -> list[dict[str, int]]:
    return [
        {str(name).casefold().rstrip("."): number for number, name in names.items()}
        for names in (MONTHS, MONTHS_3)
    ]
