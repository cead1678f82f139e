"""Who holds which plot: giving it, ending it, handing it over. A constraint keeps two from one plot on one day."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date, timedelta

from django.core.exceptions import ValidationError
from django.db import IntegrityError, transaction
from django.utils.formats import date_format
from django.utils.translation import gettext as _

from plots.models import Assignment, Plot, Season, User

DAY = timedelta(days=1)


def assign_plot(
    *, plot: Plot, season: Season, holder: User, co_gardeners: Iterable[User] = (), began_on: date
) -> Assignment:
    """Gives the plot to a member from a day of the season on, until a person ends it."""
    if began_on > season.ends_on:
        raise ValidationError(
            {"began_on": _("The season ends on %(day)s.") % {"day": date_format(season.ends_on)}}
        )
    return _hold(plot=plot, season=season, holder=holder, co_gardeners=co_gardeners, began_on=began_on)


@transaction.atomic
def end_assignment(*, assignment: Assignment, ended_on: date) -> Assignment:
    """Makes `ended_on` the last day held; the plot is free from the day after. Ending it twice changes nothing."""
    current = Assignment.objects.select_for_update().get(pk=assignment.pk)
    if current.ended_on is None:
        current.ended_on = max(ended_on, current.began_on)
        current.save(update_fields=["ended_on"])
    return current


def hand_over(
    *, assignment: Assignment, last_day: date, holder: User, co_gardeners: Iterable[User] = ()
) -> Assignment:
    """Ends what one household holds and gives it to another from the next day, both or neither."""
    with transaction.atomic():
        current = end_assignment(assignment=assignment, ended_on=last_day)
        return assign_plot(
            plot=current.plot,
            season=current.season,
            holder=holder,
            co_gardeners=co_gardeners,
            began_on=current.ended_on + DAY,
        )


def _hold(
    *, plot: Plot, season: Season, holder: User, co_gardeners: Iterable[User], began_on: date
) -> Assignment:
    try:
        with transaction.atomic():
            # Whoever comes second waits here; at the constraint itself PostgreSQL could see a deadlock.
            Plot.objects.select_for_update().get(pk=plot.pk)
            assignment = Assignment.objects.create(plot=plot, season=season, holder=holder, began_on=began_on)
            assignment.co_gardeners.set(person for person in co_gardeners if person != holder)
            return assignment
    except IntegrityError:
        raise ValidationError(_taken(plot, began_on)) from None


def _taken(plot: Plot, began_on: date) -> str:
    """Whose days are in the way, and what can be done."""
    clash = plot.assignments.standing(began_on).select_related("holder").order_by("began_on").first()
    if clash is None:
        return _("Somebody has just changed who holds %(plot)s. Please look again.") % {"plot": plot}
    words = {
        "plot": plot,
        "person": clash.holder,
        "first": date_format(clash.began_on),
        "last": date_format(clash.ended_on) if clash.ended_on else "",
    }
    if clash.ended_on is None and clash.began_on <= began_on:
        return _("%(person)s holds plot %(plot)s. End that first, or hand the plot over.") % words
    if clash.ended_on is None:
        return _("%(person)s holds plot %(plot)s from %(first)s on.") % words
    return _("%(person)s holds plot %(plot)s from %(first)s to %(last)s.") % words
