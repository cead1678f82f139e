"""How names and addresses are spelled before they are kept or compared."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Collection


def tidy(text: str) -> str:
    """`text` in composed form (NFC) with single spaces, so that the same name is always the same characters.

    >>> tidy("  Nguye\u0302\u0303n   Thi ") == "Nguy\u1ec5n Thi"
    True
    """
    return " ".join(unicodedata.normalize("NFC", text).split())


def folded(text: str) -> str:
    """`text` tidied, and without differences of case: two spellings of one sign-in name are equal.

    >>> folded(" ÁNH ") == folded("ánh")
    True
    """
    return tidy(tidy(text).casefold())


def natural_key(label: str) -> tuple[tuple[int, int, str], ...]:
    """A key that sorts labels as people read them.

    >>> sorted(["A10", "A2", "B1"], key=natural_key)
    ['A2', 'A10', 'B1']
    """
    parts = re.split(r"([0-9]+)", folded(label))
    return tuple(
        (0, int(part), "") if part.isascii() and part.isdigit() else (1, 0, part) for part in parts if part
    )


def first_free(stem: str, taken: Collection[str], joint: str) -> str:
    """`stem`, or with the smallest number from 2 behind it that is not taken.

    >>> first_free("jo.ash", {"jo.ash", "jo.ash.2"}, ".")
    'jo.ash.3'
    """
    number = 1
    while (candidate := stem if number == 1 else f"{stem}{joint}{number}") in taken:
        number += 1
    return candidate


def name_key(name: str) -> str:
    """A key that sorts names without regard to case and accents, so that Ç stands with C.

    >>> sorted(["Tom", "Çiğdem", "anna"], key=name_key)
    ['anna', 'Çiğdem', 'Tom']
    """
    return "".join(
        mark for mark in unicodedata.normalize("NFKD", folded(name)) if not unicodedata.combining(mark)
    )
