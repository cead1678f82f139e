"""The garden's agreement: its versions, each in several languages, and who signed which text."""

from __future__ import annotations

from django.conf import settings
from django.conf.locale import LANG_INFO
from django.db import models
from django.db.models import Q
from django.utils import timezone
from django.utils.translation import gettext_lazy as _

from plots.models.fields import TidyField
from plots.models.ground import Garden

# Every language with its own name for itself; what a garden agrees in need not be one that Trugbook speaks.
LANGUAGES = sorted(
    ((code, info["name_local"]) for code, info in LANG_INFO.items() if "name_local" in info),
    key=lambda language: language[1].casefold(),
)


class AgreementVersion(models.Model):
    """One wording of the agreement; put in force it never changes again, a new version follows instead."""

    garden = models.ForeignKey(Garden, models.CASCADE, related_name="agreements")
    number = models.PositiveSmallIntegerField()
    in_force_on = models.DateField(_("in force from"), null=True, blank=True)

    class Meta:
        ordering = ["-number"]
        verbose_name = _("version of the agreement")
        verbose_name_plural = _("versions of the agreement")
        constraints = [
            models.UniqueConstraint(fields=["garden", "number"], name="agreement_numbered_once"),
            models.UniqueConstraint(
                fields=["garden"], condition=Q(in_force_on__isnull=True), name="one_draft_of_an_agreement"
            ),
        ]

    def __str__(self) -> str:
        return str(_("agreement, version %(number)s") % {"number": self.number})


class AgreementText(models.Model):
    """A version in one language."""

    version = models.ForeignKey(AgreementVersion, models.CASCADE, related_name="texts")
    language = models.CharField(_("language"), max_length=12, choices=LANGUAGES)
    title = TidyField(_("title"), max_length=160)
    body = models.TextField(_("text"))
    checked_by = TidyField(
        _("read over by"), max_length=120, blank=True, help_text=_("Who knows the language and checked it.")
    )

    class Meta:
        ordering = ["pk"]
        verbose_name = _("text of the agreement")
        verbose_name_plural = _("texts of the agreement")
        constraints = [
            models.UniqueConstraint(
                fields=["version", "language"], name="one_text_a_language",
                violation_error_message=_("This version has a text in this language already."),
            )
        ]  # fmt: skip

    def __str__(self) -> str:
        return self.title


class SignedHow(models.TextChoices):
    SCREEN = "screen", _("on screen")
    PAPER = "paper", _("on paper")


class Signature(models.Model):
    """That an adult agreed; a mistaken one is taken back, not deleted."""

    text = models.ForeignKey(AgreementText, models.PROTECT, related_name="signatures")
    version = models.ForeignKey(AgreementVersion, models.PROTECT, related_name="signatures")
    person = models.ForeignKey(settings.AUTH_USER_MODEL, models.PROTECT, related_name="signatures")
    how = models.CharField(max_length=8, choices=SignedHow.choices)
    name = TidyField(_("your name, as a signature"), max_length=120)
    signed_on = models.DateField(_("signed on"))
    kept_by = models.ForeignKey(settings.AUTH_USER_MODEL, models.SET_NULL, null=True, related_name="+")
    kept_at = models.DateTimeField(default=timezone.now, editable=False)
    taken_back_at = models.DateTimeField(null=True, editable=False)

    class Meta:
        ordering = ["-signed_on", "-pk"]
        verbose_name = _("signature")
        verbose_name_plural = _("signatures")
        constraints = [
            models.UniqueConstraint(
                fields=["version", "person"], condition=Q(taken_back_at__isnull=True), name="signed_once"
            ),
            models.CheckConstraint(condition=Q(how__in=SignedHow.values), name="signed_somehow"),
        ]

    def __str__(self) -> str:
        return f"{self.name}, {self.version}"
