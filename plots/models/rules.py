"""What a garden decides for itself: one row a garden, in blocks, each with its defaults from published rules.

Letters in capitals behind a default name the garden or programme whose published rule it is:
ABC abccommunitygarden.com; BANDI Bandi garden letter; BEAV beavertonoregon.gov; DUG Denver Urban Gardens;
FORTM fortmasoncommunitygarden.org; GREEN greenbeltgardenclub.com; GSEED greenseedgarden.org; HORN
hornfarmgardens.blogspot.com; KETT ketteringallotments.co.uk; MONT Montgomery Parks 2017; NEWL
newlifechurchroseville.org; PIER piermontcommunitygarden.blogspot.com; POCO pococommunitygarden.ca; PP-A
seattle.gov P-Patch, assignment; PP-G P-Patch, start gardening; PP-S P-Patch, sign-up; QUANN
quanngardens.org; ROCK rockcreekcommunitygarden.org; SPCG Sun Prairie 2015; ZANE
zanesvillecommunitygardens.com.
Gardens differ widely; every value here is only where a new garden starts.
"""

from __future__ import annotations

from django.core.validators import MaxValueValidator, MinValueValidator
from django.db import models
from django.db.models import Q
from django.utils.translation import gettext_lazy as _

from plots.dues import PartRule
from plots.models.fields import MonthDayField
from plots.models.ground import Garden

Days = models.PositiveSmallIntegerField


class AfterDecline(models.TextChoices):
    """What becomes of a place on the waiting list when its offer is declined or runs out."""

    END = "end", _("it goes to the end of the list")  # GREEN, KETT
    KEEPS = "keeps", _("it keeps its date, and is asked again")
    LEAVES = "leaves", _("it leaves the list")


class ListPriority(models.TextChoices):
    """What may come before the date on the waiting list."""

    MEMBER = "member", _("current members")
    NO_PLOT = "no-plot", _("households without a plot")
    NEAR = "near", _("who lives near")  # GSEED: within 2 blocks; QUANN: within 1 mile
    GROUP = "group", _("who says yes to the garden's own question")  # PP-A: under-represented groups


class Owing(models.TextChoices):
    """Who owes hours of work."""

    MEMBER = "member", _("each member who gardens a plot")
    HOUSEHOLD = "household", _("each household")
    PLOT = "plot", _("each plot")


class DuesArea(models.TextChoices):
    """For how much ground the dues by area are."""

    SQUARE_FEET = "100sqft", _("for each 100 square feet")  # P-Patch 2019
    SQUARE_METRES = "10m2", _("for each 10 square metres")


class DuesPart(models.TextChoices):
    """What is asked for a plot that is held for a part of the season only."""

    WHOLE = PartRule.WHOLE, _("the whole amount")
    DAYS = PartRule.DAYS, _("a part of it, by the days held")
    MONTHS = PartRule.MONTHS, _("a part of it, by the months held")
    HALF = PartRule.HALF, _("half of it from who begins in the second half of the season")


class PlotRules(models.Model):
    """Plots and households."""

    plots_per_household = models.PositiveSmallIntegerField(
        _("plots a household may hold"), default=2, validators=[MinValueValidator(1)],
        help_text=_("One or two in most published rules."),
    )  # fmt: skip  # NEWL, SPCG, KETT: one or two
    start_within_days = Days(
        _("days to begin gardening"), default=14,
        help_text=_("From the day a plot is taken over; two to four weeks in most published rules."),
    )  # fmt: skip  # PP-G, ABC: 2 weeks

    class Meta:
        abstract = True


class WaitingRules(models.Model):
    """Waiting list."""

    sign_up_open = models.BooleanField(
        _("anybody may sign up on the public page"), default=False,
    )  # fmt: skip
    priority_1 = models.CharField(
        _("before the date comes, first"), max_length=8, choices=ListPriority.choices, blank=True,
        help_text=_("Left empty, the date of joining alone decides."),
    )  # fmt: skip  # KETT: strict date order
    priority_2 = models.CharField(_("then"), max_length=8, choices=ListPriority.choices, blank=True)
    priority_3 = models.CharField(_("and then"), max_length=8, choices=ListPriority.choices, blank=True)
    near_question = models.CharField(
        _("what living near means"), max_length=160, blank=True,
        help_text=_("A question answered by yes or no, like “Do you live within two blocks?”"),
    )  # fmt: skip
    group_question = models.CharField(
        _("the garden's own question"), max_length=160, blank=True,
        help_text=_("Answered by yes or no. Ask nothing about health, income or where people come from."),
    )  # fmt: skip
    accessible_first = models.BooleanField(
        _("accessible beds are offered first to who needs one"), default=True
    )
    offer_hours = models.PositiveSmallIntegerField(
        _("hours to answer an offer"), default=48, validators=[MinValueValidator(1)],
    )  # fmt: skip  # GREEN
    sign_days = Days(_("days to sign and pay after accepting"), default=7)  # GREEN
    after_decline = models.CharField(
        _("when an offer is declined"), max_length=8, choices=AfterDecline.choices, default=AfterDecline.END
    )  # GREEN, KETT
    after_silence = models.CharField(
        _("when an offer is not answered"), max_length=8, choices=AfterDecline.choices,
        default=AfterDecline.END,
    )  # fmt: skip  # common practice, no source
    interest_day = MonthDayField(_("“still interested?” is asked on"), default="12-01")  # KETT: each December
    interest_days = Days(_("days to answer that"), default=28)  # KETT
    reinstate_days = Days(
        _("days within which a lost place is given back on request"), default=365
    )  # PP-S: within a year

    class Meta:
        abstract = True


class SeasonRules(models.Model):
    """Season turn and dues."""

    renew_open_days = Days(
        _("days before the season when renewals open"), default=90
    )  # common practice, no source
    renew_by_days = Days(
        _("days before the season when renewals close"), default=30
    )  # common practice, no source
    renew_grace_days = Days(
        _("days after that in which a late answer still counts"), default=14
    )  # PIER: 1 March, at the latest 15 March
    renew_needs_hours = models.BooleanField(
        _("renewing needs the hours owed to be done"), default=False,
        help_text=_("Where they are not, a person decides; nobody loses a plot by a rule alone."),
    )  # fmt: skip  # BEAV: otherwise no renewal
    renew_needs_dues = models.BooleanField(_("renewing needs the dues to be paid or waived"), default=True)
    movers_first = models.BooleanField(
        _("members who want another plot come before the waiting list"), default=True
    )  # common practice, no source
    currency = models.CharField(_("currency"), max_length=8, default="$")
    dues_per_plot = models.DecimalField(
        _("dues for a plot"), max_digits=8, decimal_places=2, default=0, validators=[MinValueValidator(0)],
        help_text=_("0 where the garden asks none."),
    )  # fmt: skip  # DUG: 35 on average; no garden owes what nobody set
    dues_per_area = models.DecimalField(
        _("dues for the ground on top"), max_digits=8, decimal_places=2, default=0,
        validators=[MinValueValidator(0)],
    )  # fmt: skip
    dues_area = models.CharField(
        _("counted"), max_length=8, choices=DuesArea.choices, default=DuesArea.SQUARE_FEET
    )
    dues_days = Days(_("days to pay"), default=7)  # GREEN
    dues_part = models.CharField(
        _("dues of who holds a plot for a part of the season"), max_length=8, choices=DuesPart.choices,
        default=DuesPart.WHOLE,
        help_text=_("After a change in mid-season each amount is proposed; a person confirms it."),
    )  # fmt: skip  # common practice, no source

    class Meta:
        abstract = True


class DateRules(models.Model):
    """Dates of the year."""

    opens = MonthDayField(_("the garden opens on"), blank=True)
    water_on = MonthDayField(_("water is turned on"), blank=True)  # BEAV: 1 March
    water_off = MonthDayField(_("water is turned off"), blank=True)  # BEAV: 15 November
    clear_by = MonthDayField(_("plots are cleared by"), blank=True)  # BEAV, HORN: 31 October
    closes = MonthDayField(_("the garden closes on"), blank=True)
    dates_public = models.BooleanField(
        _("anybody may read the garden's dates in a calendar feed"), default=True,
        help_text=_("It gives the dates and never a name."),
    )  # fmt: skip

    class Meta:
        abstract = True


class HoursRules(models.Model):
    """Workdays and hours."""

    hours_owed = models.DecimalField(
        _("hours of work owed in a season"), max_digits=5, decimal_places=2, default=8,
        validators=[MinValueValidator(0)], help_text=_("3 to 12 in published rules; 0 for none."),
    )  # fmt: skip  # MONT: 8 a year; PIER 6
    hours_owed_by = models.CharField(_("owed by"), max_length=10, choices=Owing.choices, default=Owing.MEMBER)
    hours_due = MonthDayField(
        _("owed until"), blank=True, help_text=_("Left empty: the last day of the season.")
    )  # BEAV: 30 June
    hours_prorata = models.BooleanField(
        _("who joins later or leaves earlier owes a share"), default=True,
        help_text=_("By the days of the season on which the plot was held."),
    )  # fmt: skip
    hours_step = models.PositiveSmallIntegerField(
        _("a share is rounded down to"), default=15,
        choices=[(15, _("quarters of an hour")), (30, _("half hours")), (60, _("whole hours"))],
    )  # fmt: skip

    class Meta:
        abstract = True


def first_rubric() -> str:
    return "\n".join(
        str(words)
        for words in (
            _("well kept"),
            _("kept, some weeds"),
            _("weeds going to seed, or spreading"),
            _("not gardened"),
        )
    )


class CareRules(models.Model):
    """Care rounds."""

    rubric = models.TextField(
        _("the states a plot can be in"), default=first_rubric,
        help_text=_("One on a line, the best first."),
    )  # fmt: skip
    matter_from = models.PositiveSmallIntegerField(
        _("a matter is opened from line"), default=3, validators=[MinValueValidator(1)],
        help_text=_("The states on this line and below ask for a word with the holder."),
    )  # fmt: skip
    round_days = Days(_("days between care rounds"), default=14)  # ROCK
    round_from = MonthDayField(_("first care round"), blank=True)  # ROCK: May
    round_until = MonthDayField(_("last care round"), blank=True)  # ROCK: October
    unattended_days = Days(_("days without care that ask for a word"), default=21)  # NEWL, ZANE
    contact_tries = models.PositiveSmallIntegerField(
        _("tries to reach the holder before a notice"), default=3
    )  # FORTM: post, email and on the plot
    cure_days = Days(_("days to put it right"), default=14)  # MONT, POCO
    recheck_days = Days(_("days until it is looked at again"), default=7)  # BANDI
    notices_before_decision = models.PositiveSmallIntegerField(
        _("notices before a decision"), default=2
    )  # POCO
    appeal_days = Days(_("days to appeal"), default=14)  # POCO

    class Meta:
        abstract = True


class RosterRules(models.Model):
    """Roster and letters."""

    share_contacts = models.BooleanField(
        _("members see the contacts that others agreed to share"), default=False
    )
    link_days = models.PositiveSmallIntegerField(
        _("days a sign-in link works"), default=7, validators=[MinValueValidator(1), MaxValueValidator(90)],
        help_text=_("Shown, copied, scanned or emailed; each works once."),
    )  # fmt: skip
    card_days = models.PositiveSmallIntegerField(
        _("days a printed card works"), default=30,
        validators=[MinValueValidator(1), MaxValueValidator(180)],
    )  # fmt: skip
    contacts_kept_days = Days(
        _("days the addresses of somebody who left are kept"), default=365,
        help_text=_("After that the roster proposes to forget them; a person presses the button."),
    )  # fmt: skip
    letter_weekday = models.PositiveSmallIntegerField(
        _("the weekly letter goes out on"), default=6,
        choices=[
            (0, _("Monday")), (1, _("Tuesday")), (2, _("Wednesday")), (3, _("Thursday")), (4, _("Friday")),
            (5, _("Saturday")), (6, _("Sunday")),
        ],
    )  # fmt: skip

    class Meta:
        abstract = True


BLOCKS: dict[str, type[models.Model]] = {
    "plots": PlotRules,
    "waiting": WaitingRules,
    "season": SeasonRules,
    "dates": DateRules,
    "hours": HoursRules,
    "care": CareRules,
    "roster": RosterRules,
}


def fields_in(block: str) -> list[str]:
    """The names of a block's rules, in the order of the page."""
    return [field.name for field in BLOCKS[block]._meta.local_fields]


class GardenRules(
    PlotRules, WaitingRules, SeasonRules, DateRules, HoursRules, CareRules, RosterRules, models.Model
):
    """The rules of one garden; made with it, see `Garden.save`."""

    garden = models.OneToOneField(Garden, models.CASCADE, related_name="rules", primary_key=True)

    class Meta:
        verbose_name = _("rules")
        verbose_name_plural = _("rules")
        constraints = [
            models.CheckConstraint(
                condition=Q(after_decline__in=AfterDecline.values)
                & Q(after_silence__in=AfterDecline.values)
                & Q(priority_1__in=["", *ListPriority.values])
                & Q(priority_2__in=["", *ListPriority.values])
                & Q(priority_3__in=["", *ListPriority.values])
                & Q(hours_owed_by__in=Owing.values)
                & Q(dues_area__in=DuesArea.values)
                & Q(dues_part__in=DuesPart.values),
                name="rules_known",
            ),
            models.CheckConstraint(
                condition=Q(plots_per_household__gte=1) & Q(offer_hours__gte=1) & Q(matter_from__gte=1),
                name="rules_of_at_least_one",
            ),
        ]

    def __str__(self) -> str:
        return str(self.garden)
