"""Codes on the stakes of plots: short, at random, and hard to misread."""

from __future__ import annotations

import secrets

# No vowels, so that they spell nothing; of what looks alike at most one: not 0 O, 1 I L, 2 Z, 5 S, 8 B, U V.
LETTERS = "34679CDFGHJKMNPQRTWXY"
LENGTH = 9  # 7.9e11 codes: with 100,000 plots a guess finds one in eight million times


def new_code() -> str:
    """A code that nobody can guess from another."""
    return "".join(secrets.choice(LETTERS) for _letter in range(LENGTH))


def read_code(typed: str) -> str | None:
    """A code as somebody typed it off a stake; `None` for what can be none.

    >>> read_code("cdf-34m rt7"), read_code("CDF34MRT1")
    ('CDF34MRT7', None)
    """
    code = typed.upper().replace("-", "").replace(" ", "")
    return code if len(code) == LENGTH and set(code) <= set(LETTERS) else None
