"""All kinds of sheets, family by family."""

from __future__ import annotations

from itertools import chain

from plots.models import Garden, User
from schedules.service.print_table import (
    calendars,
    ground_sheets,
    handouts,
    people_sheets,
    summary,
    work_sheets,
)
from schedules.service.print_table.table import Kind

_FAMILIES = (
    calendars.KINDS,
    handouts.KINDS,
    ground_sheets.KINDS,
    work_sheets.KINDS,
    people_sheets.KINDS,
    summary.KINDS,
)
KINDS: dict[str, Kind] = {kind.code: kind for kind in chain(*_FAMILIES)}


def kinds_for(user: User, garden: Garden) -> list[Kind]:
    """What the member may print, in the order of the table; who may is asked once for each power."""
    answers = {may: may(user, garden) for may in {kind.may for kind in KINDS.values()}}
    return [kind for kind in KINDS.values() if answers[kind.may]]
