"""Cards that bring members in without email: a name, a code to scan, and the same address to type."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from django.utils.formats import date_format
from django.utils.translation import gettext

from schedules.reports.document import Card, Document, Head, Page


@dataclass(frozen=True, slots=True)
class Invitation:
    """Whom it brings in, by which address, and until when."""

    name: str
    link: str
    until: date


def invitation_cards(head: Head, invited: Sequence[Invitation]) -> Document:
    """Cards to be cut apart at the lines and handed over in person."""
    page = Page(head)
    page.quiet(
        gettext("Each card lets one person in: hand it to nobody else, and destroy what is left over.")
    )
    if not invited:
        page.text(gettext("Everybody has signed in already: there is no card to print."))
    page.cards(_card(one, head.garden) for one in invited)
    return page.document()


def _card(one: Invitation, garden: str) -> Card:
    lines = (
        garden,
        gettext("Scan the code, or type the address. Then press “Sign in”."),
        gettext("Works once, until {day}.").format(day=date_format(one.until, "DATE_FORMAT")),
    )
    return Card(one.name, lines, one.link)
