"""A garden's own crops and varieties."""

from __future__ import annotations

from django.core.exceptions import ValidationError
from django.db import transaction
from django.db.models import QuerySet, RestrictedError
from django.utils.text import slugify
from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from crops.models import OWN, Crop, Planting, Variety
from crops.wording.names import crop_label
from plots.models import Garden, User
from plots.service import save_changes
from plots.spelling import first_free


class InUseError(Exception):
    """Something cannot be removed because of what is planted; its text is for the person who tried."""


@transaction.atomic
def save_crop(*, garden: Garden, crop: Crop, by: User | None = None) -> Crop:
    """Adds a garden's own crop, or keeps its changes and who made them; its address stays as it was made."""
    Garden.objects.select_for_update().get(
        pk=garden.pk
    )  # two new crops of one name must not race for an address
    crop.garden = garden
    if not crop.slug:
        crop.slug = _free_slug(garden, crop.name)
    if crop.emergence_table_id != crop.limits_table_id:
        crop.limits_table_id = crop.emergence_table_id
    _save(garden, crop, "crop-changed", by)
    return crop


@transaction.atomic
def save_variety(*, garden: Garden, crop: Crop, variety: Variety, by: User | None = None) -> Variety:
    """Adds a garden's variety of a crop, or keeps its changes and who made them."""
    if crop.garden_id not in (None, garden.pk):
        raise ValidationError(_("This crop belongs to another garden."))
    variety.garden, variety.crop = garden, crop
    _save(garden, variety, "variety-changed", by)
    return variety


def _save(garden: Garden, row: Crop | Variety, what: str, by: User | None) -> None:
    if row.pk is None:
        row.save()
    else:
        save_changes(garden=garden, by=by, row=row, what=what)


@transaction.atomic
def remove_crop(crop: Crop) -> None:
    """Removes a garden's own crop; raises `InUseError` when it is planted or has varieties."""
    locked = Crop.objects.select_for_update().get(pk=crop.pk, garden__isnull=False)
    varieties = locked.varieties.count()
    if varieties:
        raise InUseError(
            ngettext(
                "%(crop)s has a variety here. Remove the variety first.",
                "%(crop)s has %(count)s varieties here. Remove them first.",
                varieties,
            )
            % {"crop": crop_label(locked), "count": varieties}
        )
    _delete(locked, crop_label(locked), Planting.objects.filter(crop=locked))


@transaction.atomic
def remove_variety(variety: Variety) -> None:
    """Removes a garden's variety; raises `InUseError` when it is planted."""
    locked = Variety.objects.select_for_update(of=("self",)).select_related("crop").get(pk=variety.pk)
    _delete(locked, crop_label(locked.crop, locked), Planting.objects.filter(variety=locked))


def _delete(grown: Crop | Variety, name: str, plantings: QuerySet[Planting]) -> None:
    """Plantings that were taken off the plan do not hold what they were of, unless logs tell of them."""
    planted = plantings.filter(removed_at=None).count()
    if planted:
        raise InUseError(
            ngettext(
                "%(what)s cannot be removed: %(count)s planting is of it, and needs its figures.",
                "%(what)s cannot be removed: %(count)s plantings are of it, and need its figures.",
                planted,
            )
            % {"what": name, "count": planted}
        )
    try:
        plantings.delete()
        grown.delete()
    except RestrictedError:
        raise InUseError(
            _("%(what)s stands in logs of what was done, so it stays.") % {"what": name}
        ) from None


def _free_slug(garden: Garden, name: str) -> str:
    stem = f"{OWN}{slugify(name)[:60] or 'crop'}"
    taken = set(garden.own_crops.filter(slug__startswith=stem).values_list("slug", flat=True))
    return first_free(stem, taken, "-")
