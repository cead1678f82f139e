"""How a member is reached and who may see it, in words."""

from __future__ import annotations

from dataclasses import dataclass

from django.utils.translation import gettext as _

from plots.models import CONTACTS, ContactFor, Membership, User


@dataclass(frozen=True, slots=True)
class ContactLine:
    """One way of reaching somebody, empty where there is none, and who sees it."""

    title: str
    value: str
    seen_by: str


def contact_lines(membership: Membership, *, shared: bool) -> list[ContactLine]:
    """Every way of reaching the member; `shared` says whether the garden shows agreed ones to members."""
    return [
        ContactLine(
            title=str(User._meta.get_field(name).verbose_name),
            value=getattr(membership.user, name) or "",
            seen_by=_seen_by(getattr(membership, f"{name}_for"), shared),
        )
        for name in CONTACTS
    ]


def _seen_by(consent: str, shared: bool) -> str:
    if consent == ContactFor.KEEPERS:
        return _("seen by coordinators and helpers trusted with the roster")
    if shared:
        return _("seen by every member")
    return _("may be seen by every member, but the garden's rules show it to none")
