"""A talk or lesson that the garden gives, and what is handed out there."""

from __future__ import annotations

from datetime import date

from django.conf import settings
from django.core.validators import MaxValueValidator
from django.db import models
from django.db.models import F, Q
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext_lazy as _

from crops.models.crop import Crop
from plots.models import Garden, GardenDate
from plots.models.fields import TidyField

MOST_PEOPLE = 5000


class Workshops(models.QuerySet["Workshop"]):
    """Workshops; a removed one is kept, so that its removal can be taken back."""

    def standing(self) -> Workshops:
        """Those that count."""
        return self.filter(removed_at=None)


class Workshop(models.Model):
    """One workshop. `topics` are codes of handouts in the order of the pack, `crops` those the sheets are of.

    How many are expected and how many came are numbers alone; nothing is 0 unless somebody wrote 0. `names`
    are for name tags, one a line, and go when it is written down who came. With `public` the workshop
    stands among the garden's dates, as `calendar_date`.
    """

    garden = models.ForeignKey(Garden, models.CASCADE, related_name="workshops")
    title = TidyField(_("title"), max_length=100)
    on = models.DateField(_("day"))
    starts_at = models.TimeField(_("from"), null=True, blank=True)
    ends_at = models.TimeField(_("until"), null=True, blank=True)
    place = TidyField(_("place"), max_length=120, blank=True)
    language = models.CharField(_("language"), max_length=12, blank=True)
    note = models.TextField(_("note"), blank=True)
    expected = models.PositiveSmallIntegerField(
        _("people expected"), null=True, blank=True, validators=[MaxValueValidator(MOST_PEOPLE)]
    )
    attended = models.PositiveSmallIntegerField(
        _("people who came"), null=True, blank=True, validators=[MaxValueValidator(MOST_PEOPLE)]
    )
    names = models.TextField(_("names for name tags"), blank=True)
    public = models.BooleanField(
        _("stands among the garden’s dates"), default=True,
        help_text=_("Anybody can read those: write no names of members and no gate codes."),
    )  # fmt: skip
    calendar_date = models.OneToOneField(
        GardenDate, models.SET_NULL, null=True, editable=False, related_name="workshop"
    )
    topics = models.JSONField(_("sheets"), default=list, blank=True)
    crops = models.ManyToManyField(Crop, blank=True, related_name="workshops", verbose_name=_("crops"))
    title_page = models.BooleanField(_("with a title page"), default=True)
    made_by = models.ForeignKey(settings.AUTH_USER_MODEL, models.SET_NULL, null=True, related_name="+")
    made_at = models.DateTimeField(default=timezone.now, editable=False)
    removed_at = models.DateTimeField(null=True, editable=False)

    objects = Workshops.as_manager()

    class Meta:
        ordering = ["on", "starts_at", "pk"]
        verbose_name = _("workshop")
        verbose_name_plural = _("workshops")
        constraints = [
            models.CheckConstraint(
                condition=Q(ends_at__isnull=True) | Q(starts_at__isnull=False, ends_at__gt=F("starts_at")),
                name="workshop_ends_after_it_starts",
                violation_error_message=_("It must end after it starts."),
            ),
            models.CheckConstraint(
                condition=(Q(expected__isnull=True) | Q(expected__lte=MOST_PEOPLE))
                & (Q(attended__isnull=True) | Q(attended__lte=MOST_PEOPLE)),
                name="workshop_of_a_likely_size",
            ),
        ]

    def __str__(self) -> str:
        return self.title

    def get_absolute_url(self) -> str:
        return reverse("schedules:workshop", args=[self.garden.slug, self.pk])

    def is_over(self, today: date) -> bool:
        return self.on < today

    @property
    def named(self) -> list[str]:
        """The names, one for each line that holds one."""
        return [" ".join(line.split()) for line in self.names.splitlines() if line.strip()]
