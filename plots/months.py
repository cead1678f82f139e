"""Reads a day of the year as people write it, without guessing which number is the month."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from datetime import date

_LEAP_YEAR = 2000
_LEAST_LETTERS = 3
_PARTS = re.compile(r"[^\W\d_]+|\d+")


class NotADayError(ValueError):
    """No day of the year can be read from the text."""


class AmbiguousDayError(ValueError):
    """Two numbers, either of which could be the month."""


def month_and_day(text: str, month_names: Iterable[Mapping[str, int]]) -> tuple[int, int]:
    """Month and day of "May 10", "10 May", "10. mai", "26/5" or "5/26".

    `month_names` are tables of lower-case names to numbers; the first letters of a name are enough when
    they are three or more and fit one month alone. Raises `AmbiguousDayError` for "5/10", `ValueError` for
    what is no day.

    >>> month_and_day("26 mai", [{"mars": 3, "mai": 5}]), month_and_day("5/26", [])
    ((5, 26), (5, 26))
    """
    parts = _PARTS.findall(text.casefold())
    words = [part for part in parts if not part.isdecimal()]
    numbers = [int(part) for part in parts if part.isdecimal()]
    if len(words) == 1 and len(numbers) == 1:
        return _checked(_month(words[0], month_names), numbers[0])
    if words or len(numbers) != 2:
        raise NotADayError(text)
    low, high = sorted(numbers)
    if low != high and high <= 12:
        raise AmbiguousDayError(text)
    return _checked(low, high)


def _month(word: str, month_names: Iterable[Mapping[str, int]]) -> int:
    for table in month_names:
        if word in table:
            return table[word]
        found = {number for name, number in table.items() if name.startswith(word)}
        if len(word) >= _LEAST_LETTERS and len(found) == 1:
            return found.pop()
    raise NotADayError(word)


def _checked(month: int, day: int) -> tuple[int, int]:
    try:
        date(_LEAP_YEAR, month, day)
    except ValueError as error:
        raise NotADayError(f"{month}-{day}") from error
    return month, day
