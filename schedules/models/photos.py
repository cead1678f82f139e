"""Photos of what was done at the plots."""

from __future__ import annotations

from django.db import models
from django.utils.translation import gettext_lazy as _

from plots.models import Photo
from schedules.models.logs import WorkLog


class LogPhoto(Photo):
    """A photo of a log, for those who may see its plot; with `may_show` the garden may show it elsewhere."""

    log = models.ForeignKey(WorkLog, models.CASCADE, related_name="photos")
    may_show = models.BooleanField(_("may stand in the season report"), default=False)

    class Meta(Photo.Meta):
        verbose_name = _("photo")
        verbose_name_plural = _("photos")
