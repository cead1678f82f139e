"""What every photo has, whatever it shows: two pictures in the folder for files, and who put them there.

The pictures have random names, and no web server knows their folder: views ask `access` and hand them out.
"""

from __future__ import annotations

import uuid
from typing import Any

from django.conf import settings
from django.core.files.storage import default_storage
from django.db import models, transaction
from django.utils import timezone
from django.utils.translation import gettext_lazy as _

from plots.models.care import Finding
from plots.models.fields import TidyField
from plots.photos import fitted


def random_name(_photo: models.Model, _sent_as: str) -> str:
    """A name that says nothing and that nobody can guess, in one of 256 folders."""
    name = uuid.uuid4().hex
    return f"{name[:2]}/{name}.jpg"


class Photos(models.QuerySet[Any]):
    """Photos of any kind."""

    def standing(self) -> Photos:
        """Those that were not taken away."""
        return self.filter(removed_at__isnull=True)


def files_go_with_the_last_row(sender: type[Photo], instance: Photo, **_kwargs: Any) -> None:
    """Once a deletion stands: deletes the row's files, unless another row has them too."""
    image, thumb = instance.image.name, instance.thumb.name

    def delete() -> None:
        if not sender.objects.filter(image=image).exists():
            default_storage.delete(image)
            default_storage.delete(thumb)

    transaction.on_commit(delete)


class Photo(models.Model):
    """A photo as `plots.photos` made it. `key` is given by whoever sends it, so that it is kept once.

    Rows may share their two files (a photo of several logs); with the last row the files go.
    """

    key = models.UUIDField(unique=True, default=uuid.uuid4, editable=False)
    image = models.FileField(upload_to=random_name, editable=False)
    thumb = models.FileField(upload_to=random_name, editable=False)
    width = models.PositiveSmallIntegerField(editable=False)
    height = models.PositiveSmallIntegerField(editable=False)
    caption = TidyField(_("what it shows"), max_length=200, blank=True)
    made_by = models.ForeignKey(settings.AUTH_USER_MODEL, models.SET_NULL, null=True, related_name="+")
    made_at = models.DateTimeField(default=timezone.now, editable=False)
    removed_by = models.ForeignKey(settings.AUTH_USER_MODEL, models.SET_NULL, null=True, related_name="+")
    removed_at = models.DateTimeField(null=True, blank=True, editable=False)

    objects = Photos.as_manager()

    class Meta:
        abstract = True
        ordering = ["made_at", "pk"]

    def __init_subclass__(cls, **kwargs: Any) -> None:
        super().__init_subclass__(**kwargs)
        models.signals.post_delete.connect(files_go_with_the_last_row, sender=cls)

    def __str__(self) -> str:
        return self.caption or str(_("photo"))

    @property
    def thumb_size(self) -> tuple[int, int]:
        """Width and height of the smaller picture, in pixels."""
        return fitted(self.width, self.height)


class FindingPhoto(Photo):
    """How a plot was found on a care round; only for those trusted with care."""

    finding = models.ForeignKey(Finding, models.CASCADE, related_name="photos")

    class Meta(Photo.Meta):
        verbose_name = _("photo of a care round")
        verbose_name_plural = _("photos of care rounds")
