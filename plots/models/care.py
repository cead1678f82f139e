"""Care rounds, pauses, and the private matters that a finding may open.

All of it is for those trusted with care alone; of a pause its two words and its days are kept, never more.
Steps of a matter are added, never changed: one that was wrong is marked as taken back and stays.
"""

from __future__ import annotations

from datetime import date

from django.conf import settings
from django.db import models
from django.db.models import F, Q
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _now
from django.utils.translation import gettext_lazy as _

from plots.models.ground import Assignment, Garden, Plot


class CareRound(models.Model):
    """One walk past the plots, on one day."""

    garden = models.ForeignKey(Garden, models.CASCADE, related_name="care_rounds")
    day = models.DateField(_("day"))
    made_by = models.ForeignKey(settings.AUTH_USER_MODEL, models.SET_NULL, null=True, related_name="+")
    made_at = models.DateTimeField(default=timezone.now, editable=False)

    class Meta:
        ordering = ["-day", "-pk"]
        verbose_name = _("care round")
        verbose_name_plural = _("care rounds")
        constraints = [models.UniqueConstraint(fields=["garden", "day"], name="one_care_round_a_day")]

    def __str__(self) -> str:
        return str(self.day)

    def get_absolute_url(self) -> str:
        return reverse("plots:care_round", args=[self.garden.slug, self.pk])


class Finding(models.Model):
    """How a plot was found on a round: a line of the garden's rubric, with the words it had that day."""

    round = models.ForeignKey(CareRound, models.CASCADE, related_name="findings")
    plot = models.ForeignKey(Plot, models.CASCADE, related_name="findings")
    line = models.PositiveSmallIntegerField(_("line of the rubric"))
    words = models.CharField(_("state"), max_length=200)
    note = models.TextField(_("note"), blank=True, max_length=1000)
    made_by = models.ForeignKey(settings.AUTH_USER_MODEL, models.SET_NULL, null=True, related_name="+")
    made_at = models.DateTimeField(default=timezone.now, editable=False)

    class Meta:
        ordering = ["-round__day", "pk"]
        verbose_name = _("finding")
        verbose_name_plural = _("findings")
        constraints = [
            models.UniqueConstraint(fields=["round", "plot"], name="one_finding_per_plot_and_round"),
            models.CheckConstraint(condition=Q(line__gte=1), name="finding_on_a_line"),
        ]

    def __str__(self) -> str:
        return f"{self.plot}, {self.round}"


class PauseWhy(models.TextChoices):
    """All that is ever said about why somebody cannot come."""

    ILLNESS = "illness", _("illness")
    TRAVEL = "travel", _("travel")


class Pause(models.Model):
    """Days on which nobody expects a holder to come; without a last day until somebody ends it."""

    assignment = models.ForeignKey(Assignment, models.CASCADE, related_name="pauses")
    why = models.CharField(_("because of"), max_length=8, choices=PauseWhy.choices)
    from_on = models.DateField(_("from"))
    until_on = models.DateField(_("until"), null=True, blank=True)
    made_by = models.ForeignKey(settings.AUTH_USER_MODEL, models.SET_NULL, null=True, related_name="+")
    made_at = models.DateTimeField(default=timezone.now, editable=False)

    class Meta:
        ordering = ["-from_on", "-pk"]
        verbose_name = _("pause")
        verbose_name_plural = _("pauses")
        constraints = [
            models.CheckConstraint(condition=Q(why__in=PauseWhy.values), name="pause_says_no_more"),
            models.CheckConstraint(
                condition=Q(until_on__isnull=True) | Q(until_on__gte=F("from_on")),
                name="pause_ends_after_it_begins",
            ),
            models.UniqueConstraint(
                fields=["assignment"], condition=Q(until_on__isnull=True), name="one_open_pause",
                violation_error_message=_("There is an open pause already."),
            ),
        ]  # fmt: skip

    def __str__(self) -> str:
        return _now("Pause of plot %(plot)s") % {"plot": self.assignment.plot}

    def covers(self, day: date) -> bool:
        return self.from_on <= day and (self.until_on is None or day <= self.until_on)


class Outcome(models.TextChoices):
    """How a matter ended."""

    PUT_RIGHT = "right", _("the plot is in order")
    EXCUSED = "excused", _("excused")
    AGREED = "agreed", _("agreed on something else")
    GIVEN_UP = "given-up", _("the holder gives the plot up")
    ENDED = "ended", _("the garden ends the holding")


class Matter(models.Model):
    """What those trusted with care settle with the people of one plot, in private."""

    assignment = models.ForeignKey(Assignment, models.CASCADE, related_name="matters")
    finding = models.ForeignKey(Finding, models.SET_NULL, null=True, blank=True, related_name="matters")
    opened_on = models.DateField(_("opened on"))
    opened_by = models.ForeignKey(settings.AUTH_USER_MODEL, models.SET_NULL, null=True, related_name="+")
    closed_on = models.DateField(_("closed on"), null=True, blank=True)
    outcome = models.CharField(_("outcome"), max_length=8, choices=Outcome.choices, blank=True)

    class Meta:
        ordering = ["-opened_on", "-pk"]
        verbose_name = _("matter")
        verbose_name_plural = _("matters")
        constraints = [
            models.UniqueConstraint(
                fields=["assignment"], condition=Q(closed_on__isnull=True), name="one_open_matter",
                violation_error_message=_("There is an open matter already."),
            ),
            models.CheckConstraint(
                condition=Q(closed_on__isnull=True, outcome="")
                | Q(closed_on__isnull=False, outcome__in=Outcome.values),
                name="matter_closed_with_an_outcome",
            ),
        ]  # fmt: skip

    def __str__(self) -> str:
        return _now("Matter of plot %(plot)s") % {"plot": self.assignment.plot}

    def get_absolute_url(self) -> str:
        return reverse("plots:matter", args=[self.assignment.plot.garden.slug, self.pk])


class StepKind(models.TextChoices):
    """What a person did in a matter; the same words as in `plots.care`."""

    CONTACT = "contact", _("tried to reach them")
    NOTICE = "notice", _("gave a notice")
    DEADLINE = "deadline", _("gave more time")
    RECHECK = "recheck", _("looked again")
    DECISION = "decision", _("decided")
    APPEAL = "appeal", _("an appeal came in")
    OUTCOME = "outcome", _("closed")


class ContactHow(models.TextChoices):
    PHONE = "phone", _("by telephone")
    PERSON = "person", _("in person")
    EMAIL = "email", _("by email")
    POST = "post", _("by post")
    PLOT = "plot", _("in a sealed envelope at the plot")


class MatterStep(models.Model):
    """One step. `done`: somebody was reached, or the plot was in order again; `due_on`: until when."""

    matter = models.ForeignKey(Matter, models.CASCADE, related_name="steps")
    kind = models.CharField(max_length=10, choices=StepKind.choices)
    day = models.DateField(_("day"))
    how = models.CharField(_("how"), max_length=8, choices=ContactHow.choices, blank=True)
    done = models.BooleanField(default=False)
    due_on = models.DateField(_("until"), null=True, blank=True)
    text = models.TextField(_("words"), blank=True, max_length=5000)
    made_by = models.ForeignKey(settings.AUTH_USER_MODEL, models.SET_NULL, null=True, related_name="+")
    made_at = models.DateTimeField(default=timezone.now, editable=False)
    taken_back_by = models.ForeignKey(settings.AUTH_USER_MODEL, models.SET_NULL, null=True, related_name="+")
    taken_back_at = models.DateTimeField(null=True, editable=False)

    class Meta:
        ordering = ["day", "pk"]
        verbose_name = _("step")
        verbose_name_plural = _("steps")
        constraints = [
            models.CheckConstraint(
                condition=Q(kind__in=StepKind.values) & Q(how__in=["", *ContactHow.values]),
                name="matter_step_known",
            )
        ]

    def __str__(self) -> str:
        return f"{self.get_kind_display()}, {self.day}"
