"""The season turn: asking who stays, keeping the answers, and doing what a person decided."""

from __future__ import annotations

from datetime import date, timedelta

from django.core.exceptions import ValidationError
from django.db import IntegrityError, transaction
from django.utils.translation import gettext as _

from plots.models import (
    Assignment,
    Change,
    Decision,
    Offer,
    Plot,
    Renewal,
    RenewalRound,
    Season,
    User,
    WishChoice,
)
from plots.powers import Power
from plots.service.history import record, save_changes
from plots.service.holding import (
    assign_plot,
    end_assignment,
    forget_assignment,
    locked,
    reopen_assignment,
)
from plots.service.undo import thing_of, undoable

DAY = timedelta(days=1)


@transaction.atomic
def keep_season(*, season: Season, by: User | None) -> Season:
    """A new season, or new dates for one that is there."""
    if season.pk is None:
        season.save()
        dates = {"starts_on": season.starts_on, "ends_on": season.ends_on}
        record(garden=season.garden, by=by, about=season, what="season-made", after=dates)
    else:
        save_changes(garden=season.garden, by=by, row=season, what="season-changed")
    return season


def open_round(*, round: RenewalRound, by: User | None) -> RenewalRound:
    """Asks every holder of a plot about the round's season."""
    try:
        with transaction.atomic():
            round.save()
            dates = {"opened_on": round.opened_on, "answer_by": round.answer_by, "last_call": round.last_call}
            record(garden=round.season.garden, by=by, about=round, what="renewals-opened", after=dates)
            return round
    except IntegrityError:
        raise ValidationError(_("Renewals for this season have been asked already.")) from None


@transaction.atomic
def close_round(*, round: RenewalRound, on: date, by: User | None) -> None:
    """No more answers or decisions; what was not decided stays as it is, and with it who holds what."""
    if RenewalRound.objects.filter(pk=round.pk, closed_on__isnull=True).update(closed_on=on):
        record(
            garden=round.season.garden, by=by, about=round, what="renewals-closed", after={"closed_on": on}
        )


@undoable("renewals-closed", power=Power.PLOTS)
def _open_again(change: Change, _by: User) -> None:
    """As long as nobody is being asked about another season."""
    round = thing_of(change)
    if RenewalRound.objects.filter(season__garden=change.garden, closed_on=None).exists():
        raise ValidationError(_("Renewals for another season are being asked."))
    round.closed_on = None
    round.save(update_fields=["closed_on"])


@transaction.atomic
def answer_renewal(
    *, round: RenewalRound, assignment: Assignment, wish: WishChoice, note: str, on: date, by: User
) -> Renewal:
    """What the household wants; the last answer before a decision counts."""
    renewal = _renewal(round, assignment)
    _still_open(renewal)
    before = {"wish": renewal.wish, "note": renewal.note}
    renewal.wish, renewal.note, renewal.answered_on, renewal.answered_by = wish, note, on, by
    renewal.save()
    after = {"wish": str(wish), "note": note}
    _keep(renewal, by, "renewal-answered", before, after)
    return renewal


@transaction.atomic
def renew(*, round: RenewalRound, assignment: Assignment, on: date, by: User, why: str = "") -> Renewal:
    """The same household holds the plot in the coming season, without a gap."""
    renewal = _renewal(round, assignment)
    _still_open(renewal)
    season = round.season
    if assignment.began_on >= season.starts_on:
        raise ValidationError(
            _("Plot %(plot)s has begun in this season already.") % {"plot": assignment.plot}
        )
    end_assignment(assignment=assignment, ended_on=season.starts_on - DAY, by=by, why=why)
    renewal.successor = assign_plot(
        plot=assignment.plot,
        season=season,
        holder=assignment.holder,
        co_gardeners=assignment.co_gardeners.all(),
        began_on=season.starts_on,
        by=by,
        why=why,
    )
    return _decide(renewal, Decision.RENEWED, on, by, why)


@transaction.atomic
def free_plot(*, round: RenewalRound, assignment: Assignment, on: date, by: User, why: str = "") -> Renewal:
    """The household holds the plot to the end of its season, or to today where that is over."""
    renewal = _renewal(round, assignment)
    _still_open(renewal)
    last = max(on, min(assignment.season.ends_on, round.season.starts_on - DAY))
    end_assignment(assignment=assignment, ended_on=last, by=by, why=why)
    return _decide(renewal, Decision.FREED, on, by, why)


@transaction.atomic
def move_household(*, renewal: Renewal, plot: Plot, on: date, by: User, why: str = "") -> Renewal:
    """Gives the household another plot for the coming season and frees its own, both or neither."""
    if Offer.objects.filter(plot=plot, place__isnull=False).exists():
        raise ValidationError(_("Plot %(plot)s is offered to somebody who waits.") % {"plot": plot})
    if renewal.decision == Decision.FREED:
        raise ValidationError(_("This household has given its plot up, or moved already."))
    if renewal.decision == Decision.RENEWED:
        renewal = undo_decision(renewal=renewal, by=by, why=why)
    round, old = renewal.round, renewal.assignment
    renewal = free_plot(round=round, assignment=old, on=on, by=by, why=why)
    renewal.successor = assign_plot(
        plot=plot,
        season=round.season,
        holder=old.holder,
        co_gardeners=old.co_gardeners.all(),
        began_on=round.season.starts_on,
        by=by,
        why=why,
    )
    renewal.save(update_fields=["successor"])
    return renewal


@transaction.atomic
def undo_decision(*, renewal: Renewal, by: User, why: str = "") -> Renewal:
    """Takes a decision back, as long as the coming season has not made anything of it yet."""
    renewal = _renewal(renewal.round, renewal.assignment)
    if not renewal.decision:
        return renewal
    successor = renewal.successor
    if successor is not None:
        Renewal.objects.filter(successor=successor).update(successor=None)
        forget_assignment(assignment=successor)
    before = {"decision": renewal.decision}
    renewal.decision, renewal.decided_on, renewal.successor = "", None, None
    renewal.save()
    reopen_assignment(assignment=renewal.assignment, by=by, why=why)
    _keep(renewal, by, "renewal-undone", before, {"decision": ""}, why)
    return renewal


def _renewal(round: RenewalRound, assignment: Assignment) -> Renewal:
    """The row of this plot in this round as it is now, with nobody else changing it meanwhile."""
    if assignment.plot.garden_id != round.season.garden_id:
        raise ValueError("a plot of another garden")
    current = locked(assignment)
    renewal, _made = Renewal.objects.get_or_create(round=round, assignment=current)
    renewal.assignment = current
    return renewal


def _still_open(renewal: Renewal) -> None:
    if RenewalRound.objects.filter(pk=renewal.round_id, closed_on__isnull=False).exists():
        raise ValidationError(_("These renewals are closed."))
    if renewal.decision:
        raise ValidationError(
            _("Plot %(plot)s has been decided already: %(decision)s.")
            % {"plot": renewal.assignment.plot, "decision": renewal.get_decision_display()}
        )
    if renewal.assignment.ended_on is not None:
        raise ValidationError(
            _("%(person)s no longer holds plot %(plot)s.")
            % {"person": renewal.assignment.holder, "plot": renewal.assignment.plot}
        )


def _decide(renewal: Renewal, decision: Decision, on: date, by: User, why: str) -> Renewal:
    renewal.decision, renewal.decided_on = decision, on
    renewal.save()
    _keep(renewal, by, "renewal-decided", {"decision": ""}, {"decision": str(decision)}, why)
    return renewal


def _keep(
    renewal: Renewal,
    by: User,
    what: str,
    before: dict[str, object],
    after: dict[str, object],
    why: str = "",
) -> None:
    """Kept on the plot, where everything about who holds it is read; what did not change is left out."""
    plot = renewal.assignment.plot
    changed = [name for name in after if before.get(name) != after[name]]
    old, new = ({name: values[name] for name in changed} for values in (before, after))
    if changed:
        record(garden=plot.garden, by=by, about=plot, what=what, before=old, after=new, why=why)
