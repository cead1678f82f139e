"""The letter that brings a sign-in link."""

from __future__ import annotations

from django.utils.formats import date_format
from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from plots.models import Garden, User


def link_letter(garden: Garden, person: User, link: str) -> tuple[str, str]:
    """Subject and text. It says what to do with the link, and that nothing happens without."""
    days = garden.rules.link_days
    subject = _("Your sign-in link for %(garden)s") % {"garden": garden}
    lasts = ngettext(
        "It works once, for %(days)d day. Opening it shows a button; pressing the button signs you in.",
        "It works once, for %(days)d days. Opening it shows a button; pressing the button signs you in.",
        days,
    )
    lines = [
        _("Hello %(person)s,") % {"person": person},
        _("this link signs you in to %(garden)s:") % {"garden": garden},
        link,
        lasts % {"days": days},
        _("If you did not ask for it, leave it alone: nothing happens."),
        _("Sent on %(day)s.") % {"day": date_format(garden.today())},
    ]
    return subject, "\n\n".join(lines)
