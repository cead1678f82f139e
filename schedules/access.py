"""Plantings, logs and photos, by who may see and plan their plot; `plots.access` decides."""

from __future__ import annotations

from uuid import UUID

from django.core.exceptions import PermissionDenied
from django.db.models import Q
from django.http import Http404
from django.utils.translation import gettext as _

from crops.models import Planting
from crops.queries import plantings_with_facts
from plots.access import Visitor, garden_to_see, plot_to_plan, plot_to_see, plots_to_log, visible_plots
from plots.models import Garden
from schedules.models import LogPhoto, WorkLog


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


def _seen(user: Visitor, garden: Garden) -> Q:
    """Logs of the plots that the person sees, and those that they did or wrote themself."""
    return Q(plot__in=visible_plots(user, garden)) | Q(person_id=user.pk) | Q(made_by_id=user.pk)


def _may_picture(user: Visitor, garden: Garden, log: WorkLog) -> bool:
    own = user.pk in (log.person_id, log.made_by_id)
    return own or plots_to_log(user, garden, late=True).filter(pk=log.plot_id).exists()


def logs_to_picture(user: Visitor, slug: str, key: UUID) -> list[WorkLog]:
    """The log with this key, or all those that came together under it, for somebody who may add photos."""
    garden = garden_to_see(user, slug)
    rows = WorkLog.objects.filter(_seen(user, garden), garden=garden).select_related("plot__garden")
    logs = list(rows.filter(Q(key=key) | Q(sent=key)).order_by("pk"))
    if not logs:
        raise Http404
    if not all(_may_picture(user, garden, log) for log in logs):
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
    if user.pk != found.made_by_id and not _may_picture(user, garden, found.log):
        raise PermissionDenied(
            _("Photos are changed by the people of the plot and by who is trusted with it.")
        )
    return found


def log_to_see(user: Visitor, slug: str, log_pk: int) -> WorkLog:
    """A log, taken back or not, for who sees its plot, did the work or wrote it down."""
    garden = garden_to_see(user, slug)
    rows = WorkLog.objects.filter(_seen(user, garden), garden=garden).select_related(
        "garden", "plot__garden", "planting__crop", "planting__variety", "crop", "hose", "person", "made_by",
        "removed_by", "sighting", "treatment",
    )  # fmt: skip
    found = rows.filter(pk=log_pk).first()
    if found is None:
        raise Http404
    return found


def may_change_log(user: Visitor, log: WorkLog) -> bool:
    """Whoever did it or wrote it, the people of the plot, and who is trusted with it."""
    return _may_picture(user, log.garden, log)


def log_to_change(user: Visitor, slug: str, log_pk: int) -> WorkLog:
    """A log, for somebody who may also change it, take it back and put it back."""
    log = log_to_see(user, slug, log_pk)
    if not may_change_log(user, log):
        raise PermissionDenied(
            _("A log is changed by who made it, the people of its plot and who is trusted with it.")
        )
    return log
