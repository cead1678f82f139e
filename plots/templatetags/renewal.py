"""Filters of the season turn: `{{ reason|why }}`."""

from __future__ import annotations

from django import template

from plots.renewal import Reason
from plots.wording.renewal import reason_text

register = template.Library()


@register.filter
def why(reason: Reason) -> str:
    """The rule behind a proposal."""
    return reason_text(reason)


@register.filter
def standing_words(word: str, words: dict[str, str]) -> str:
    """What is proposed or decided, in the words of the list's filter."""
    return str(words.get(word, word))
