"""The agreement as a sheet to sign by hand, in one of its languages."""

from __future__ import annotations

from collections.abc import Sequence

from django.utils.translation import gettext as _

from schedules.reports.frame import Head, Page


def agreement_sheet(head: Head, *, body: str, checked_by: str = "", signers: Sequence[str] = ()) -> bytes:
    """The text with lines to sign on: one for each of `signers`, or two without a name."""
    page = Page(head)
    page.text(body)
    if checked_by:
        page.quiet(_("This translation was read over by %(person)s.") % {"person": checked_by})
    page.heading(_("Signatures"))
    page.quiet(_("Every adult who gardens a plot signs."))
    for name in signers or ("", ""):
        page.signature(name or _("name in print"), _("signature"), _("date"))
    return page.pdf()
