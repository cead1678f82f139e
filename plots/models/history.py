"""What was changed in a garden: who, when, before, after and why.

Rows are added, never changed; only the name of somebody who is forgotten goes out of them.
"""

from __future__ import annotations

from django.conf import settings
from django.db import models
from django.utils import timezone
from django.utils.translation import gettext_lazy as _

from plots.models.ground import Garden


class Change(models.Model):
    """One change of one thing; `before` and `after` hold the changed fields alone, by name.

    The thing is named by model and key, not by a relation, so that its history outlives it.
    """

    garden = models.ForeignKey(Garden, models.CASCADE, related_name="changes")
    about_model = models.CharField(max_length=60)
    about_pk = models.BigIntegerField()
    about_name = models.CharField(max_length=200)
    what = models.CharField(max_length=40)
    before = models.JSONField(default=dict)
    after = models.JSONField(default=dict)
    why = models.TextField(_("why"), blank=True)
    by = models.ForeignKey(settings.AUTH_USER_MODEL, models.SET_NULL, null=True, related_name="+")
    by_name = models.CharField(max_length=120, blank=True)
    at = models.DateTimeField(default=timezone.now, editable=False)
    undoes = models.OneToOneField("self", models.CASCADE, null=True, related_name="undone_by")

    class Meta:
        ordering = ["-at", "-pk"]
        indexes = [
            models.Index(fields=["garden", "about_model", "about_pk"], name="changes_of_one_thing"),
            models.Index(fields=["garden", "-at"], name="changes_of_a_garden"),
        ]

    def __str__(self) -> str:
        return f"{self.what}: {self.about_name}, {self.at:%Y-%m-%d %H:%M}"
