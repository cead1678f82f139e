"""Who holds which plot: giving it, ending it, handing it over. A constraint keeps two from one day."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date, timedelta

from django.core.exceptions import ValidationError
from django.db import IntegrityError, transaction
from django.utils.formats import date_format
from django.utils.translation import gettext as _

from plots.models import Assignment, Change, Plot, Season, User
from plots.powers import Power
from plots.service.history import record
from plots.service.undo import thing_of, undoable

DAY = timedelta(days=1)


def assign_plot(
    *,
    plot: Plot,
    season: Season,
    holder: User,
    co_gardeners: Iterable[User] = (),
    began_on: date,
    by: User | None = None,
    why: str = "",
) -> Assignment:
    """Gives the plot to a member from a day of the season on, until a person ends it."""
    if began_on > season.ends_on:
        raise ValidationError(
            {"began_on": _("The season ends on %(day)s.") % {"day": date_format(season.ends_on)}}
        )
    others = [person for person in co_gardeners if person != holder]
    try:
        with transaction.atomic():
            # Whoever comes second waits here; at the constraint itself PostgreSQL could see a deadlock.
            current = Plot.objects.select_for_update().get(pk=plot.pk)
            if not current.is_personal or current.retired_on is not None:
                raise ValidationError(_("Plot %(plot)s is not one that members hold.") % {"plot": plot})
            assignment = Assignment.objects.create(plot=plot, season=season, holder=holder, began_on=began_on)
            assignment.co_gardeners.set(others)
            given = {"holder": holder, "co_gardeners": others, "season": season, "began_on": began_on}
            record(garden=plot.garden, by=by, about=plot, what="plot-given", after=given, why=why)
            return assignment
    except IntegrityError:
        raise ValidationError(_taken(plot, began_on)) from None


@transaction.atomic
def end_assignment(
    *, assignment: Assignment, ended_on: date, by: User | None = None, why: str = ""
) -> Assignment:
    """Makes `ended_on` the last day held; the plot is free from the day after. Twice changes nothing."""
    current = locked(assignment)
    if current.ended_on is None:
        current.ended_on = max(ended_on, current.began_on)
        current.save(update_fields=["ended_on"])
        last = {"holder": current.holder, "ended_on": current.ended_on}
        record(garden=current.plot.garden, by=by, about=current.plot, what="plot-ended", after=last, why=why)
    return current


def reopen_assignment(*, assignment: Assignment, by: User | None = None, why: str = "") -> Assignment:
    """Takes an ending back, as long as nobody else holds the plot after it."""
    try:
        with transaction.atomic():
            current = locked(assignment)
            last = {"holder": current.holder, "ended_on": current.ended_on}
            if current.ended_on is not None:
                current.ended_on = None
                current.save(update_fields=["ended_on"])
                garden, plot = current.plot.garden, current.plot
                record(garden=garden, by=by, about=plot, what="plot-reopened", before=last, why=why)
            return current
    except IntegrityError:
        raise ValidationError(_taken(current.plot, current.began_on, but=current)) from None


@undoable("plot-ended", power=Power.PLOTS)
def _end_undone(change: Change, _by: User) -> None:
    plot = thing_of(change)
    ended = Assignment.objects.filter(
        plot_id=plot.pk, holder_id=change.after["holder"]["pk"], ended_on=change.after["ended_on"]
    )
    assignment = ended.order_by("-pk").first()
    if assignment is None:
        raise ValidationError(_("Who holds plot %(plot)s was changed again since.") % {"plot": plot})
    assignment.ended_on = None
    assignment.save(update_fields=["ended_on"])


def _not_begun(change: Change) -> bool:
    """Whether what was given begins today or later."""
    return str(change.after.get("began_on", "")) >= change.garden.today().isoformat()


@undoable("plot-given", power=Power.PLOTS, fits=_not_begun)
def _gift_undone(change: Change, _by: User) -> None:
    """For a plot given to the wrong person, before they have gardened it."""
    plot = thing_of(change)
    given = plot.assignments.filter(
        holder_id=change.after["holder"]["pk"], began_on=change.after["began_on"]
    ).first()
    if given is None or not _not_begun(change):
        raise ValidationError(_("Who holds plot %(plot)s was changed again since.") % {"plot": plot})
    if hasattr(given, "renewed_from"):
        raise ValidationError(_("It comes from the renewals: take the decision back there."))
    if hasattr(given, "offer"):
        raise ValidationError(_("It was accepted when it was offered: end it instead."))
    forget_assignment(assignment=given)


def forget_assignment(*, assignment: Assignment) -> None:
    """Takes back what was given, as long as nothing was made of it; the history keeps that it was."""
    dues = assignment.dues.all()
    kept = (assignment.renewals, assignment.pauses, assignment.matters, assignment.stand_ins)
    if (
        assignment.ended_on is not None
        or dues.exclude(paid_on__isnull=True, waived_on__isnull=True).exists()
        or any(rows.exists() for rows in kept)
    ):
        words = _("Plot %(plot)s has gone on from this; change who holds it on its own page.")
        raise ValidationError(words % {"plot": assignment.plot})
    dues.delete()
    assignment.delete()


def hand_over(
    *,
    assignment: Assignment,
    last_day: date,
    holder: User,
    co_gardeners: Iterable[User] = (),
    by: User | None = None,
    why: str = "",
) -> Assignment:
    """Ends what one household holds and gives it to another from the next day, both or neither."""
    with transaction.atomic():
        current = locked(assignment)
        if current.ended_on is not None:
            raise ValidationError(_("This has been ended already. Please look again."))
        current = end_assignment(assignment=current, ended_on=last_day, by=by, why=why)
        return assign_plot(
            plot=current.plot,
            season=current.season,
            holder=holder,
            co_gardeners=co_gardeners,
            began_on=current.ended_on + DAY,
            by=by,
            why=why,
        )


def locked(assignment: Assignment) -> Assignment:
    """The row as it is now; nobody else changes who holds the plot until the transaction ends."""
    Plot.objects.select_for_update().get(pk=assignment.plot_id)
    return Assignment.objects.select_related("plot__garden", "holder", "season").get(pk=assignment.pk)


def _taken(plot: Plot, began_on: date, *, but: Assignment | None = None) -> str:
    """Whose days are in the way, and what can be done."""
    others = plot.assignments.exclude(pk=but.pk) if but else plot.assignments
    clash = others.standing(began_on).select_related("holder").order_by("began_on").first()
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
