"""What a kind of sheet is: what it asks for, who may print it, and what is made when it is asked.

A sheet is made once, as `Made`; the preview, the PDF, the CSV and the iCalendar file all come from that.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date
from enum import StrEnum
from functools import cache
from typing import Any

from django.db.models import QuerySet
from django.utils.functional import Promise

from plots.access import may_run, visible_plots
from plots.models import Garden, Plot, User
from plots.powers import Power
from schedules.entries import Entry
from schedules.reports.document import Document, Head

Words = str | Promise


class Group(StrEnum):
    """Under which heading a kind stands on the table."""

    CALENDARS = "calendars"
    WORKSHOPS = "workshops"
    HANDOUTS = "handouts"
    GROUND = "ground"
    PEOPLE = "people"
    WORK = "work"
    SUMMARY = "summary"


@dataclass(frozen=True, slots=True)
class GuestPlace:
    """A guest's own place: its name, and the days of the year (MM-DD) of its frosts; one may be empty."""

    name: str
    last_frost: str = ""
    first_frost: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """What is to be printed, for whom and how; `language` is already the one in force while a kind makes it.

    For `both_sides` of the paper, each one's sheets begin on a front.

    `choices` holds what the kind's `asks` name, cleaned:

    - "plots": list of `Plot`, in the order of the walk; never empty
    - "member": `User`, a member of the garden
    - "year": int
    - "since", "until": `date`, both counted; asked for by "period"
    - "week": the Monday of a week; "folded": bool
    - "crops": list of `crops.models.Crop`; empty where all of the kind's usual ones are meant
    - "workshop": `crops.models.Workshop`
    - "workday": `Workday`, "notice": `Notice`, "text": `AgreementText`
    - "place": `GuestPlace`, or `None` for the garden itself
    """

    garden: Garden
    user: User | None
    today: date
    paper: str
    language: str
    large: bool = False
    both_sides: bool = False
    choices: Mapping[str, Any] = field(default_factory=dict)

    def head(self, title: str, *, subtitle: str = "", note: str = "") -> Head:
        """The head of its sheet; `note` says where its dates came from, or who may read it."""
        return Head(
            garden=self.garden.name,
            title=title,
            subtitle=subtitle,
            note=note,
            paper=self.paper,
            language=self.language,
            printed_on=self.today,
            large=self.large,
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Made:
    """A sheet, made. `document` is what page and CSV show.

    The PDF is `laid_out()` where a sheet needs places of its own, else it is set from the document. `entries`
    are the rows of its iCalendar file, where there is one. `people` are the keys of users whose names or
    doings it tells although they do not stand in it in full; who is named in full is found by itself.
    """

    document: Document
    laid_out: Callable[[], bytes] | None = None
    entries: Sequence[Entry] = ()
    people: frozenset[int] = frozenset()


def anybody(user: User, garden: Garden) -> bool:
    """Every member of the garden: who asks has been let in already."""
    return True


def coordinators(user: User, garden: Garden) -> bool:
    """Coordinators alone."""
    return may_run(user, garden)


@cache
def trusted(power: Power) -> Callable[[User, Garden], bool]:
    """Coordinators, and helpers trusted with `power`."""
    return lambda user, garden: may_run(user, garden, power)


@dataclass(frozen=True, slots=True, kw_only=True)
class Kind:
    """A kind of sheet: its word in addresses, its name, one sentence about it.

    `asks` are names of choices (see `Asked.choices`). `may` answers for a member of the garden; `plots` are
    those that can be chosen. `others` says who may print a member's sheet for others than themselves: one by
    one, or everyone's in one file. That file is made some members at a time: `together` makes the sheets of
    those it is given, each in their own language and with their own bookmarks; without it the sheets of
    `make` are put one behind the other. `several` sheets, which go to different people or
    plots, can be had for both sides of the paper. `large` kinds have a large-print edition. `kept` ones can
    be printed again just as they were given out; `private` ones never are, and leave no copy in a browser
    either. What `changes` something when it is made, such as cards with new links, has no preview.
    """

    code: str
    name: Words
    about: Words
    group: Group
    make: Callable[[Asked], Made]
    asks: tuple[str, ...] = ()
    may: Callable[[User, Garden], bool] = anybody
    others: Callable[[User, Garden], bool] | None = None
    together: Callable[[Asked, Sequence[User]], Made] | None = None
    plots: Callable[[User, Garden], QuerySet[Plot]] = visible_plots
    several: bool = False
    large: bool = True
    kept: bool = True
    private: bool = False
    changes: bool = False
