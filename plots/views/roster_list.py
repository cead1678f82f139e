"""The roster's columns and filters: more of them for who looks after it."""

from __future__ import annotations

from django.utils.timezone import localdate
from django.utils.translation import gettext as _

from plots.listing import Column, Filter, Listing
from plots.models import Garden, Role
from plots.queries.roster import RosterRow

NO_EMAIL, NO_PHONE, UNREACHED = "no-email", "no-phone", "unreached"


def roster_list(garden: Garden, *, keeper: bool) -> Listing[RosterRow]:
    if keeper:
        return Listing(_keeper_columns(), _keeper_filters(), text=_words)
    columns = [_name(), _part()]
    if garden.rules.share_contacts:
        columns += _contacts()
    return Listing(columns, text=lambda row: row.name)


def _name() -> Column[RosterRow]:
    return Column("name", _("Name"), lambda row: row.name)


def _part() -> Column[RosterRow]:
    return Column("part", _("Part"), lambda row: str(row.membership.get_role_display()))


def _contacts() -> list[Column[RosterRow]]:
    return [
        Column("email", _("Email"), lambda row: row.email),
        Column("phone", _("Telephone"), lambda row: row.phone),
        Column("address", _("Postal address"), lambda row: row.address, on_page=False),
    ]


def _keeper_columns() -> list[Column[RosterRow]]:
    return [
        _name(),
        _part(),
        Column("plots", _("Plots"), lambda row: ", ".join(row.labels)),
        Column("household", _("Household"), lambda row: row.household),
        *_contacts(),
        Column("account", _("Signs in as"), lambda row: row.membership.user.sign_in_name, on_page=False),
        Column("holds", _("Holds"), lambda row: ", ".join(row.holds), on_page=False),
        Column("shares", _("Shares"), lambda row: ", ".join(row.shares), on_page=False),
        Column("since", _("Member since"), lambda row: localdate(row.membership.made_at), on_page=False),
    ]


def _keeper_filters() -> list[Filter[RosterRow]]:
    with_or_without = [("yes", _("with a plot")), ("no", _("without a plot"))]
    lacking = [
        (NO_EMAIL, _("no email")),
        (NO_PHONE, _("no telephone")),
        (UNREACHED, _("neither email nor telephone")),
    ]
    coming_in = [("asked", _("asked for a link")), ("never", _("never signed in"))]
    return [
        Filter("part", _("Part"), Role.choices, lambda row, word: row.membership.role == word),
        Filter("plot", _("Plot"), with_or_without, lambda row, word: bool(row.labels) == (word == "yes")),
        Filter("reached", _("Reached by"), lacking, _lacks),
        Filter("link", _("Sign-in"), coming_in, _waits),
    ]


def _waits(row: RosterRow, word: str) -> bool:
    return row.asked_at is not None if word == "asked" else not row.came_in


def _lacks(row: RosterRow, word: str) -> bool:
    if word == NO_EMAIL:
        return not row.email
    return not row.phone if word == NO_PHONE else not (row.email or row.phone)


def _words(row: RosterRow) -> str:
    account = row.membership.user.sign_in_name
    return " ".join((row.name, account, row.household, row.email, row.phone, row.address, *row.labels))
