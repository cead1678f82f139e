"""What a topic of a workshop pack is: a sheet that fills with the numbers of a place, and its questions."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from django.utils.functional import Promise

from schedules.place import Place
from schedules.reports.document import Page


@dataclass(frozen=True, slots=True)
class Question:
    """One question of the quiz: `right` counts from 0 among `choices`, `why` is a sentence."""

    text: str
    choices: tuple[str, ...]
    right: int
    why: str


@dataclass(frozen=True, slots=True)
class Topic:
    """`write` adds the blocks of the sheet, without its title and its sources; both stand here.

    A topic says what to do instead wherever something is not known of the place; so it fits any.
    """

    code: str
    name: str | Promise
    write: Callable[[Page, Place], None]
    questions: Callable[[Place], Sequence[Question]]
    sources: tuple[str, ...]

    @property
    def kind(self) -> str:
        """Its word among the kinds of the print table."""
        return f"topic-{self.code}"

    def add_to(self, page: Page, place: Place) -> None:
        """The whole sheet, on a page of its own."""
        page.next_sheet(str(self.name), place.name)
        self.write(page, place)
        page.sources(self.sources)
