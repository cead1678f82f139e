"""Changes that more rests on than this app knows of: another app may first show what they move.

`schedules` says that it does so (`shows_first`), as apps say how their changes are taken back.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Protocol

from django.http import HttpRequest, HttpResponse

from plots.models import Garden


class Preview(Protocol):
    """What a change would move: a part for the form that is shown again, or a page for a button alone."""

    template: str

    def page(self, request: HttpRequest, garden: Garden, what: str) -> HttpResponse: ...


Keep = Callable[[], object]
Show = Callable[[HttpRequest, Garden, Keep], Preview | None]
_SHOWS: list[Show] = []


def shows_first(show: Show) -> Show:
    """Says what keeps changes: it gives what is to be looked at first, or keeps and gives `None`."""
    _SHOWS[:] = [show]
    return show


def kept_or_shown(request: HttpRequest, garden: Garden, keep: Keep) -> Preview | None:
    """`None` once the change is kept; else what it would move."""
    if not _SHOWS:
        keep()
        return None
    return _SHOWS[0](request, garden, keep)
