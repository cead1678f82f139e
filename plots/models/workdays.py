"""Workdays with their tasks, who signed up and what they did; make-up jobs; the garden's own dates."""

from __future__ import annotations

from datetime import date, datetime, time, timedelta

from django.conf import settings
from django.core.validators import MaxValueValidator, MinValueValidator
from django.db import models
from django.db.models import F, Q
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext_lazy as _

from plots.models.fields import TidyField
from plots.models.ground import Garden, Season

DAY_MINUTES = 24 * 60


class Held(models.TextChoices):
    """On which of its days a workday takes place."""

    DAY = "day", _("on its day")
    RAIN = "rain", _("on the rain date")
    OFF = "off", _("called off")


class Workday(models.Model):
    """A day on which members work for the whole garden, with a second date should it rain."""

    garden = models.ForeignKey(Garden, models.CASCADE, related_name="workdays")
    name = TidyField(_("name"), max_length=80)
    day = models.DateField(_("day"))
    rain_day = models.DateField(_("rain date"), null=True, blank=True)
    starts_at = models.TimeField(_("from"), default=time(9))
    ends_at = models.TimeField(_("until"), default=time(12))
    place = TidyField(_("where people meet"), max_length=120, blank=True)
    note = models.TextField(_("note"), blank=True)
    held = models.CharField(_("takes place"), max_length=8, choices=Held.choices, default=Held.DAY)
    made_at = models.DateTimeField(default=timezone.now, editable=False)
    changed_at = models.DateTimeField(default=timezone.now, editable=False)

    class Meta:
        ordering = ["day", "starts_at", "pk"]
        verbose_name = _("workday")
        verbose_name_plural = _("workdays")
        constraints = [
            models.CheckConstraint(
                condition=Q(rain_day__isnull=True) | Q(rain_day__gt=F("day")), name="rain_date_comes_later",
                violation_error_message=_("The rain date must come after the day itself."),
            ),
            models.CheckConstraint(
                condition=Q(ends_at__gt=F("starts_at")), name="workday_ends_after_it_starts",
                violation_error_message=_("It must end after it starts."),
            ),
            models.CheckConstraint(
                condition=Q(held__in=Held.values) & (~Q(held="rain") | Q(rain_day__isnull=False)),
                name="workday_moves_to_its_rain_date",
                violation_error_message=_("It takes place on the rain date, so it needs one."),
            ),
        ]  # fmt: skip

    def __str__(self) -> str:
        return self.name

    def get_absolute_url(self) -> str:
        return reverse("plots:workday", args=[self.garden.slug, self.pk])

    @property
    def on(self) -> date:
        """The day it takes place; of one called off, the day it was meant for."""
        return self.rain_day if self.held == Held.RAIN and self.rain_day else self.day

    @property
    def is_off(self) -> bool:
        return self.held == Held.OFF

    @property
    def minutes(self) -> int:
        """How long it lasts: what counts for somebody who stays from beginning to end."""
        length = datetime.combine(self.day, self.ends_at) - datetime.combine(self.day, self.starts_at)
        return length // timedelta(minutes=1)


class WorkTask(models.Model):
    """What there is to do on a workday; without a workday a make-up job, done when it suits."""

    garden = models.ForeignKey(Garden, models.CASCADE, related_name="work_tasks")
    workday = models.ForeignKey(Workday, models.CASCADE, null=True, blank=True, related_name="tasks")
    name = TidyField(_("task"), max_length=120)
    place = TidyField(_("where"), max_length=120, blank=True)
    places = models.PositiveSmallIntegerField(
        _("people needed"), null=True, blank=True, validators=[MinValueValidator(1)],
        help_text=_("Left empty: as many as come."),
    )  # fmt: skip
    minutes = models.PositiveSmallIntegerField(null=True, blank=True)
    due_on = models.DateField(_("to be done by"), null=True, blank=True)
    note = models.TextField(_("note"), blank=True)
    removed_at = models.DateTimeField(null=True, editable=False)

    class Meta:
        ordering = ["pk"]
        verbose_name = _("task")
        verbose_name_plural = _("tasks")
        constraints = [
            models.CheckConstraint(
                condition=Q(workday__isnull=False) | Q(minutes__isnull=False), name="make_up_job_counts_hours"
            ),
            models.CheckConstraint(
                condition=(Q(places__isnull=True) | Q(places__gte=1))
                & (Q(minutes__isnull=True) | Q(minutes__gte=1, minutes__lte=DAY_MINUTES)),
                name="task_needs_people_and_time",
            ),
        ]

    def __str__(self) -> str:
        return self.name


class SignUp(models.Model):
    """That somebody means to come and do a task."""

    task = models.ForeignKey(WorkTask, models.CASCADE, related_name="sign_ups")
    person = models.ForeignKey(settings.AUTH_USER_MODEL, models.CASCADE, related_name="sign_ups")
    made_by = models.ForeignKey(settings.AUTH_USER_MODEL, models.SET_NULL, null=True, related_name="+")
    made_at = models.DateTimeField(default=timezone.now, editable=False)

    class Meta:
        ordering = ["made_at", "pk"]
        verbose_name = _("sign-up")
        verbose_name_plural = _("sign-ups")
        constraints = [models.UniqueConstraint(fields=["task", "person"], name="sign_up_once")]

    def __str__(self) -> str:
        return f"{self.person}: {self.task}"


class HoursDone(models.Model):
    """Minutes that somebody worked for the garden; a mistake is removed and kept, never written over."""

    garden = models.ForeignKey(Garden, models.CASCADE, related_name="hours_done")
    person = models.ForeignKey(
        settings.AUTH_USER_MODEL, models.PROTECT, null=True, blank=True, related_name="hours_done"
    )
    guest = TidyField(_("guest"), max_length=120, blank=True)
    day = models.DateField(_("day"))
    minutes = models.PositiveSmallIntegerField(
        validators=[MinValueValidator(1), MaxValueValidator(DAY_MINUTES)]
    )
    workday = models.ForeignKey(Workday, models.PROTECT, null=True, blank=True, related_name="hours_done")
    task = models.ForeignKey(WorkTask, models.PROTECT, null=True, blank=True, related_name="hours_done")
    what = TidyField(_("what was done"), max_length=160, blank=True)
    made_by = models.ForeignKey(settings.AUTH_USER_MODEL, models.SET_NULL, null=True, related_name="+")
    made_at = models.DateTimeField(default=timezone.now, editable=False)
    removed_by = models.ForeignKey(settings.AUTH_USER_MODEL, models.SET_NULL, null=True, related_name="+")
    removed_at = models.DateTimeField(null=True, editable=False)

    class Meta:
        ordering = ["-day", "-pk"]
        verbose_name = _("hours done")
        verbose_name_plural = _("hours done")
        constraints = [
            models.CheckConstraint(
                condition=Q(person__isnull=True) & ~Q(guest="") | Q(person__isnull=False, guest=""),
                name="hours_of_a_member_or_a_guest",
            ),
            models.CheckConstraint(
                condition=Q(minutes__gte=1, minutes__lte=DAY_MINUTES), name="hours_within_a_day"
            ),
            # However often a sheet is typed in, nobody's hours count twice.
            models.UniqueConstraint(
                fields=["workday", "person"], condition=Q(removed_at__isnull=True), name="workday_counts_once"
            ),
            models.UniqueConstraint(
                fields=["task", "person"],
                condition=Q(removed_at__isnull=True, workday__isnull=True),
                name="make_up_job_counts_once",
            ),
        ]

    def __str__(self) -> str:
        return f"{self.person or self.guest}, {self.day}: {self.minutes} min"

    @property
    def title(self) -> str:
        """At which workday, and what was done."""
        done = self.task or self.what
        return ": ".join(str(word) for word in (self.workday, done) if word)


class HoursExcused(models.Model):
    """That somebody need not do some or all of a season's hours. Why is not asked and not kept."""

    season = models.ForeignKey(Season, models.CASCADE, related_name="hours_excused")
    person = models.ForeignKey(settings.AUTH_USER_MODEL, models.CASCADE, related_name="hours_excused")
    minutes = models.PositiveIntegerField(null=True, blank=True)  # nothing: all of them
    made_at = models.DateTimeField(default=timezone.now, editable=False)

    class Meta:
        verbose_name = _("excused hours")
        verbose_name_plural = _("excused hours")
        constraints = [
            models.UniqueConstraint(fields=["season", "person"], name="excused_once_a_season"),
            models.CheckConstraint(
                condition=Q(minutes__isnull=True) | Q(minutes__gte=1), name="excused_from_something"
            ),
        ]

    def __str__(self) -> str:
        return f"{self.person}, {self.season}"


class DateKind(models.TextChoices):
    """What a date of the garden is about; the first five stand in the rules for every year."""

    OPENS = "opens", _("the garden opens")
    WATER_ON = "water_on", _("water is turned on")
    WATER_OFF = "water_off", _("water is turned off")
    CLEAR_BY = "clear_by", _("last day to clear plots")
    CLOSES = "closes", _("the garden closes")
    DEADLINE = "deadline", _("deadline")
    MEETING = "meeting", _("meeting")
    OTHER = "other", _("other")


YEARLY_KINDS = (
    DateKind.OPENS,
    DateKind.WATER_ON,
    DateKind.WATER_OFF,
    DateKind.CLEAR_BY,
    DateKind.CLOSES,
)


class GardenDate(models.Model):
    """A date of one year; of a kind that the rules know, it stands in place of the rules' day that year."""

    garden = models.ForeignKey(Garden, models.CASCADE, related_name="dates")
    kind = models.CharField(_("kind"), max_length=10, choices=DateKind.choices, default=DateKind.OTHER)
    title = TidyField(_("title"), max_length=100, blank=True)
    day = models.DateField(_("day"))
    last_day = models.DateField(_("last day"), null=True, blank=True)
    starts_at = models.TimeField(_("time"), null=True, blank=True)
    place = TidyField(_("place"), max_length=120, blank=True)
    note = models.TextField(_("note"), blank=True)
    public = models.BooleanField(
        _("stands in the public calendar"), default=True,
        help_text=_("Anybody can read that one: write no names of members and no gate codes."),
    )  # fmt: skip
    changed_at = models.DateTimeField(default=timezone.now, editable=False)
    removed_at = models.DateTimeField(null=True, editable=False)

    class Meta:
        ordering = ["day", "starts_at", "pk"]
        verbose_name = _("date")
        verbose_name_plural = _("dates")
        constraints = [
            models.CheckConstraint(
                condition=Q(last_day__isnull=True) | Q(last_day__gt=F("day")),
                name="date_ends_after_it_begins",
                violation_error_message=_("The last day must come after the first."),
            ),
            models.CheckConstraint(condition=Q(kind__in=DateKind.values), name="date_kind_known"),
            models.CheckConstraint(
                condition=~Q(kind__in=["deadline", "meeting", "other"]) | ~Q(title=""),
                name="date_has_a_title", violation_error_message=_("Say what the date is about."),
            ),
        ]  # fmt: skip

    def __str__(self) -> str:
        return self.title or str(self.get_kind_display())

    @property
    def kept_by(self) -> models.Model | None:
        """What keeps this date and moves it along, such as a workshop: it is changed there alone."""
        links = (one for one in self._meta.related_objects if one.one_to_one)
        found = (getattr(self, str(one.get_accessor_name()), None) for one in links)
        return next(filter(None, found), None)
