"""The agreement as a sheet to sign by hand, in one of its languages."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from django.utils.translation import gettext as _
from django.utils.translation import override

from schedules.reports.document import Document, Head, Page


@dataclass(frozen=True, slots=True)
class ToSign:
    """The text that one person signs, in their language (a tag)."""

    name: str
    language: str
    title: str
    body: str
    checked_by: str = ""


def agreements_to_sign(head: Head, sheets: Sequence[ToSign]) -> Document:
    """A sheet for each person, in one document; the foot of every page is that of `head`."""
    page = Page(head, titled=not sheets)
    if not sheets:
        page.text(_("Everybody has signed."))
    for one in sheets:
        with override(one.language):
            page.next_sheet(one.title, one.name)
            _fill(page, one.body, one.checked_by, (one.name,))
    return page.document()


def agreement_sheet(head: Head, *, body: str, checked_by: str = "", signers: Sequence[str] = ()) -> Document:
    """The text with lines to sign on: one for each of `signers`, or two without a name."""
    page = Page(head)
    _fill(page, body, checked_by, signers)
    return page.document()


def _fill(page: Page, body: str, checked_by: str, signers: Sequence[str]) -> None:
    page.text(body)
    if checked_by:
        page.quiet(_("This translation was read over by %(person)s.") % {"person": checked_by})
    page.heading(_("Signatures"))
    page.quiet(_("Every adult who gardens a plot signs."))
    for name in signers or ("", ""):
        page.signature(name or _("name in print"), _("signature"), _("date"))
