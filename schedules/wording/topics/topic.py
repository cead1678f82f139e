"""What a topic of a workshop pack is: a sheet that fills with the numbers of a place, and its questions."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass

from django.utils.functional import Promise
from django.utils.translation import gettext as _

from schedules.place import Place
from schedules.reports.document import Page
from schedules.seasons import Hemisphere


@dataclass(frozen=True, slots=True)
class Question:
    """One question of the quiz: `right` counts from 0 among `choices`, `why` is a sentence."""

    text: str
    choices: tuple[str, ...]
    right: int
    why: str


@dataclass(frozen=True, slots=True)
class Own:
    """What a reader writes down themselves about a topic: a heading, and each column's share of the width."""

    heading: Promise
    columns: Mapping[Promise, float]


@dataclass(frozen=True, slots=True)
class Topic:
    """`write` adds the blocks of the sheet; its title, its sources and what is `own` stand here.

    A topic says what to do instead wherever something is not known of the place; so it fits any. `about` is
    the sentence by which it is chosen.
    """

    code: str
    name: str | Promise
    about: str | Promise
    write: Callable[[Page, Place], None]
    questions: Callable[[Place], Sequence[Question]]
    sources: tuple[str, ...]
    own: Own

    @property
    def kind(self) -> str:
        """Its word among the kinds of the print table."""
        return f"topic-{self.code}"

    def add_to(self, page: Page, place: Place) -> None:
        """The whole sheet, on a page of its own; what is left of it is ruled for the reader's own dates."""
        page.next_sheet(str(self.name), _subtitle(place))
        self.write(page, place)
        page.notes(
            str(self.own.heading), [str(title) for title in self.own.columns], [*self.own.columns.values()]
        )
        page.sources(self.sources)


def _subtitle(place: Place) -> str:
    """The place, and the season that its dates are of."""
    if place.basis is None:
        return place.name
    words = {"place": place.name, "year": place.year, "next": f"{(place.year + 1) % 100:02}"}
    if place.hemisphere is Hemisphere.SOUTH:
        return _("%(place)s, dates for %(year)d/%(next)s") % words
    return _("%(place)s, dates for %(year)d") % words
