"""Sheets about people: whom to reach, who waits, who signs."""

from __future__ import annotations

from django.utils.formats import date_format
from django.utils.timezone import localtime
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy, ngettext

from plots import queries
from plots.powers import Power
from plots.wording import waiting as waiting_words
from schedules.reports.document import Page
from schedules.service.print_table.table import Asked, Group, Kind, Made, trusted


def roster(asked: Asked) -> Made:
    """Names and plots of everybody, and of their addresses what each lets members see."""
    rows = queries.roster_of(asked.garden, keeper=False, today=asked.today)
    count = ngettext("%(count)d member.", "%(count)d members.", len(rows)) % {"count": len(rows)}
    page = Page(asked.head(_("Members of %(garden)s") % {"garden": asked.garden}, subtitle=count))
    page.table(
        [(row.name, row.phone, row.email, row.address) for row in rows],
        titles=(_("Name"), _("Telephone"), _("Email"), _("Postal address")),
        shares=(3, 2.2, 3.4, 3.4),
        name=_("Members"),
    )
    page.quiet(_("Everybody stands here with what they agreed to show to other members, and with no more."))
    return Made(document=page.document())


def waiting_list(asked: Asked) -> Made:
    """The line as it stands, each place with its reason, and room to note a call."""
    found = queries.waiting_list(asked.garden)
    note = _("Holds telephone numbers: for who looks after the waiting list.")
    count = ngettext("%(count)d waits.", "%(count)d wait.", len(found.rows)) % {"count": len(found.rows)}
    page = Page(asked.head(_("Waiting list"), subtitle=count, note=note), across=True)
    if not found.rows:
        page.text(_("Nobody waits for a plot."))
    page.table(
        [
            (
                str(row.place.number) if row.place else "—",
                row.entry.name,
                waiting_words.reasons_text(row.place.reasons) if row.place else "",
                date_format(localtime(row.entry.joined_at, asked.garden.zone), "DATE_FORMAT"),
                row.entry.phone or row.entry.email or row.entry.address,
                "",
            )
            for row in found.rows
        ],
        titles=(_("Place"), _("Name"), _("Why there"), _("Joined"), _("Reached by"), _("Called, answer")),
        shares=(0.8, 2.4, 3.2, 1.6, 2.6, 3),
        row_height=30,
        grid=True,
        name=_("Waiting list"),
    )
    return Made(document=page.document())


KINDS = (
    Kind(
        code="roster",
        name=gettext_lazy("Roster"),
        about=gettext_lazy("Everybody in the garden, reached as each has agreed that members may see."),
        group=Group.PEOPLE,
        make=roster,
        private=True,
        kept=False,
    ),
    Kind(
        code="waiting-list",
        name=gettext_lazy("Waiting list"),
        about=gettext_lazy("Who waits, in line, with the reason of each place and room to note calls."),
        group=Group.PEOPLE,
        make=waiting_list,
        may=trusted(Power.WAITING),
        private=True,
        kept=False,
    ),
)
