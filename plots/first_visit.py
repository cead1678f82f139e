"""The code that lets the first visitor of a fresh installation in."""

from __future__ import annotations

import hmac
from hashlib import sha256

_LETTERS = "ABCDEFGHJKLMNPQRSTUVWXYZ23456789"  # without I, O, 0 and 1, which are misread


def start_code(secret_key: str) -> str:
    """Sixty bits from the installation's secret key, so that every worker process knows the same code.

    >>> start_code("a secret")
    'XESL-CSNA-XC8M'
    """
    digest = hmac.digest(secret_key.encode(), b"trugbook first visit", sha256)
    letters = "".join(_LETTERS[byte % 32] for byte in digest[:12])
    return "-".join(letters[i : i + 4] for i in (0, 4, 8))


def code_matches(typed: str, secret_key: str) -> bool:
    """Whether the typed code is right, in capitals or not, with or without its dashes."""
    plain = "".join(character for character in typed.upper() if character.isalnum())
    return hmac.compare_digest(plain.encode(), start_code(secret_key).replace("-", "").encode())
