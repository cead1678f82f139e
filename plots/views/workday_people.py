"""Who is down for a workday, and who came: to call when it is moved, and to export."""

from __future__ import annotations

from dataclasses import dataclass, replace

from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy
from django.views.decorators.http import require_safe

from plots import access, queries
from plots.hours import HOUR
from plots.listing import Column, Filter, Listing
from plots.models import Workday
from plots.powers import Power
from plots.views.answers import list_page


@dataclass(frozen=True)
class Attending:
    """A member or guest of the day; no minutes: not typed in, or did not come."""

    name: str
    task: str
    minutes: int | None
    is_guest: bool = False
    email: str = ""
    phone: str = ""

    @property
    def state(self) -> str:
        return "down" if self.minutes is None else "guest" if self.is_guest else "came"


PEOPLE: Listing[Attending] = Listing(
    columns=[
        Column("name", gettext_lazy("Name"), lambda one: one.name),
        Column("task", gettext_lazy("Task"), lambda one: one.task),
        Column("hours", gettext_lazy("Hours"), lambda one: one.minutes and round(one.minutes / HOUR, 2)),
    ],
    filters=[
        Filter(
            "state",
            gettext_lazy("State"),
            [
                ("down", gettext_lazy("signed up, no hours")),
                ("came", gettext_lazy("came")),
                ("guest", gettext_lazy("guest")),
            ],
            lambda one, word: one.state == word,
        )
    ],
    text=lambda one: f"{one.name} {one.task}",
)
CONTACTS: list[Column[Attending]] = [
    Column("phone", gettext_lazy("Telephone"), lambda one: one.phone),
    Column("email", gettext_lazy("Email"), lambda one: one.email, on_page=False),
]


@require_safe
def workday_people(request: HttpRequest, slug: str, pk: int) -> HttpResponse:
    garden = access.garden_to_run(request.user, slug, Power.WORKDAYS)
    workday = get_object_or_404(garden.workdays, pk=pk)
    keeps_roster = access.may_run(request.user, garden, Power.PEOPLE)
    # Who does not keep the roster gets no addresses.
    listing = replace(PEOPLE, columns=[*PEOPLE.columns, *CONTACTS]) if keeps_roster else PEOPLE
    context = {"garden": garden, "workday": workday, "keeps_roster": keeps_roster}
    return list_page(request, "plots/workday_people.html", listing, _attending(workday), **context)


def _attending(workday: Workday) -> list[Attending]:
    members = [
        Attending(
            row.person.name, row.task, row.minutes, email=row.person.email or "", phone=row.person.phone
        )
        for row in queries.sheet_rows(workday)
    ]
    guests = [
        Attending(row.guest, _("guest"), row.minutes, is_guest=True) for row in queries.guests_at(workday)
    ]
    return [*members, *guests]
