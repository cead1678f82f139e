"""Plantings, logs and photos, by who may see and plan their plot; `plots.access` decides."""

from __future__ import annotations

from dataclasses import dataclass
from uuid import UUID

from django.core.exceptions import PermissionDenied
from django.db.models import Exists, OuterRef, Q, QuerySet
from django.http import Http404
from django.shortcuts import get_object_or_404
from django.utils.translation import gettext as _

from crops.models import Planting, Workshop
from crops.queries import plantings_with_facts
from plots.access import (
    Visitor,
    days_to_log,
    garden_to_see,
    logs_everywhere,
    may_run,
    oversees,
    own_plots,
    plot_to_plan,
    plot_to_see,
    plots_to_log,
    visible_plots,
)
from plots.models import Assignment, Garden, Membership, Role, StandIn, User
from plots.powers import Power
from schedules.models import GardenReading, LogPhoto, Printing, RainReading, WorkLog
from schedules.work import Work


def planting_to_see(user: Visitor, slug: str, planting_pk: int) -> Planting:
    """A planting that still stands in its plan, with its facts and its garden at hand."""
    garden = garden_to_see(user, slug)
    try:
        planting = plantings_with_facts(garden).get(pk=planting_pk)
    except Planting.DoesNotExist:
        raise Http404 from None
    planting.plot = plot_to_see(user, garden, planting.plot_id)
    return planting


def planting_to_plan(user: Visitor, slug: str, planting_pk: int) -> Planting:
    """As `planting_to_see`, for somebody who may also change it."""
    planting = planting_to_see(user, slug, planting_pk)
    plot_to_plan(user, planting.plot.garden, planting.plot_id)
    return planting


def removed_to_restore(user: Visitor, slug: str, planting_pk: int) -> Planting:
    """A planting that was taken out of the plan and may be put back."""
    garden = garden_to_see(user, slug)
    try:
        planting = Planting.objects.get(pk=planting_pk, plot__garden=garden, removed_at__isnull=False)
    except Planting.DoesNotExist:
        raise Http404 from None
    planting.plot = plot_to_plan(user, garden, planting.plot_id)
    return planting


def reading_to_remove(user: Visitor, slug: str, reading_pk: int) -> GardenReading:
    """A reading of the thermometers, for who read it and for those trusted with settings."""
    garden = garden_to_see(user, slug)
    reading = get_object_or_404(garden.readings.select_related("garden"), pk=reading_pk)
    if not _made_or_settles(user, garden, reading):
        raise PermissionDenied(_("Whoever read the thermometer may take the reading off the list."))
    return reading


def rain_to_remove(user: Visitor, slug: str, reading_pk: int) -> RainReading:
    """A reading of the rain gauge, for who read it and for those trusted with settings."""
    garden = garden_to_see(user, slug)
    reading = get_object_or_404(garden.rain_readings.select_related("garden"), pk=reading_pk)
    if not _made_or_settles(user, garden, reading):
        raise PermissionDenied(_("Whoever read the gauge may take the reading off the list."))
    return reading


def _made_or_settles(user: Visitor, garden: Garden, reading: GardenReading | RainReading) -> bool:
    return reading.made_by_id == user.pk or may_run(user, garden, Power.SETTINGS)


def workshops_to_see(user: Visitor, garden: Garden) -> QuerySet[Workshop]:
    """Every member sees what is to come; who runs workdays also what was, and how many came."""
    rows = Workshop.objects.standing().filter(garden=garden)
    return rows if may_run(user, garden, Power.WORKDAYS) else rows.filter(on__gte=garden.today())


def workshop_to_see(user: Visitor, slug: str, workshop_pk: int) -> Workshop:
    """One workshop of the list, with its garden at hand."""
    rows = workshops_to_see(user, garden_to_see(user, slug)).select_related("garden")
    found = rows.filter(pk=workshop_pk).first()
    if found is None:
        raise Http404
    return found


def printings_to_see(user: Visitor, garden: Garden) -> QuerySet[Printing]:
    """Kept sheets, for who printed them and for coordinators."""
    rows = garden.printings.select_related("garden")
    return rows if may_run(user, garden) else rows.filter(made_by_id=user.pk)


def printing_to_see(user: Visitor, slug: str, key: UUID) -> Printing:
    """One kept sheet of the list, with its garden at hand."""
    found = printings_to_see(user, garden_to_see(user, slug)).filter(key=key).first()
    if found is None:
        raise Http404
    return found


def _is(user: Visitor, *roles: Role) -> Exists:
    return Exists(Membership.objects.filter(user_id=user.pk, garden=OuterRef("garden"), role__in=roles))


def _seen(user: Visitor, garden: Garden) -> Q:
    """Logs of the plots that the person sees, and those that they did or wrote themself.

    Logs of no plot are for who oversees the garden, hours of others for who gardens with them and for
    coordinators.
    """
    own = Q(person_id=user.pk) | Q(made_by_id=user.pk)
    at = Q(plot__in=visible_plots(user, garden)) | (
        Q(plot__isnull=True) & _is(user, Role.COORDINATOR, Role.HELPER)
    )
    known = ~Q(work=Work.HOURS) | Q(person__in=_gardeners_with(user, garden)) | _is(user, Role.COORDINATOR)
    return own | (at & known)


def logs_to_read(user: Visitor, garden: Garden) -> QuerySet[WorkLog]:
    """The logs that count and that the person may read: what diaries and figures are made of."""
    return WorkLog.objects.standing().filter(_seen(user, garden), garden=garden)


@dataclass(frozen=True)
class Known:
    """The keys of those whose work somebody reads by name; `None` stands for everybody."""

    people: frozenset[int] | None = None

    def __contains__(self, person: int | None) -> bool:
        return self.people is None or person in self.people


def known_people(user: Visitor, garden: Garden) -> Known:
    """Whom the logs that the person reads may name.

    A plot's history stays with the plot, the names of those who had it before do not: a member reads only
    those they garden or gardened with, who stood in for them, and who looks after the garden.
    """
    if oversees(user, garden):
        return Known()
    lookers = Membership.objects.filter(garden=garden, role__in=[Role.COORDINATOR, Role.HELPER])
    people = _gardeners_with(user, garden) | User.objects.filter(pk__in=lookers.values("user"))
    return Known(frozenset(people.values_list("pk", flat=True)))


def _gardeners_with(user: Visitor, garden: Garden) -> QuerySet[User]:
    """The person, those who hold or held a plot together with them, and who stood in for these."""
    mine = Assignment.objects.filter(
        Q(holder_id=user.pk) | Q(co_gardeners=user.pk), plot__garden=garden
    ).values("pk")
    together = Assignment.co_gardeners.through.objects.filter(assignment__in=mine)
    return User.objects.filter(
        Q(pk=user.pk)
        | Q(pk__in=Assignment.objects.filter(pk__in=mine).values("holder"))
        | Q(pk__in=together.values("user"))
        | Q(pk__in=StandIn.objects.filter(assignment__in=mine).values("person"))
    )


def _may_change(user: Visitor, garden: Garden, log: WorkLog) -> bool:
    """Whoever did it or wrote it, who is trusted with it, and the people who had the plot on its day.

    A bed that all garden is nobody's: there each has their own logs alone.
    """
    if user.pk in (log.person_id, log.made_by_id):
        return True
    plot = plots_to_log(user, garden, late=True).filter(pk=log.plot_id).first()
    if plot is None:
        return False
    if not plot.is_personal and not own_plots(user, garden).filter(pk=plot.pk).exists():
        return logs_everywhere(user, garden)
    days = days_to_log(user, garden, [plot])
    spans = None if days is None else days.get(plot.pk)
    return spans is None or any(
        first <= log.day and (last is None or log.day <= last) for first, last in spans
    )


def logs_to_picture(user: Visitor, slug: str, key: UUID) -> list[WorkLog]:
    """The log with this key, or all those that came together under it, for somebody who may add photos."""
    garden = garden_to_see(user, slug)
    rows = WorkLog.objects.filter(_seen(user, garden), garden=garden).select_related("plot__garden")
    logs = list(rows.filter(Q(key=key) | Q(sent=key)).order_by("pk"))
    if not logs:
        raise Http404
    if not all(_may_change(user, garden, log) for log in logs):
        raise PermissionDenied(_("Photos are added by the people of the plot and by who is trusted with it."))
    return logs


def photo_to_see(user: Visitor, garden: Garden, key: UUID) -> LogPhoto:
    """A photo of a log that stands, neither of them taken away."""
    logs = WorkLog.objects.standing().filter(_seen(user, garden), garden=garden)
    found = LogPhoto.objects.standing().filter(key=key, log__in=logs).first()
    if found is None:
        raise Http404
    return found


def photo_to_change(user: Visitor, garden: Garden, key: UUID) -> LogPhoto:
    """A photo, taken away or not, for who made it, the people of its plot, and coordinators."""
    logs = WorkLog.objects.filter(_seen(user, garden), garden=garden)
    rows = LogPhoto.objects.select_related("log__plot__garden", "log__garden")
    found = rows.filter(key=key, log__in=logs).first()
    if found is None:
        raise Http404
    if user.pk != found.made_by_id and not _may_change(user, garden, found.log):
        raise PermissionDenied(
            _("Photos are changed by the people of the plot and by who is trusted with it.")
        )
    return found


def log_to_see(user: Visitor, slug: str, log_pk: int) -> WorkLog:
    """A log, taken back or not, for who sees its plot, did the work or wrote it down."""
    garden = garden_to_see(user, slug)
    rows = WorkLog.objects.filter(_seen(user, garden), garden=garden).select_related(
        "plot", "planting__crop", "planting__variety", "crop", "hose", "person", "made_by", "removed_by",
        "sighting", "treatment",
    )  # fmt: skip
    found = rows.filter(pk=log_pk).first()
    if found is None:
        raise Http404
    found.garden = garden
    if found.plot:
        found.plot.garden = garden
    return found


def may_change_log(user: Visitor, log: WorkLog) -> bool:
    """Whoever did it or wrote it, who had the plot on its day, and who is trusted with it."""
    return _may_change(user, log.garden, log)


def log_to_change(user: Visitor, slug: str, log_pk: int) -> WorkLog:
    """A log, for somebody who may also change it, take it back and put it back."""
    log = log_to_see(user, slug, log_pk)
    if not may_change_log(user, log):
        raise PermissionDenied(
            _("A log is changed by who made it, the people of its plot and who is trusted with it.")
        )
    return log
