"""What is found in a roster's file, in words."""

from __future__ import annotations

from django.utils.functional import Promise
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from plots.roster_file import MOST_COLUMNS, MOST_ROWS, Field, Outcome, Problem

FIELD_WORDS: dict[Field, Promise] = {
    Field.NAME: gettext_lazy("name"),
    Field.GIVEN: gettext_lazy("first name"),
    Field.FAMILY: gettext_lazy("last name"),
    Field.EMAIL: gettext_lazy("email"),
    Field.PHONE: gettext_lazy("telephone"),
    Field.ADDRESS: gettext_lazy("postal address"),
    Field.HOUSEHOLD: gettext_lazy("household"),
    Field.PLOTS: gettext_lazy("plots"),
    Field.ACCOUNT: gettext_lazy("sign-in name"),
}
OUTCOME_WORDS: dict[Outcome, Promise] = {
    Outcome.NEW: gettext_lazy("becomes a member"),
    Outcome.JOINS: gettext_lazy("has an account here and becomes a member"),
    Outcome.HERE: gettext_lazy("is a member already and stays as they are"),
    Outcome.WRONG: gettext_lazy("needs another look"),
}


def problem_text(problem: Problem) -> str:
    """What is wrong with a row and what helps."""
    words = {"value": problem.value}
    return {
        "no-name": _("There is no name."),
        "too-long": _("“%(value)s” is too long."),
        "bad-email": _("“%(value)s” is not an email address."),
        "email-twice": _("%(value)s stands in more than one row; each person needs their own, or none."),
        "name-twice": _("%(value)s stands in more than one row. Leave one out, or tell them apart by email."),
        "account-twice": _("Two rows have the sign-in name “%(value)s”."),
        "account-taken": _("Somebody already signs in as “%(value)s”."),
        "account-has-at": _("“%(value)s” cannot be a sign-in name: only an email address contains an @."),
        "plot-unknown": _("There is no plot “%(value)s”."),
        "plot-held": _("Somebody holds plot %(value)s already."),
        "plot-other": _("Plot %(value)s is not one that members hold."),
    }[problem.code] % words


def table_error_text(code: str) -> str:
    """Why a text is no table."""
    return {
        "unreadable": _("This cannot be read as a table. Save it as CSV in your spreadsheet, or paste it."),
        "empty": _("There must be a first line with headings, and a line for each person under it."),
        "too-long": _("At most %(count)d people at once.") % {"count": MOST_ROWS},
        "too-wide": _("At most %(count)d columns.") % {"count": MOST_COLUMNS},
    }[code]
