"""Keeping, taking away and forgetting photos.

Files are written before the transaction that keeps their rows and deleted when it fails: neither a row
without its files nor a file without a row. What a crash just between leaves behind, `sweep_files` finds.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import datetime, timedelta
from hashlib import sha256
from typing import TypeVar
from uuid import NAMESPACE_OID, UUID, uuid5

from django.apps import apps
from django.core.exceptions import ValidationError
from django.core.files.base import ContentFile
from django.core.files.storage import default_storage
from django.db import IntegrityError, transaction
from django.db.models import F, Model, Q
from django.utils import timezone
from django.utils.translation import gettext as _

from plots.models import Finding, FindingPhoto, Photo, User
from plots.models.photos import random_name
from plots.photos import Picture

KEPT_DAYS = 30  # a photo that was taken away can be put back so long; then its files go
AnyPhoto = TypeVar("AnyPhoto", bound=Photo)


def key_of(picture: Picture, *, about: Model, by: User) -> UUID:
    """The key of a photo that came without one: the same photo of the same thing has the same."""
    words = f"{about._meta.label_lower} {about.pk} {by.pk} {sha256(picture.image).hexdigest()}"
    return uuid5(NAMESPACE_OID, words)


def keep_photo(rows: Sequence[AnyPhoto], picture: Picture) -> tuple[AnyPhoto, bool]:
    """Keeps the picture once for all rows; the first of them as kept, and whether that was new.

    Not to be called within a transaction, whose later failure would leave the files behind. A photo with
    the key of the first row that the same person sent before is given back as it is.
    """
    first = rows[0]
    known = _known(first)
    if known is not None:
        return known, False
    names: list[str] = []
    try:
        for data in (picture.image, picture.thumb):
            names.append(default_storage.save(random_name(first, ""), ContentFile(data)))
        _insert(rows, picture, names)
    except BaseException as error:
        for name in names:
            default_storage.delete(name)
        known = _known(first) if isinstance(error, IntegrityError) else None
        if known is None:
            raise
        return known, False  # sent twice at the same moment
    return first, True


def _known(photo: AnyPhoto) -> AnyPhoto | None:
    known = type(photo).objects.filter(key=photo.key).first()
    if known is not None and known.made_by_id != photo.made_by_id:
        raise ValidationError(_("This photo was sent by somebody else."))
    return known


def _insert(rows: Sequence[Photo], picture: Picture, names: Sequence[str]) -> None:
    with transaction.atomic():
        for row in rows:
            row.image, row.thumb = names
            row.width, row.height = picture.width, picture.height
            row.save(force_insert=True)
        let_go = timezone.now() - timedelta(days=KEPT_DAYS)
        type(rows[0]).objects.filter(removed_at__lt=let_go).delete()


def sweep_files(*, now: datetime) -> int:
    """Deletes the files of photos that have had no row for a day, and says how many."""
    known = {
        name
        for model in _kinds()
        for names in model.objects.values_list("image", "thumb")
        for name in names
    }  # fmt: skip
    strays = [
        name for name in _written()
        if name not in known and default_storage.get_modified_time(name) < now - timedelta(days=1)
    ]  # fmt: skip
    for name in strays:
        default_storage.delete(name)
    return len(strays)


def _written() -> Iterator[str]:
    """The files under names that `random_name` gives; whatever else lies there is not ours."""
    if not default_storage.exists(""):
        return  # no photo has come yet
    for folder in default_storage.listdir("")[0]:
        for name in default_storage.listdir(folder)[1]:
            if len(folder) == 2 and name.startswith(folder) and name.endswith(".jpg"):
                yield f"{folder}/{name}"


def _kinds() -> list[type[Photo]]:
    return [model for model in apps.get_models() if issubclass(model, Photo)]


@transaction.atomic
def remove_photo(*, photo: Photo, by: User) -> None:
    """Takes a photo away everywhere it is shown; see `KEPT_DAYS`."""
    same = type(photo).objects.standing().filter(image=photo.image.name)
    same.update(removed_at=timezone.now(), removed_by=by)


@transaction.atomic
def restore_photo(*, photo: Photo) -> None:
    type(photo).objects.filter(image=photo.image.name).update(removed_at=None, removed_by=None)


def photograph(*, finding: Finding, pictures: Sequence[Picture], by: User) -> None:
    """Keeps photos of how a plot was found; one that was taken away before is there again."""
    for picture in pictures:
        key = key_of(picture, about=finding, by=by)
        photo, is_new = keep_photo([FindingPhoto(key=key, finding=finding, made_by=by)], picture)
        if not is_new:
            restore_photo(photo=photo)


def forget_photos(*, person: User) -> None:
    """Deletes what the person photographed, and what was photographed on rounds of the plots they held."""
    for model in _kinds():
        model.objects.filter(made_by=person).delete()
    held = Q(
        finding__plot__assignments__holder=person,
        finding__plot__assignments__began_on__lte=F("finding__round__day"),
    ) & (
        Q(finding__plot__assignments__ended_on__isnull=True)
        | Q(finding__plot__assignments__ended_on__gte=F("finding__round__day"))
    )
    FindingPhoto.objects.filter(pk__in=FindingPhoto.objects.filter(held).values("pk")).delete()
