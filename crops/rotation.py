"""Which year a crop family may come back to a bed."""

from __future__ import annotations

YEARS_BETWEEN = (2, 3)
"""Full years without the family: Iowa State University Extension, crop rotation FAQ."""


def back_from(year: int, gap_years: int) -> int:
    """The first year in which a family that stood there in `year` may come back, so many full years left out.

    >>> back_from(2024, 2)
    2027
    """
    return year + gap_years + 1
