"""The columns of who does what, and of where things are."""

from __future__ import annotations

from django.utils.translation import gettext as _

from plots.listing import Column, Filter, Listing
from plots.models import Duty, Whereabout


def duties_list() -> Listing[Duty]:
    return Listing(
        columns=[
            Column("duty", _("Duty"), lambda duty: duty.name),
            Column("holder", _("Done by"), lambda duty: str(duty.holder or "")),
            Column("deputy", _("Stands in"), lambda duty: str(duty.deputy or "")),
            Column("until", _("Until"), lambda duty: duty.until),
            Column("tasks", _("What it takes"), lambda duty: duty.tasks, on_page=False),
        ],
        filters=[
            Filter(
                "state",
                _("State"),
                [("vacant", _("nobody does it")), ("alone", _("nobody stands in"))],
                lambda duty, word: (duty.holder if word == "vacant" else duty.deputy) is None,
            )
        ],
        text=lambda duty: f"{duty.name} {duty.holder or ''} {duty.deputy or ''} {duty.tasks}",
    )


def whereabouts_list() -> Listing[Whereabout]:
    return Listing(
        columns=[
            Column("thing", _("Thing"), lambda row: row.thing),
            Column("place", _("Where it is"), lambda row: row.place),
            Column("knows", _("Who knows more"), lambda row: row.knows),
            Column("due", _("Due"), lambda row: row.due_on),
            Column("note", _("Note"), lambda row: row.note, on_page=False),
            Column("members", _("For every member"), lambda row: row.for_members, on_page=False),
        ],
        text=lambda row: f"{row.thing} {row.place} {row.knows} {row.note}",
    )
