"""The list of a care round."""

from __future__ import annotations

from django.utils.translation import gettext as _

from plots.listing import Column, Filter, Listing
from plots.models import Garden
from schedules.service.care import CareStop
from schedules.wording.care import worked_text

LEFT, SEEN, ASKS = "left", "seen", "asks"
QUIET = "quiet"


def round_list(garden: Garden) -> Listing[CareStop]:
    states = [(LEFT, _("still to be seen")), (SEEN, _("seen")), (ASKS, _("asks for a word"))]
    return Listing(
        columns=[
            Column("plot", _("Plot"), lambda row: row.stop.plot.label),
            Column("holder", _("Held by"), _holder, on_page=False),
            Column("state", _("State"), lambda row: row.stop.found.words if row.stop.found else ""),
            Column("note", _("Note"), _note),
            Column("worked", _("Last worked"), row_worked, order=lambda row: row.attended.ago),
            Column("besides", _("Besides"), _besides),
        ],
        filters=[
            Filter("seen", _("State"), states, _is),
            Filter("logs", _("Logs"), quiet_choices(garden), lambda row, _word: row.attended.asks),
        ],
        text=lambda row: f"{row.stop.plot.label} {_holder(row)} {_note(row)}",
    )


def quiet_choices(garden: Garden) -> list[tuple[str, str]]:
    words = _("nothing logged for %(days)d days or longer")
    return [(QUIET, words % {"days": garden.rules.unattended_days})]


def row_worked(row: CareStop) -> str:
    return worked_text(row.worked, row.attended)


def _holder(row: CareStop) -> str:
    return str(row.stop.held.holder) if row.stop.held else ""


def _note(row: CareStop) -> str:
    return row.stop.found.note if row.stop.found else ""


def _besides(row: CareStop) -> str:
    known = [_("a matter is open")] if row.stop.matter else []
    return ", ".join([*known, *([str(row.stop.pause.get_why_display())] if row.stop.pause else [])])


def _is(row: CareStop, word: str) -> bool:
    if word == ASKS:
        return row.stop.asks
    return (row.stop.found is None) == (word == LEFT)
