"""The print table's own words."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from typing import Any

from django.utils.formats import date_format
from django.utils.functional import Promise
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from plots.models import AgreementText
from schedules.service.print_table.table import Group

GROUPS: dict[Group, Promise] = {
    Group.CALENDARS: gettext_lazy("Calendars"),
    Group.WORKSHOPS: gettext_lazy("Workshops"),
    Group.HANDOUTS: gettext_lazy("Handouts"),
    Group.GROUND: gettext_lazy("The ground"),
    Group.WORK: gettext_lazy("Work, dates and the gate"),
    Group.PEOPLE: gettext_lazy("People"),
    Group.SUMMARY: gettext_lazy("Looking back"),
}


def day_words(field: str) -> Callable[[Any], str]:
    """What names a row that has a day: "Paths, May 4, 2024"."""

    def words(row: Any) -> str:
        day: date = getattr(row, field)
        return f"{row}, {date_format(day, 'DATE_FORMAT')}"

    return words


def text_words(text: AgreementText) -> str:
    """One text of the agreement among those of all versions."""
    version = _("version %(number)s") % {"number": text.version.number}
    state = version if text.version.in_force_on else _("%(version)s, a draft") % {"version": version}
    return f"{text.get_language_display()}: {text.title} ({state})"
