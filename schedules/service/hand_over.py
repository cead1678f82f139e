"""The hand-over pack's rows, in words, from what the garden's own pages show."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import timedelta
from typing import TYPE_CHECKING

from django.conf import settings
from django.utils.formats import date_format
from django.utils.translation import gettext as _

from plots import queries
from plots.models import Garden, Plot, Role
from plots.quantities import Quantity
from plots.wording import quantity_text
from plots.wording.powers import POWER_WORDS
from plots.wording.rules import rules_in_words

if TYPE_CHECKING:
    from schedules.reports.hand_over import HandOver

YEAR = timedelta(days=365)


def hand_over_pack(garden: Garden) -> HandOver:
    """Everything of the pack as of today."""
    from schedules.reports.hand_over import HandOver  # lazy: reportlab

    roster = queries.roster_of(garden, keeper=True, today=garden.today())
    reached = {row.membership.user_id: _reached(row) for row in roster}
    return HandOver(
        garden=list(_facts(garden, len(roster))),
        dates=list(_dates(garden)),
        keepers=list(_keepers(roster)),
        duties=[
            (duty.name, str(duty.holder or "—"), str(duty.deputy or "—"), duty.tasks)
            for duty in garden.duties.select_related("holder", "deputy")
        ],
        matters=[
            (matter.part, matter.text, _day(matter.due))
            for matter in queries.open_matters(garden, today=garden.today())
        ],
        things=[
            (row.thing, " · ".join(filter(None, (row.place, row.note))), row.knows, _day(row.due_on))
            for row in garden.whereabouts.all()
        ],
        plots=list(_plots(garden, reached)),
        rules=[
            (block.title, [(rule.label, rule.value) for rule in block.rules])
            for block in rules_in_words(garden.rules)
        ],
        address=f"{settings.SITE.origin}{garden.get_absolute_url()}",
        coming_in=list(_coming_in()),
        kept_in=list(_kept_in()),
    )


def _coming_in() -> Iterator[str]:
    """How a successor gets in, and what to do when nobody can."""
    yield _(
        "Who hands over makes the successor a coordinator under Members, and gives them a one-time link "
        "there. Whoever cannot come in asks for a new link on the sign-in page."
    )
    yield _(
        "If nobody can get in any more: on the computer that Trugbook runs on, in the folder %(program)s, "
        "“%(settings)s python3 manage.py signinlink NAME” prints a link for that person; with PostgreSQL its "
        "DATABASE_URL belongs before it too. (On an empty installation “firstvisit” in the place of "
        "“signinlink NAME” prints the code for the first visit.)"
    ) % {
        "program": settings.BASE_DIR,
        "settings": f"DATA_DIR={settings.DATA_DIR} SITE_URL={settings.SITE_URL}",
    }


def _kept_in() -> Iterator[tuple[str, str]]:
    """Where what is kept lies on that computer; no password is ever printed."""
    database = settings.DATABASES["default"]
    inside = "sqlite" in database["ENGINE"]
    yield _("Address"), settings.SITE_URL
    yield _("Folder of what it keeps"), str(settings.DATA_DIR)
    yield _("Database"), _("a file in that folder") if inside else _("PostgreSQL, “%s”") % database["NAME"]
    yield _("Sends email"), settings.EMAIL_FROM or _("no")


def _facts(garden: Garden, members: int) -> Iterator[tuple[str, str]]:
    season = queries.season_now(garden)
    yield _("Place"), garden.place
    if season is not None:
        days = {"first": _day(season.starts_on), "last": _day(season.ends_on)}
        yield _("Season"), f"{season}: " + _("%(first)s to %(last)s") % days
    yield _("Members"), str(members)
    yield _("Plots"), str(garden.plots.filter(retired_on=None).count())


def _dates(garden: Garden) -> Iterator[tuple[str, str, str]]:
    today = garden.today()
    for day in queries.dates_of(garden, today, today + YEAR):
        span = _day(day.day) if day.last_day is None else f"{_day(day.day)} – {_day(day.last_day)}"
        yield span, day.title, day.place


def _keepers(roster: list[queries.RosterRow]) -> Iterator[tuple[str, str, str, str]]:
    order = [Role.COORDINATOR, Role.HELPER]
    rows = [row for row in roster if row.membership.role in order]
    for row in sorted(rows, key=lambda row: order.index(row.membership.role)):
        part = str(row.membership.get_role_display())
        stated = row.membership.all_powers() if row.membership.role == Role.HELPER else ()
        powers = ", ".join(str(POWER_WORDS[power]) for power in sorted(stated))
        yield row.name, f"{part}: {powers}" if powers else part, row.email, row.phone


def _plots(garden: Garden, reached: dict[int, str]) -> Iterator[tuple[str, str, str, str]]:
    gardened = garden.plots.filter(retired_on=None)
    for plot in queries.plots_with_holders(gardened, today=garden.today()):
        people = [person for held in plot.current for person in (held.holder, *held.co_gardeners.all())]
        names = ", ".join(str(person) for person in people)
        ways = dict.fromkeys(way for person in people if (way := reached.get(person.pk)))
        yield plot.label, _size(plot, garden), names or _without(plot), "; ".join(ways)


def _without(plot: Plot) -> str:
    return _("free") if plot.is_personal else str(plot.get_kind_display())


def _size(plot: Plot, garden: Garden) -> str:
    if not (plot.width_m and plot.length_m):
        return ""
    sides = (quantity_text(side, Quantity.LENGTH, garden.units) for side in (plot.width_m, plot.length_m))
    return " × ".join(sides)


def _reached(row: queries.RosterRow) -> str:
    """Telephone before email: it is what helps at the garden."""
    return row.phone or row.email


def _day(day: object) -> str:
    return date_format(day) if day else ""
