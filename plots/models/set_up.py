"""How far a new garden has been set up."""

from __future__ import annotations

from django.db import models

from plots.models.ground import Garden
from plots.set_up import Step, next_step


class SetUp(models.Model):
    """Made with a new garden; one without it needs no setting up. The lists hold words of `plots.set_up`."""

    garden = models.OneToOneField(Garden, models.CASCADE, related_name="set_up", primary_key=True)
    done = models.JSONField(default=list)
    skipped = models.JSONField(default=list)
    closed_at = models.DateTimeField(null=True)

    def __str__(self) -> str:
        return f"{self.garden}: {', '.join(self.done)}"

    def next_step(self) -> Step | None:
        return next_step(self.done, self.skipped)
