"""What is planted where: adding, changing and removing, each keeping who did it and when."""

from __future__ import annotations

from django.core.exceptions import ValidationError
from django.db import transaction
from django.utils import timezone
from django.utils.translation import gettext as _

from crops.models import Crop, Planting, Start, Turn, Variety
from plots.models import NerveChoice, Plot, User


@transaction.atomic
def add_planting(
    *,
    plot: Plot,
    crop: Crop,
    variety: Variety | None = None,
    year: int,
    turn: Turn | str,
    start: Start | str,
    successions: int = 1,
    row_length_m: float | None = None,
    nerve: NerveChoice | str = "",
    covered: bool = False,
    note: str = "",
    by: User,
) -> Planting:
    """Adds a crop or variety to a plot; raises `ValidationError` by field for what cannot be."""
    _keep_usable(plot, crop, variety)
    now = timezone.now()
    planting = Planting(
        plot=plot,
        crop=crop,
        variety=variety,
        year=year,
        turn=turn,
        start=start,
        successions=successions,
        row_length_m=row_length_m,
        nerve=nerve,
        covered=covered,
        note=note,
        made_by=by,
        made_at=now,
        changed_by=by,
        changed_at=now,
    )
    planting.full_clean(exclude=["made_by", "changed_by", "removed_by"])
    planting.save()
    return planting


@transaction.atomic
def change_planting(planting: Planting, *, by: User, **changes: object) -> Planting:
    """Changes any of what is `CHANGEABLE`; the plot stays.

    Raises `ValidationError` by field for what cannot be, and for a planting removed meanwhile.
    """
    locked = Planting.objects.select_for_update().get(pk=planting.pk)
    if locked.removed_at:
        raise ValidationError(_("This planting has been removed; take the removal back first."))
    unknown = changes.keys() - CHANGEABLE
    if unknown:
        raise TypeError(f"a planting has no changeable {sorted(unknown)}")
    for name, value in changes.items():
        setattr(locked, name, value)
    _keep_usable(locked.plot, locked.crop, locked.variety)
    locked.changed_by, locked.changed_at = by, timezone.now()
    locked.full_clean(exclude=["made_by", "changed_by", "removed_by"])
    locked.save(update_fields=[*changes, "changed_by", "changed_at"])
    return locked


CHANGEABLE = frozenset(
    {"crop", "variety", "year", "turn", "start", "successions", "row_length_m", "nerve", "covered", "note"}
)


@transaction.atomic
def remove_planting(planting: Planting, *, by: User) -> None:
    """Takes a planting off the plan; it is kept for `restore_planting`. Twice is harmless."""
    removed = Planting.objects.filter(pk=planting.pk, removed_at=None)
    removed.update(removed_by=by, removed_at=timezone.now())


@transaction.atomic
def restore_planting(planting: Planting, *, by: User) -> None:
    """Puts a removed planting back as it was. Twice is harmless."""
    removed = Planting.objects.filter(pk=planting.pk, removed_at__isnull=False)
    removed.update(removed_by=None, removed_at=None, changed_by=by, changed_at=timezone.now())


def _keep_usable(plot: Plot, crop: Crop, variety: Variety | None) -> None:
    """Holds the rows a planting refers to, so that nobody removes them before it is saved."""
    if plot.retired_on and plot.retired_on <= plot.garden.today():
        raise ValidationError({"plot": _("Plot %(plot)s has been given up.") % {"plot": plot}})
    if not Crop.objects.select_for_update().filter(pk=crop.pk):
        raise ValidationError({"crop": _("This crop has been removed meanwhile.")})
    if variety and not Variety.objects.select_for_update().filter(pk=variety.pk):
        raise ValidationError({"variety": _("This variety has been removed meanwhile.")})
