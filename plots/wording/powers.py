"""The powers of helpers, in words."""

from __future__ import annotations

from django.utils.functional import Promise
from django.utils.translation import gettext_lazy as _

from plots.powers import Power

POWER_WORDS: dict[Power, Promise] = {
    Power.PLOTS: _("plots and who holds them"),
    Power.PEOPLE: _("the roster and invitations"),
    Power.WAITING: _("the waiting list"),
    Power.WORKDAYS: _("workdays, hours and dates"),
    Power.CARE: _("care rounds and their matters"),
    Power.NOTICES: _("notices"),
    Power.MONEY: _("dues"),
    Power.SETTINGS: _("settings and rules"),
}


def power_text(power: Power) -> str:
    return str(POWER_WORDS[power])
