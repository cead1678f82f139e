"""Botanical names, taken apart for print: Latin names in italics, ranks, signs and groups upright."""

from __future__ import annotations

import re

_UPRIGHT = re.compile(r"(\s*(?:\([^)]*\)|\bsubsp\.|\bvar\.|\bf\.|\b[x×]\b|/)\s*)")


def parts(name: str) -> list[tuple[str, bool]]:
    """The pieces of a botanical name in order, each with whether it is set in italics.

    >>> parts("Daucus carota subsp. sativus")
    [('Daucus carota', True), (' subsp. ', False), ('sativus', True)]
    >>> parts("Fragaria x ananassa")
    [('Fragaria', True), (' × ', False), ('ananassa', True)]
    """
    pieces = [piece for piece in _UPRIGHT.split(name) if piece]
    return [
        (re.sub(r"\bx\b", "×", piece), False) if _UPRIGHT.fullmatch(piece) else (piece, True)
        for piece in pieces
    ]
