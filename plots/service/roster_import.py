"""Taking people over from a spreadsheet: all of them, or none."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date

from django.core.exceptions import ValidationError
from django.db import IntegrityError, transaction
from django.utils.translation import gettext as _

from plots.models import Assignment, Garden, Membership, Role, Season, User
from plots.roster_file import Known, Line, Outcome
from plots.service.holding import assign_plot
from plots.service.people import add_member
from plots.service.roster import household_named
from plots.spelling import folded


def known_in(garden: Garden, *, season: Season | None, today: date) -> Known:
    """What rows are checked against; without a season no plot is given, so none can clash."""
    here = list(User.objects.filter(memberships__garden=garden).values_list("name", "email", "sign_in_name"))
    elsewhere = User.objects.exclude(memberships__garden=garden).exclude(email=None)
    held: set[int] = set()
    if season is not None:
        standing = Assignment.objects.standing(max(today, season.starts_on))
        held = set(standing.filter(plot__garden=garden).values_list("plot_id", flat=True))
    plots = {}
    for plot in garden.plots.filter(retired_on__isnull=True):
        state = "free" if plot.is_personal and plot.pk not in held else "held" if plot.pk in held else "other"
        plots[folded(plot.label)] = (plot.label, state)
    return Known(
        emails_here=frozenset(email for _name, email, _account in here if email),
        names_here={folded(name): email or "" for name, email, _account in here},
        emails_elsewhere=frozenset(elsewhere.filter(is_active=True).values_list("email", flat=True)),
        accounts=frozenset(User.objects.values_list("sign_in_name", flat=True)),
        plots=plots,
    )


@transaction.atomic
def import_people(
    *, garden: Garden, lines: Iterable[Line], season: Season | None, today: date, by: User
) -> list[Membership]:
    """Makes everybody a member whose row is right; raises ValidationError and keeps nothing if one fails.

    With a season the first row that names a plot holds it, further ones share it.
    """
    taken = [line for line in lines if line.outcome in (Outcome.NEW, Outcome.JOINS)]
    made: list[Membership] = []
    sharing: dict[str, list[User]] = {}
    why = _("Taken over from a spreadsheet")
    for line in taken:
        try:
            with transaction.atomic():
                household = household_named(garden, line.household) if line.household else None
                membership = add_member(
                    garden=garden, user=_person(line), role=Role.MEMBER, household=household, by=by, why=why
                )
        except (ValidationError, IntegrityError):
            raise ValidationError(
                _("Row %(row)d: somebody has just taken this name or address. Nothing was kept.")
                % {"row": line.number}
            ) from None
        made.append(membership)
        for label in line.plots:
            sharing.setdefault(folded(label), []).append(membership.user)
    if season is not None:
        _give_plots(garden, season, sharing, today, by, why)
    return made


def _give_plots(
    garden: Garden, season: Season, sharing: dict[str, list[User]], today: date, by: User, why: str
) -> None:
    plots = {folded(plot.label): plot for plot in garden.plots.filter(retired_on__isnull=True)}
    for label, (holder, *others) in sharing.items():
        assign_plot(
            plot=plots[label],
            season=season,
            holder=holder,
            co_gardeners=others,
            began_on=max(today, season.starts_on),
            by=by,
            why=why,
        )


def _person(line: Line) -> User:
    """The account somebody has, else a new one that is not saved yet."""
    if line.outcome == Outcome.JOINS:
        return User.objects.get(email=folded(line.email), is_active=True)
    return User(
        name=line.name,
        sign_in_name=line.account,
        email=line.email or None,
        phone=line.phone,
        address=line.address,
    )
