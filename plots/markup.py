"""Markup that our own code wrote, element by element."""

from __future__ import annotations


class Svg(str):
    """Markup made by ElementTree, which escapes every text and attribute, so that a template need not."""

    __slots__ = ()

    def __html__(self) -> str:
        return str(self)
