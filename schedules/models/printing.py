"""Sheets that were printed and are kept, to be printed again just as they were.

The files have random names in the folder for private files; views ask `access` and hand them out.
"""

from __future__ import annotations

import uuid
from typing import Any

from django.conf import settings
from django.core.files.storage import default_storage
from django.db import models, transaction
from django.db.models import Q
from django.utils import timezone
from django.utils.translation import gettext_lazy as _

from plots.models import Garden, TellsOfPeople
from plots.models.fields import TidyField


def random_name(_row: models.Model, _sent_as: str) -> str:
    """A name that says nothing and that nobody can guess, in one of 256 folders."""
    name = uuid.uuid4().hex
    return f"paper/{name[:2]}/{name}.pdf"


class Printing(TellsOfPeople):
    """One file of the kind `kind`; `asked` is what its form was filled in with, by field.

    Everyone's sheets in one file are made in steps: `members` are the keys of whom they are for, in order;
    until the last step there is no `file` but only its parts.
    """

    key = models.UUIDField(unique=True, default=uuid.uuid4, editable=False)
    garden = models.ForeignKey(Garden, models.CASCADE, related_name="printings")
    kind = models.CharField(max_length=40)
    title = TidyField(_("what it is"), max_length=200)
    asked = models.JSONField(default=dict, editable=False)
    members = models.JSONField(default=list, editable=False)
    at_once = models.PositiveSmallIntegerField(default=1, editable=False)  # members in a step
    made_by = models.ForeignKey(settings.AUTH_USER_MODEL, models.SET_NULL, null=True, related_name="+")
    made_at = models.DateTimeField(default=timezone.now, editable=False)
    file = models.FileField(upload_to=random_name, blank=True, editable=False)
    sha256 = models.CharField(max_length=64, blank=True, editable=False)
    size = models.PositiveIntegerField(default=0, editable=False)

    class Meta:
        ordering = ["-made_at", "-pk"]
        verbose_name = _("printed sheet")
        verbose_name_plural = _("printed sheets")
        indexes = [models.Index(fields=["garden", "-made_at"], name="printings_of_a_garden")]
        constraints = [
            models.CheckConstraint(
                condition=Q(file="", sha256="", size=0) | ~Q(file="") & ~Q(sha256="") & Q(size__gt=0),
                name="printing_whole_or_not_yet",
            )
        ]

    def __str__(self) -> str:
        return self.title

    @property
    def is_ready(self) -> bool:
        return bool(self.file)

    @property
    def steps(self) -> int:
        """In how many steps everyone's sheets are made, before these are put into one file."""
        return -(-len(self.members) // self.at_once)

    def members_of(self, step: int) -> list[int]:
        """The keys of those whose sheets are made in a step, counted from 0."""
        keys: list[int] = self.members[step * self.at_once : (step + 1) * self.at_once]
        return keys

    def members_made(self) -> int:
        """Of how many members the sheets are made."""
        return sum(len(self.members_of(step)) for step in self.parts.values_list("number", flat=True))


class PrintingPart(models.Model):
    """The sheets of some members, `number` counted from 0, until they are put into one file."""

    printing = models.ForeignKey(Printing, models.CASCADE, related_name="parts")
    number = models.PositiveSmallIntegerField()
    file = models.FileField(upload_to=random_name, editable=False)

    class Meta:
        ordering = ["printing", "number"]
        verbose_name = _("part of a printed file")
        verbose_name_plural = _("parts of printed files")
        constraints = [models.UniqueConstraint(fields=["printing", "number"], name="printing_part_made_once")]

    def __str__(self) -> str:
        return f"{self.printing}, {self.number}"


def file_goes_with_its_row(sender: Any, instance: Printing | PrintingPart, **_kwargs: Any) -> None:
    """Once a deletion stands: deletes the row's file."""
    if name := instance.file.name:
        transaction.on_commit(lambda: default_storage.delete(name))


for _model in (Printing, PrintingPart):
    models.signals.post_delete.connect(file_goes_with_its_row, sender=_model)
