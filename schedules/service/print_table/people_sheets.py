"""Sheets about people: whom to reach, who waits, who signs."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace
from datetime import timedelta

from django.utils.formats import date_format
from django.utils.timezone import localtime
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy, ngettext, override

from plots import queries, service
from plots.access import may_change_person
from plots.models import Membership
from plots.powers import Power
from plots.waiting import Reason, Why
from plots.wording import waiting as waiting_words
from schedules.reports.document import Document, Page
from schedules.service.hand_over import hand_over_pack
from schedules.service.print_table.table import Asked, Group, Kind, Made, coordinators, trusted


def roster(asked: Asked) -> Made:
    """Everybody's name, and of their addresses what each lets members see."""
    rows = queries.roster_of(asked.garden, keeper=False, today=asked.today)
    count = ngettext("%(count)d member.", "%(count)d members.", len(rows)) % {"count": len(rows)}
    page = Page(asked.head(_("Members of %(garden)s") % {"garden": asked.garden}, subtitle=count))
    page.quiet(_("Everybody stands here with what they agreed to show to other members, and with no more."))
    ways = [
        (_("Telephone"), 2.2, [row.phone for row in rows]),
        (_("Email"), 3.4, [row.email for row in rows]),
        (_("Postal address"), 3.4, [row.address for row in rows]),
    ]
    shown = [way for way in ways if any(way[2])]  # a column that nobody fills takes room from names
    page.table(
        zip([row.name for row in rows], *(cells for _title, _share, cells in shown), strict=True),
        titles=(_("Name"), *(title for title, _share, _cells in shown)),
        shares=(3, *(share for _title, share, _cells in shown)),
        name=_("Members"),
    )
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
                _why_there(row.place.reasons) if row.place else "",
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


def _why_there(reasons: Iterable[Reason]) -> str:
    """Without the day of joining, which has a column of its own."""
    return waiting_words.reasons_text(reason for reason in reasons if reason.why is not Why.JOINED)


def agreement(asked: Asked) -> Made:
    """One text of the agreement, in its own language, with two lines to sign on."""
    from schedules.reports.agreement import agreement_sheet  # lazy: reportlab

    text = asked.choices["text"]
    with override(text.language):
        version = _("Version %(number)s") % {"number": text.version.number}
        draft = "" if text.version.in_force_on else _("Draft, not in force")
        head = asked.head(text.title, subtitle=" · ".join(filter(None, (version, draft))))
        head = replace(head, language=text.language)
        return Made(document=agreement_sheet(head, body=text.body, checked_by=text.checked_by))


def agreements_to_sign(asked: Asked) -> Made:
    """A sheet for everybody who has not signed, each in their own language, in one file."""
    from schedules.reports.agreement import ToSign  # lazy: reportlab
    from schedules.reports.agreement import agreements_to_sign as sheets_of

    garden = asked.garden
    version = queries.agreement_of(garden)
    sheets = []
    if version is not None:
        for signer in queries.signers_of(garden, version):
            text = queries.text_for(version, signer.person.language or garden.language, garden)
            if signer.signature is None and text is not None:
                sheets.append(
                    ToSign(signer.person.name, text.language, text.title, text.body, text.checked_by)
                )
    if version is None:
        page = Page(asked.head(_("Agreement")))
        page.text(_("This garden has no agreement in force, so there is nothing to sign."))
        return Made(document=page.document())
    title = _("Agreement, version %(number)s") % {"number": version.number}
    return Made(document=sheets_of(asked.head(title), sheets))


def invitation_cards(asked: Asked) -> Made:
    """A new link for each who never signed in and whose account the asker may open."""
    garden, user = asked.garden, asked.user
    waiting = queries.members_of(garden).filter(user__last_login=None).select_related("garden__rules")
    found = [one for one in waiting if user is None or may_change_person(user, one)]
    return Made(document=cards_for(asked, _("Cards to come in with"), found))


def cards_for(asked: Asked, title: str, memberships: Sequence[Membership]) -> Document:
    """Makes a link for each of these members; a link is a secret, so that it is never made by looking."""
    from schedules.reports.cards import Invitation  # lazy: reportlab
    from schedules.reports.cards import invitation_cards as cards_of

    found = []
    for one in memberships:
        link = service.invite(garden=asked.garden, person=one.user, on_card=True)
        until = asked.today + timedelta(days=asked.garden.rules.card_days)
        found.append(Invitation(one.user.name, link, until))
    return cards_of(asked.head(title), found)


def emergency(asked: Asked) -> Made:
    """Whom members want called, for the sealed envelope in the shed."""
    from schedules.reports.emergency import EmergencyRow  # lazy: reportlab
    from schedules.reports.emergency import emergency as sheet_of

    rows = queries.roster_of(asked.garden, keeper=True, today=asked.today)
    named = [row for row in rows if row.membership.emergency_name or row.membership.emergency_phone]
    lines = [
        EmergencyRow(
            name=row.name,
            plots=", ".join(row.labels),
            call=row.membership.emergency_name,
            phone=row.membership.emergency_phone,
        )
        for row in named
    ]
    note = _("Keep it sealed in the shed; open it only in an emergency.")
    head = asked.head(_("Emergency sheet"), note=note)
    return Made(document=sheet_of(head, asked.garden.place, lines, len(rows) - len(named)))


def hand_over(asked: Asked) -> Made:
    """All that who takes over has to know."""
    from schedules.reports.hand_over import hand_over as pack_of  # lazy: reportlab

    note = _("Holds names and telephone numbers: for coordinators only.")
    head = asked.head(_("Hand-over"), subtitle=asked.garden.name, note=note)
    return Made(document=pack_of(head, hand_over_pack(asked.garden)))


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
    Kind(
        code="agreement",
        name=gettext_lazy("Agreement to sign by hand"),
        about=gettext_lazy("The text of the agreement in one of its languages, with lines to sign on."),
        group=Group.PEOPLE,
        make=agreement,
        asks=("text",),
    ),
    Kind(
        code="agreements-to-sign",
        name=gettext_lazy("Agreements still to be signed"),
        about=gettext_lazy("One for each who has not signed, with their name and in their language."),
        group=Group.PEOPLE,
        make=agreements_to_sign,
        may=trusted(Power.PEOPLE),
        several=True,
    ),
    Kind(
        code="invitation-cards",
        name=gettext_lazy("Invitation cards"),
        about=gettext_lazy(
            "A card for each who never signed in, with a link that lets that one person in, once."
        ),
        group=Group.PEOPLE,
        make=invitation_cards,
        may=trusted(Power.PEOPLE),
        large=False,
        private=True,
        kept=False,
        changes=True,
    ),
    Kind(
        code="emergency",
        name=gettext_lazy("Emergency sheet"),
        about=gettext_lazy("Whom members want called, for the sealed envelope in the shed."),
        group=Group.PEOPLE,
        make=emergency,
        may=trusted(Power.PEOPLE),
        private=True,
        kept=False,
    ),
    Kind(
        code="hand-over",
        name=gettext_lazy("Hand-over pack"),
        about=gettext_lazy("What is open, dates, people, plots, things and rules, for who takes over."),
        group=Group.PEOPLE,
        make=hand_over,
        may=coordinators,
        private=True,
        kept=False,
    ),
)
