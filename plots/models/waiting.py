"""The waiting list: who waits, what was offered to whom, and the yearly question whether they still do.

The shape of the tables keeps the worst mistakes out. Whoever waits has a `place`; whoever left, for whatever
reason, has none. An open offer hangs on a place and not on a person, so there is no way to write down an
offer to somebody who cancelled or has their plot.
"""

from __future__ import annotations

from datetime import datetime
from uuid import UUID, uuid4

from django.conf import settings
from django.db import models
from django.db.models import F, Q
from django.utils import timezone
from django.utils.translation import gettext_lazy as _

from plots.models.fields import FoldedField, TidyField, an_email_address
from plots.models.ground import Assignment, Garden, Plot, Season


class PlotChoice(models.Model):
    """What people may choose when they join: a size, a field, a kind of bed; and the plots it covers."""

    garden = models.ForeignKey(Garden, models.CASCADE, related_name="plot_choices")
    name = TidyField(_("name"), max_length=60)
    plots = models.ManyToManyField(Plot, related_name="choices", blank=True)

    class Meta:
        ordering = ["name", "pk"]
        verbose_name = _("choice of plots")
        verbose_name_plural = _("choices of plots")
        constraints = [
            models.UniqueConstraint(
                fields=["garden", "name"], name="plot_choice_once_per_garden",
                violation_error_message=_("This garden already has a choice of this name."),
            )
        ]  # fmt: skip

    def __str__(self) -> str:
        return self.name


class PlacedBy(models.TextChoices):
    """Why the date that counts is not the date of joining."""

    JOINED = "joined", _("joined")
    DECLINED = "declined", _("moved back after declining an offer")
    UNANSWERED = "unanswered", _("moved back after an offer ran out")
    BY_HAND = "hand", _("date set by hand")


class LeftWhy(models.TextChoices):
    """How a place on the list ended. The first two are final; the others may be taken back."""

    ACCEPTED = "accepted", _("accepted a plot")
    CANCELLED = "cancelled", _("asked to leave the list")
    DECLINED = "declined", _("declined an offer")
    UNANSWERED = "unanswered", _("did not answer an offer")
    SILENT = "silent", _("did not say that they are still interested")
    REMOVED = "removed", _("taken off by a coordinator")


FINAL = (LeftWhy.ACCEPTED, LeftWhy.CANCELLED)


def new_place() -> UUID:
    return uuid4()


class WaitingEntry(models.Model):
    """A person on the waiting list, with an account or without, reached in whatever way they gave."""

    garden = models.ForeignKey(Garden, models.CASCADE, related_name="waiting")
    member = models.ForeignKey(
        settings.AUTH_USER_MODEL, models.SET_NULL, null=True, blank=True, related_name="waiting",
        verbose_name=_("member"),
    )  # fmt: skip
    name = TidyField(_("name"), max_length=120)
    email = FoldedField(_("email"), max_length=254, blank=True, validators=[an_email_address])
    phone = TidyField(_("telephone"), max_length=40, blank=True)
    address = models.CharField(_("postal address"), max_length=300, blank=True)
    language = models.CharField(_("language"), max_length=12, blank=True)
    household_of = models.ForeignKey(
        settings.AUTH_USER_MODEL, models.SET_NULL, null=True, blank=True, related_name="+",
        verbose_name=_("lives in the household of"),
    )  # fmt: skip
    near = models.BooleanField(_("lives near"), default=False)
    in_group = models.BooleanField(_("yes to the garden's own question"), default=False)
    needs_accessible = models.BooleanField(_("needs an accessible bed"), default=False)
    choices = models.ManyToManyField(
        PlotChoice, related_name="entries", blank=True, verbose_name=_("would take")
    )
    note = models.CharField(_("note"), max_length=300, blank=True)
    joined_at = models.DateTimeField(_("joined"), default=timezone.now)
    placed_at = models.DateTimeField(_("date that counts"), default=timezone.now)
    placed_by = models.CharField(max_length=10, choices=PlacedBy.choices, default=PlacedBy.JOINED)
    place = models.UUIDField(null=True, unique=True, default=new_place, editable=False)
    left_at = models.DateTimeField(_("left the list"), null=True, editable=False)
    left_why = models.CharField(_("why"), max_length=10, choices=LeftWhy.choices, blank=True, editable=False)

    class Meta:
        ordering = ["placed_at", "pk"]
        verbose_name = _("place on the waiting list")
        verbose_name_plural = _("waiting list")
        indexes = [models.Index(fields=["garden", "left_at"], name="waiting_in_garden")]
        constraints = [
            models.CheckConstraint(
                condition=Q(place__isnull=False, left_at__isnull=True, left_why="")
                | Q(place__isnull=True, left_at__isnull=False, left_why__in=LeftWhy.values),
                name="waits_or_has_left",
            ),
            models.CheckConstraint(condition=Q(placed_by__in=PlacedBy.values), name="placed_by_known"),
            models.UniqueConstraint(
                fields=["garden", "member"], condition=Q(left_at__isnull=True), name="waits_once_per_garden",
                violation_error_message=_("This member is on the list already."),
            ),
        ]  # fmt: skip

    def __str__(self) -> str:
        return self.name

    @property
    def waits(self) -> bool:
        return self.place is not None

    @property
    def reachable(self) -> bool:
        """Whether anything says how to reach the person."""
        return bool(self.email or self.phone or self.address or self.member_id)


class Answer(models.TextChoices):
    """What became of an offer; empty while it is open."""

    ACCEPTED = "accepted", _("accepted")
    DECLINED = "declined", _("declined")
    UNANSWERED = "unanswered", _("not answered in time")
    WITHDRAWN = "withdrawn", _("withdrawn")


class ToldHow(models.TextChoices):
    """How somebody got to know of an offer."""

    EMAIL = "email", _("by email")
    PHONE = "phone", _("by telephone")
    POST = "post", _("by post")
    PERSON = "person", _("in person")


class Offer(models.Model):
    """A plot offered to somebody who waits, until a moment.

    `told_at`: when they were first told of it. One that nobody told them of takes nothing from them.
    """

    entry = models.ForeignKey(WaitingEntry, models.PROTECT, related_name="offers")
    place = models.OneToOneField(
        WaitingEntry, models.PROTECT, to_field="place", null=True, related_name="open_offer", editable=False
    )
    plot = models.ForeignKey(Plot, models.PROTECT, related_name="offers")
    season = models.ForeignKey(Season, models.PROTECT, related_name="offers")
    begins_on = models.DateField(_("from"))
    made_at = models.DateTimeField(_("made"), default=timezone.now)
    ends_at = models.DateTimeField(_("answer by"))
    made_by = models.ForeignKey(settings.AUTH_USER_MODEL, models.SET_NULL, null=True, related_name="+")
    next_in_line = models.ForeignKey(WaitingEntry, models.SET_NULL, null=True, related_name="+")
    why = models.CharField(_("why not the next in line"), max_length=300, blank=True)
    told_at = models.DateTimeField(_("told"), null=True, editable=False)
    told_how = models.CharField(_("told how"), max_length=6, choices=ToldHow.choices, blank=True)
    answer = models.CharField(_("answer"), max_length=10, choices=Answer.choices, blank=True)
    answered_at = models.DateTimeField(_("answered"), null=True)
    assignment = models.OneToOneField(Assignment, models.SET_NULL, null=True, related_name="offer")

    class Meta:
        ordering = ["-made_at", "-pk"]
        verbose_name = _("offer")
        verbose_name_plural = _("offers")
        constraints = [
            # Open on a place of the list, or answered: with the unique place, one open offer a person.
            models.CheckConstraint(
                condition=Q(place__isnull=False, answer="", answered_at__isnull=True)
                | Q(place__isnull=True, answer__in=Answer.values, answered_at__isnull=False),
                name="offer_open_or_answered",
            ),
            models.UniqueConstraint(
                fields=["plot"], condition=Q(place__isnull=False), name="one_open_offer_a_plot",
                violation_error_message=_("This plot is offered to somebody already."),
            ),
            models.CheckConstraint(condition=Q(ends_at__gt=F("made_at")), name="offer_leaves_time_to_answer"),
            models.CheckConstraint(
                condition=Q(told_at__isnull=True, told_how="")
                | Q(told_at__isnull=False, told_how__in=ToldHow.values),
                name="offer_told_somehow",
            ),
        ]  # fmt: skip

    def __str__(self) -> str:
        return str(_("plot %(plot)s to %(person)s") % {"plot": self.plot, "person": self.entry})

    def is_open_at(self, moment: datetime) -> bool:
        return self.place_id is not None and moment < self.ends_at


class InterestRound(models.Model):
    """The yearly question to everybody who waits: are you still interested?"""

    garden = models.ForeignKey(Garden, models.CASCADE, related_name="interest_rounds")
    asked_on = models.DateField(_("asked on"))
    answer_by = models.DateField(_("answers by"))
    closed_on = models.DateField(_("closed on"), null=True, editable=False)

    class Meta:
        ordering = ["-asked_on", "-pk"]
        verbose_name = _("question to who waits")
        verbose_name_plural = _("questions to who waits")
        constraints = [
            models.UniqueConstraint(
                fields=["garden"], condition=Q(closed_on__isnull=True), name="one_open_question_per_garden",
                violation_error_message=_("The question is being asked already."),
            ),
            models.CheckConstraint(
                condition=Q(answer_by__gte=F("asked_on")), name="question_leaves_time_to_answer",
                violation_error_message=_("The last day to answer cannot come before the first."),
            ),
        ]  # fmt: skip

    def __str__(self) -> str:
        return str(_("still interested? %(day)s") % {"day": self.asked_on})


class InterestAnswer(models.Model):
    """That somebody was asked in a round, and what they said: empty until they do."""

    round = models.ForeignKey(InterestRound, models.CASCADE, related_name="answers")
    entry = models.ForeignKey(WaitingEntry, models.CASCADE, related_name="interest")
    emailed_at = models.DateTimeField(_("emailed"), null=True, editable=False)  # last
    still = models.BooleanField(_("still interested"), null=True)
    answered_on = models.DateField(_("answered on"), null=True)

    class Meta:
        verbose_name = _("answer")
        verbose_name_plural = _("answers")
        constraints = [
            models.UniqueConstraint(fields=["round", "entry"], name="asked_once_a_round"),
            models.CheckConstraint(
                condition=Q(still__isnull=True, answered_on__isnull=True)
                | Q(still__isnull=False, answered_on__isnull=False),
                name="answer_says_when",
            ),
        ]

    def __str__(self) -> str:
        return f"{self.entry}, {self.round}"
