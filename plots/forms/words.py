"""What a field says when something is wrong with it, in words for gardeners: set once, for every form.

Only what Django says by itself is replaced. Messages that a field or a form states for itself stand.
"""

from __future__ import annotations

from collections.abc import Mapping

from django import forms
from django.utils.functional import Promise
from django.utils.translation import gettext_lazy as _
from django.utils.translation import ngettext_lazy

CHOICE = _("Please choose one of those shown.")
WORDS: dict[type[forms.Field], Mapping[str, str | Promise]] = {
    forms.Field: {
        "required": _("Please fill this in."),
        "min_value": _("This is too little: at least %(limit_value)s."),
        "max_value": _("This is too much: at most %(limit_value)s."),
        "max_length": ngettext_lazy(
            "At most %(limit_value)d character, please; this has %(show_value)d.",
            "At most %(limit_value)d characters, please; this has %(show_value)d.",
            "limit_value",
        ),
        "min_length": ngettext_lazy(
            "At least %(limit_value)d character, please; this has %(show_value)d.",
            "At least %(limit_value)d characters, please; this has %(show_value)d.",
            "limit_value",
        ),
        "max_digits": _("This number is too long."),
        "max_whole_digits": _("This number is too large."),
        "max_decimal_places": ngettext_lazy(
            "At most %(max)d digit after the point, please.",
            "At most %(max)d digits after the point, please.",
            "max",
        ),
        "null_characters_not_allowed": _("There is a sign in it that cannot be kept. Please type it again."),
    },
    forms.BooleanField: {"required": _("Please tick this to go on.")},
    forms.ChoiceField: {"required": _("Please choose one."), "invalid_choice": CHOICE},
    forms.MultipleChoiceField: {
        "required": _("Please choose at least one."),
        "invalid_list": CHOICE,
        "invalid_choice": CHOICE,
    },
    forms.ModelChoiceField: {"required": _("Please choose one."), "invalid_choice": CHOICE},
    forms.ModelMultipleChoiceField: {
        "required": _("Please choose at least one."),
        "invalid_list": CHOICE,
        "invalid_choice": CHOICE,
        "invalid_pk_value": CHOICE,
    },
    forms.IntegerField: {"invalid": _("This must be a whole number.")},
    forms.FloatField: {"invalid": _("Please write a number.")},
    forms.DecimalField: {"invalid": _("Please write a number.")},
    forms.DateField: {"invalid": _("Please write a day that there is, like 2027-05-31.")},
    forms.TimeField: {"invalid": _("Please write a time of day, like 9:30.")},
    forms.DateTimeField: {"invalid": _("Please write a day and a time, like 2027-05-31 18:00.")},
    forms.FileField: {
        "required": _("Please choose a file."),
        "missing": _("Please choose a file."),
        "invalid": _("Please choose a file."),
        "empty": _("This file is empty."),
    },
}


def reword() -> None:
    """Called before any form is made: fields take these words with them as they are declared."""
    for kind, words in WORDS.items():
        kind.default_error_messages = {**getattr(kind, "default_error_messages", {}), **words}
