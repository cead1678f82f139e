"""How names and addresses are spelled before they are kept or compared."""

from __future__ import annotations

import unicodedata


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
