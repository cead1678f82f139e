"""What was changed, in words: the sentence of each change and its values as people read them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, datetime
from functools import cache

from django.apps import apps
from django.db import models
from django.utils.formats import date_format
from django.utils.functional import Promise
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from plots.models import Change, ContactFor, Decision, Role, WishChoice
from plots.models.fields import MonthDayField
from plots.month_days import parse_month_day
from plots.powers import Power
from plots.quantities import Quantity
from plots.wording.days import month_day_text
from plots.wording.powers import POWER_WORDS
from plots.wording.quantities import quantity_text

# What `record` is called with: one line a code, each part of the program under its own heading.
WHAT: dict[str, Promise] = {
    # the garden and its rules
    "garden-made": gettext_lazy("The garden was made"),
    "settings-changed": gettext_lazy("Settings were changed"),
    "rules-changed": gettext_lazy("Rules were changed"),
    "season-made": gettext_lazy("A season was added"),
    "season-changed": gettext_lazy("The season was changed"),
    # people
    "nerve-changed": gettext_lazy("How much frost risk they accept was changed"),
    "member-joined": gettext_lazy("Became a member"),
    "member-left": gettext_lazy("The membership ended"),
    "role-changed": gettext_lazy("The part in the garden was changed"),
    "person-changed": gettext_lazy("Name or addresses were changed"),
    "person-forgotten": gettext_lazy("Name and addresses were forgotten"),
    "consent-changed": gettext_lazy("Who may see how to reach them was changed"),
    "consent-on-paper": gettext_lazy("A paper says who may see how to reach them"),
    "household-changed": gettext_lazy("The household was changed"),
    "sharing-changed": gettext_lazy("Who shares the plot was changed"),
    "duty-made": gettext_lazy("A duty was added"),
    "duty-changed": gettext_lazy("The duty was changed"),
    "duty-removed": gettext_lazy("The duty was taken off the list"),
    "whereabout-made": gettext_lazy("It was noted where this is"),
    "whereabout-changed": gettext_lazy("Where this is was changed"),
    "whereabout-removed": gettext_lazy("It was taken off the list of things"),
    # the ground
    "site-changed": gettext_lazy("The site was changed"),
    "rows-made": gettext_lazy("Rows of plots were laid out"),
    "plot-made": gettext_lazy("The plot was added"),
    "plot-changed": gettext_lazy("The plot was changed"),
    "stake-renewed": gettext_lazy("The stake got a new code; the old one opens nothing any more"),
    "plot-retired": gettext_lazy("The plot was given up"),
    "plot-restored": gettext_lazy("The plot was taken up again"),
    "moved": gettext_lazy("It was moved on the map"),
    "feature-made": gettext_lazy("It was drawn on the map"),
    "feature-changed": gettext_lazy("It was changed on the map"),
    "feature-removed": gettext_lazy("It was taken off the map"),
    "walk-changed": gettext_lazy("The way past the plots was changed"),
    # who holds what
    "plot-given": gettext_lazy("The plot was given"),
    "plot-ended": gettext_lazy("An end was set to holding the plot"),
    "plot-reopened": gettext_lazy("The end of holding the plot was taken back"),
    # the season turn
    "renewals-opened": gettext_lazy("Renewals were asked"),
    "renewals-closed": gettext_lazy("Renewals were closed"),
    "renewal-answered": gettext_lazy("A renewal was answered"),
    "renewal-decided": gettext_lazy("A renewal was decided"),
    "renewal-undone": gettext_lazy("The decision on a renewal was taken back"),
    # the waiting list
    "waiting-joined": gettext_lazy("Joined the waiting list"),
    "waiting-changed": gettext_lazy("What is known about who waits was changed"),
    "waiting-left": gettext_lazy("Left the waiting list"),
    "waiting-returned": gettext_lazy("The place on the waiting list was given back"),
    "waiting-moved-back": gettext_lazy("Moved to the end of the waiting list"),
    "choice-kept": gettext_lazy("A choice of plots was kept"),
    "offer-made": gettext_lazy("A plot was offered"),
    "offer-told": gettext_lazy("They were told of the offer"),
    "offer-accepted": gettext_lazy("The offer was accepted"),
    "offer-declined": gettext_lazy("The offer was declined"),
    "offer-unanswered": gettext_lazy("The offer ran out"),
    "offer-withdrawn": gettext_lazy("The offer was withdrawn"),
    "offer-extended": gettext_lazy("More time to answer was given"),
    "interest-asked": gettext_lazy("Everybody who waits was asked whether they still do"),
    "interest-sent": gettext_lazy("The question was sent by email"),
    "interest-answered": gettext_lazy("Said whether they are still interested"),
    "interest-closed": gettext_lazy("The question to who waits was closed"),
    # care; what is said in a matter stays in the matter
    "finding-changed": gettext_lazy("What was found was corrected"),
    "pause-made": gettext_lazy("A pause was noted"),
    "pause-ended": gettext_lazy("The pause was ended"),
    "matter-opened": gettext_lazy("A matter was opened"),
    "matter-step": gettext_lazy("A step was taken"),
    "matter-step-back": gettext_lazy("A step was taken back"),
    # notices
    "notice-changed": gettext_lazy("The notice was changed"),
    "notice-given": gettext_lazy("The notice was given out"),
    # dues and agreement
    "dues-drawn-up": gettext_lazy("Dues were drawn up"),
    "due-added": gettext_lazy("Something became due"),
    "due-changed": gettext_lazy("The amount due was changed"),
    "due-paid": gettext_lazy("Marked as paid"),
    "due-waived": gettext_lazy("Waived"),
    "due-due": gettext_lazy("Marked as due again"),
    "agreement-text-added": gettext_lazy("A language was added to the agreement"),
    "agreement-in-force": gettext_lazy("A version of the agreement was put in force"),
    "signed-screen": gettext_lazy("Signed the agreement on screen"),
    "signed-paper": gettext_lazy("Marked as having signed the agreement on paper"),
    "signature-taken-back": gettext_lazy("A signature was taken back"),
    # workdays, hours and dates
    "workday-made": gettext_lazy("The workday was planned"),
    "workday-changed": gettext_lazy("The workday was changed"),
    "workday-moved": gettext_lazy("It was said whether the workday takes place"),
    "make-up-job-made": gettext_lazy("A make-up job was offered"),
    "make-up-job-changed": gettext_lazy("The make-up job was changed"),
    "make-up-job-closed": gettext_lazy("The make-up job was taken off the list"),
    "hours-excused": gettext_lazy("Hours owed were changed for this person"),
    "date-made": gettext_lazy("A date was written down"),
    "date-changed": gettext_lazy("The date was changed"),
    "date-removed": gettext_lazy("The date was taken off the calendar"),
    "date-restored": gettext_lazy("The date was put back on the calendar"),
    # workshops
    "workshop-made": gettext_lazy("The workshop was planned"),
    "workshop-changed": gettext_lazy("The workshop was changed"),
    "workshop-pack": gettext_lazy("What is handed out was chosen"),
    "workshop-attendance": gettext_lazy("It was written down how many came"),
    "workshop-removed": gettext_lazy("The workshop was taken off the list"),
    "workshop-restored": gettext_lazy("The workshop was put back"),
    # what is planted, crops and varieties of the garden's own
    "planting-changed": gettext_lazy("The planting was changed"),
    "crop-changed": gettext_lazy("The facts of the crop were changed"),
    "variety-changed": gettext_lazy("The facts of the variety were changed"),
    # where the dates come from, and what the garden taught
    "weather-added": gettext_lazy("New days of weather were read in"),
    "frost-dates-changed": gettext_lazy("Where the frost dates come from was changed"),
    "offset-accepted": gettext_lazy("The learned difference from the station was accepted"),
    "offset-changed": gettext_lazy("The difference from the station was typed"),
    "stations-weighed": gettext_lazy("Several stations were weighed"),
    "years-chosen": gettext_lazy("The years to plan by were chosen"),
    "soil-read": gettext_lazy("The soil’s temperature was read"),
    "lesson-learned": gettext_lazy("First pickings taught how long it takes here"),
    "lesson-set-aside": gettext_lazy("What the garden taught was set aside"),
    "lesson-taken-up": gettext_lazy("What the garden taught counts again"),
    # logs, and how the garden measures
    "log-changed": gettext_lazy("The log was changed"),
    "log-removed": gettext_lazy("The log was taken back"),
    "log-restored": gettext_lazy("The log was put back"),
    "hose-measured": gettext_lazy("The hose was measured"),
    "bunch-weighed": gettext_lazy("Bunches were weighed"),
    "can-changed": gettext_lazy("What a can holds was changed"),
    "measure-removed": gettext_lazy("The measurement was taken off the list"),
    "measure-restored": gettext_lazy("The measurement was put back"),
    "stand-in-asked": gettext_lazy("A neighbour was asked to look after the plot"),
    "stand-in-ended": gettext_lazy("Looking after the plot was ended"),
    # rain, pests and damage
    "rain-changed": gettext_lazy("A reading of the rain gauge was corrected"),
    "rain-removed": gettext_lazy("A reading of the rain gauge was taken off the list"),
    "thermometer-changed": gettext_lazy("A reading of the thermometer was corrected"),
    "thermometer-removed": gettext_lazy("A reading of the thermometer was taken off the list"),
    "logger-removed": gettext_lazy("Days of a logger were taken off the list"),
    "guidance-made": gettext_lazy("Guidance was written"),
    "guidance-changed": gettext_lazy("The guidance was changed"),
    "guidance-removed": gettext_lazy("The guidance was taken off the list"),
    "guidance-restored": gettext_lazy("The guidance was put back"),
    "sighting-confirmed": gettext_lazy("It was made sure what was seen"),
    "word-given": gettext_lazy("A private word went out about it"),
}

# What comes about by itself, and by what; nobody is named for it.
BY_ITSELF: dict[str, Promise] = {"lesson-learned": gettext_lazy("the garden’s logs")}

LISTED = 12  # values of one list that are named

# Labels of values that are no field of the thing they are about.
LABELS: dict[str, Promise] = {
    "frost_dates": gettext_lazy("where they come from"),
    "excused_minutes": gettext_lazy("minutes excused"),
    "plots": gettext_lazy("plots"),
    "paths": gettext_lazy("paths"),
    "walk": gettext_lazy("way past the plots"),
    "step": gettext_lazy("step"),
    "role": gettext_lazy("part"),
    "powers": gettext_lazy("powers"),
    "email_for": gettext_lazy("email seen by"),
    "phone_for": gettext_lazy("telephone seen by"),
    "address_for": gettext_lazy("postal address seen by"),
    "weekly_letter": gettext_lazy("weekly letter"),
    "agreed_on": gettext_lazy("agreed on"),
    "household": gettext_lazy("household"),
    "holder": gettext_lazy("held by"),
    "co_gardeners": gettext_lazy("co-gardeners"),
    "season": gettext_lazy("season"),
    "began_on": gettext_lazy("from"),
    "ended_on": gettext_lazy("until"),
    "wish": gettext_lazy("wish"),
    "note": gettext_lazy("note"),
    "decision": gettext_lazy("decision"),
    "last_call": gettext_lazy("late answers until"),
    "count": gettext_lazy("how many"),
    "choices": gettext_lazy("would take"),
    "plot": gettext_lazy("plot"),
    "ends_at": gettext_lazy("answer by"),
    "told_how": gettext_lazy("told how"),
    "next_in_line": gettext_lazy("next in line would have been"),
    "answer_by": gettext_lazy("answers by"),
    "still": gettext_lazy("still interested"),
    "person": gettext_lazy("person"),
    "amount": gettext_lazy("amount"),
    "due_on": gettext_lazy("due by"),
    "version": gettext_lazy("version"),
    "language": gettext_lazy("language"),
    "languages": gettext_lazy("languages"),
    "signed_on": gettext_lazy("signed on"),
    "seen": gettext_lazy("what was seen"),
    "seen_on": gettext_lazy("on what"),
    "severity": gettext_lazy("how much"),
    "product": gettext_lazy("product"),
    "label_days": gettext_lazy("days before picking, from its label"),
    "asked": gettext_lazy("who agreed to it"),
    "from_on": gettext_lazy("from"),
    "until_on": gettext_lazy("until"),
    "litres": gettext_lazy("litres"),
    "seconds": gettext_lazy("seconds"),
    "grams": gettext_lazy("grams"),
    "bunches": gettext_lazy("bunches"),
    "sheets": gettext_lazy("sheets"),
    "crops": gettext_lazy("crops"),
}


_WARMTHS = ("row_cover_c", "offset_c", "offset_half_c")
_CONSENTS = ("email_for", "phone_for", "address_for")


_WORDS_OF: dict[str, type[models.TextChoices]] = {"wish": WishChoice, "decision": Decision}


@dataclass(frozen=True)
class Line:
    """One changed value: empty texts where there was none."""

    label: str
    before: str
    after: str


@dataclass(frozen=True)
class Told:
    """A change as the page shows it; `at` is the hour at the garden."""

    pk: int
    at: str
    moment: datetime
    by: str
    about: str
    what: str
    why: str
    lines: tuple[Line, ...]
    code: str
    undoes: bool
    undone: bool
    undoable: bool = False

    @property
    def full_stop(self) -> str:
        """What ends the sentence, unless the last value did."""
        last = self.lines[-1].after or self.lines[-1].before if self.lines else ""
        return "" if last.endswith((".", "!", "?")) else "."


def tell(change: Change, *, undoable: bool = False) -> Told:
    """The change in words. The row needs `garden` and `undone_by` at hand, or asks for them."""
    names = [*change.before, *(name for name in change.after if name not in change.before)]
    field_of = _fields(change.about_model)
    lines = [
        Line(
            _label(name, field_of.get(name)),
            _value(change, change.before.get(name), name, field_of.get(name)),
            _value(change, change.after.get(name), name, field_of.get(name)),
        )
        for name in names
    ]
    moment = change.at.astimezone(change.garden.zone).replace(tzinfo=None)
    return Told(
        pk=change.pk,
        at=date_format(moment, "DATETIME_FORMAT"),
        moment=moment,
        by=str(change.by_name or BY_ITSELF.get(change.what) or _("somebody whose account is gone")),
        about=change.about_name,
        what=what_text(change.what),
        why=change.why,
        lines=tuple(line for line in lines if line.before or line.after),
        code=change.what,
        undoes=change.undoes_id is not None,
        undone=hasattr(change, "undone_by"),
        undoable=undoable,
    )


def what_text(code: str) -> str:
    return str(WHAT.get(code, code))


@cache
def _fields(label: str) -> Mapping[str, models.Field]:
    try:
        return {field.name: field for field in apps.get_model(label)._meta.concrete_fields}
    except LookupError:  # a model of an earlier version
        return {}


def _label(name: str, field: models.Field | None) -> str:
    if field is not None:
        return str(field.verbose_name)
    return str(LABELS.get(name, name.replace("_", " ")))


def _value(change: Change, value: object, name: str, field: models.Field | None) -> str:
    """In the garden's units and, where it is money, its currency."""
    text = _text(value, name, field, change.garden.units)
    if text and (name.startswith("dues_per_") or (change.about_model, name) == ("plots.due", "amount")):
        return f"{change.garden.rules.currency}{text}"
    return text


def _text(value: object, name: str, field: models.Field | None, units: str) -> str:
    if value is None or value == "" or value == []:
        return ""
    if isinstance(value, bool):
        return _("yes") if value else _("no")
    if isinstance(value, dict):
        return str(value.get("name", ""))
    if name == "paths" and isinstance(value, list):
        return str(len(value))  # drawn without names
    if isinstance(value, list):
        shown = value if len(value) <= LISTED else [*value[: LISTED - 2], "…", value[-1]]
        return ", ".join(_text(item, name, field, units) for item in shown)
    if name == "powers":
        return str(POWER_WORDS[Power(value)]) if value in list(Power) else str(value)
    if name in _CONSENTS:
        return str(ContactFor(value).label) if value in ContactFor.values else str(value)
    if (choices := _WORDS_OF.get(name)) is not None:
        return str(choices(value).label) if value in choices.values else str(value)
    if name == "role":
        return str(Role(value).label) if value in Role.values else str(value)
    if field is not None and field.choices:
        return str(dict(field.flatchoices).get(value, value))
    if name.endswith("_m") and isinstance(value, int | float):
        return quantity_text(float(value), Quantity.LENGTH, units)
    if name in _WARMTHS and isinstance(value, int | float):
        return quantity_text(float(value), Quantity.WARMTH, units)
    if name.endswith("_c") and isinstance(value, int | float):
        return quantity_text(float(value), Quantity.TEMPERATURE, units)
    return _day(value, field)


def _day(value: object, field: models.Field | None) -> str:
    text = str(value)
    if isinstance(field, MonthDayField) and (day := parse_month_day(text)):
        return month_day_text(day)
    if len(text) == 10 and text[4:5] == text[7:8] == "-":
        try:
            return date_format(date.fromisoformat(text))
        except ValueError:
            return text
    if text[10:11] == "T":
        try:
            return date_format(datetime.fromisoformat(text).replace(tzinfo=None), "DATETIME_FORMAT")
        except ValueError:
            return text
    return text
