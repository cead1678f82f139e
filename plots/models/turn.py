"""The season turn: who wants to stay, what was decided, and what is due."""

from __future__ import annotations

from datetime import date, timedelta

from django.conf import settings
from django.core.validators import MinValueValidator
from django.db import models
from django.db.models import F, Q
from django.utils import timezone
from django.utils.translation import gettext_lazy as _

from plots.models.fields import TidyField
from plots.models.ground import Assignment, Garden, Season


class RenewalRound(models.Model):
    """Asking everybody who holds a plot whether they go on in the coming season."""

    season = models.OneToOneField(Season, models.CASCADE, related_name="renewals")
    opened_on = models.DateField(_("asked on"))
    answer_by = models.DateField(_("answers by"))
    grace_days = models.PositiveSmallIntegerField(_("days for late answers"), default=0)
    closed_on = models.DateField(_("closed on"), null=True, editable=False)

    class Meta:
        verbose_name = _("round of renewals")
        verbose_name_plural = _("rounds of renewals")
        constraints = [
            models.CheckConstraint(
                condition=Q(answer_by__gte=F("opened_on")), name="renewals_leave_time_to_answer",
                violation_error_message=_("The last day to answer cannot come before the first."),
            )
        ]  # fmt: skip

    def __str__(self) -> str:
        return str(_("renewals for %(season)s") % {"season": self.season})

    @property
    def last_call(self) -> date:
        """The last day on which a late answer still counts."""
        return self.answer_by + timedelta(days=self.grace_days)


class WishChoice(models.TextChoices):
    KEEP = "keep", _("keep this plot")
    MOVE = "move", _("change to another plot; keep this one until then")
    LEAVE = "leave", _("give this plot up")


class Decision(models.TextChoices):
    RENEWED = "renewed", _("renewed")
    FREED = "freed", _("freed")


class Renewal(models.Model):
    """What a household answered about its plot, and what a person then decided."""

    round = models.ForeignKey(RenewalRound, models.CASCADE, related_name="renewals")
    assignment = models.ForeignKey(Assignment, models.PROTECT, related_name="renewals")
    wish = models.CharField(_("wish"), max_length=8, choices=WishChoice.choices, blank=True)
    note = models.CharField(_("note"), max_length=300, blank=True)
    answered_on = models.DateField(null=True)
    answered_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, models.SET_NULL, null=True, related_name="+"
    )  # who pressed the button: the household, or a coordinator for it
    decision = models.CharField(_("decision"), max_length=8, choices=Decision.choices, blank=True)
    decided_on = models.DateField(null=True)
    successor = models.OneToOneField(Assignment, models.SET_NULL, null=True, related_name="renewed_from")

    class Meta:
        verbose_name = _("renewal")
        verbose_name_plural = _("renewals")
        constraints = [
            models.UniqueConstraint(fields=["round", "assignment"], name="one_answer_a_round"),
            models.CheckConstraint(
                condition=Q(wish__in=["", *WishChoice.values])
                & Q(decision__in=["", *Decision.values])
                & (Q(wish="", answered_on__isnull=True) | (~Q(wish="") & Q(answered_on__isnull=False)))
                & (Q(decision="", decided_on__isnull=True) | (~Q(decision="") & Q(decided_on__isnull=False))),
                name="renewal_says_when",
            ),
        ]

    def __str__(self) -> str:
        return str(_("renewal of %(assignment)s") % {"assignment": self.assignment})


class DueKind(models.TextChoices):
    PLOT = "plot", _("dues for the plot")
    OTHER = "other", _("other")


class Due(models.Model):
    """What somebody owes the garden for a season: due, paid or waived. Why it was waived is not asked."""

    garden = models.ForeignKey(Garden, models.CASCADE, related_name="dues")
    season = models.ForeignKey(Season, models.PROTECT, related_name="dues")
    person = models.ForeignKey(settings.AUTH_USER_MODEL, models.PROTECT, related_name="dues")
    assignment = models.ForeignKey(Assignment, models.PROTECT, null=True, blank=True, related_name="dues")
    kind = models.CharField(max_length=8, choices=DueKind.choices, default=DueKind.OTHER)
    what = TidyField(_("what for"), max_length=80, blank=True)
    amount = models.DecimalField(
        _("amount"), max_digits=8, decimal_places=2, validators=[MinValueValidator(0)]
    )
    due_on = models.DateField(_("due by"))
    paid_on = models.DateField(_("paid on"), null=True, blank=True)
    waived_on = models.DateField(_("waived on"), null=True, blank=True)
    made_at = models.DateTimeField(default=timezone.now, editable=False)

    class Meta:
        ordering = ["due_on", "pk"]
        verbose_name = _("due")
        verbose_name_plural = _("dues")
        constraints = [
            # However often the dues of a season are drawn up, each household owes them once.
            models.UniqueConstraint(
                fields=["assignment"], condition=Q(kind=DueKind.PLOT), name="plot_dues_once"
            ),
            models.CheckConstraint(
                condition=Q(kind=DueKind.PLOT, assignment__isnull=False)
                | (Q(kind=DueKind.OTHER) & ~Q(what="")),
                name="due_for_something",
            ),
            models.CheckConstraint(
                condition=Q(paid_on__isnull=True) | Q(waived_on__isnull=True), name="due_paid_or_waived"
            ),
            models.CheckConstraint(condition=Q(amount__gte=0), name="due_is_no_debt_of_the_garden"),
        ]  # fmt: skip

    def __str__(self) -> str:
        return f"{self.title}, {self.person}"

    @property
    def title(self) -> str:
        """What it is for, in a few words."""
        if self.kind == DueKind.PLOT and self.assignment is not None:
            return str(_("plot %(plot)s") % {"plot": self.assignment.plot})
        return self.what

    @property
    def state(self) -> str:
        """`"paid"`, `"waived"` or `"due"`."""
        if self.paid_on:
            return "paid"
        return "waived" if self.waived_on else "due"
