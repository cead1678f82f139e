"""Results of the ground and its people, in words."""

from plots.wording.days import month_day_text
from plots.wording.powers import power_text
from plots.wording.quantities import (
    NO_BREAK,
    number_text,
    quantity_text,
    range_text,
    span_text,
    unit_text,
)

__all__ = [
    "NO_BREAK",
    "month_day_text",
    "number_text",
    "power_text",
    "quantity_text",
    "range_text",
    "span_text",
    "unit_text",
]
