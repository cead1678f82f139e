"""What is kept of people in a form that cannot be rewritten, such as a printed sheet."""

from __future__ import annotations

from django.conf import settings
from django.db import models


class TellsOfPeople(models.Model):
    """Goes altogether when one of `people` is forgotten: see `plots.service.forgetting`."""

    people = models.ManyToManyField(settings.AUTH_USER_MODEL, related_name="+", editable=False)

    class Meta:
        abstract = True
