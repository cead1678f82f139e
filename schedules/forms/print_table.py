"""What is asked before a sheet is printed: of all choices those that its kind names.

The form is filled in by an address, so that a link can bring choices along; what the address does not say is
as usual. Only what somebody sent with the form itself (`asked`) is taken as it is, unticked boxes too.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import Any
from urllib.parse import urlencode

from django import forms
from django.utils.datastructures import MultiValueDict
from django.utils.functional import cached_property
from django.utils.translation import gettext as _

from plots.models import User
from schedules.forms.print_choices import EVERYONE, FROSTS, PLOTS, SENT, PrintChoices
from schedules.reports.label_sheets import SHEETS, Labels
from schedules.service.member_plans import who_have_plots
from schedules.service.print_table.table import Asked

_SHORT = frozenset({"year", "since", "until", "week", "paper", "language", "large", "both_sides"})


class PrintForm(PrintChoices):
    """The choices of one kind, read together."""

    @classmethod
    def again(cls, asked: Mapping[str, Sequence[str]], **rest: Any) -> PrintForm:
        """The form as it was filled in for a kept sheet."""
        return cls(MultiValueDict({key: list(values) for key, values in asked.items()}), **rest)

    @property
    def kept(self) -> dict[str, list[str]]:
        """What it was filled in with, to be kept."""
        found = {name: [str(one) for one in self.data.getlist(name)] for name in self.fields}
        return {**{name: values for name, values in found.items() if values}, SENT: ["1"]}

    @property
    def query(self) -> str:
        """The query of an address that fills the form in as it is."""
        return self.address_of(self.kept)

    @staticmethod
    def address_of(asked: Mapping[str, Sequence[str]]) -> str:
        """The query of an address that fills a form in as it was for a kept sheet."""
        return urlencode(dict(asked), doseq=True)

    @property
    def sent_again(self) -> list[tuple[str, str]]:
        """Name and value of everything it is filled in with, for a button of its own."""
        return [(name, value) for name, values in self.kept.items() for value in values]

    @property
    def crops_in_words(self) -> str:
        chosen = {str(value) for value in self.data.getlist("crops")}
        return ", ".join(str(name) for pk, name in self.fields["crops"].choices if str(pk) in chosen)

    @property
    def first_fields(self) -> list[forms.BoundField]:
        """What the sheet is about."""
        return [field for field in self if field.name not in _SHORT]

    @property
    def short_fields(self) -> list[forms.BoundField]:
        """When and how: what stands side by side where there is room."""
        return [field for field in self if field.name in _SHORT]

    @property
    def for_everyone(self) -> bool:
        return bool(self.cleaned_data.get("member") == EVERYONE)

    @property
    def unfinished(self) -> bool:
        """Whether a choice has opened further fields that nobody has filled in yet; that is no mistake."""
        return self.lacks_frosts or self.lacks_plots

    @property
    def lacks_frosts(self) -> bool:
        return self._shows_guest() and not any(self.data.get(name, "").strip() for name in FROSTS)

    @property
    def lacks_plots(self) -> bool:
        chosen = self.data.getlist(PLOTS) + self.data.getlist("rows")
        return self.data.get("member") == PLOTS and PLOTS in self.fields and not chosen

    @property
    def wants_more(self) -> bool:
        """Whether it only lacks what nobody has chosen yet, or could choose: there is no workday, no text."""
        return not self.sent and bool(self.errors) and not any(name in self._told for name in self.errors)

    @cached_property
    def receivers(self) -> list[User]:
        """Whom everyone's sheets are for, by name; those of plots are for who has one today."""
        members = self.members()
        return who_have_plots(self.garden, members, self.today) if PLOTS in self.kind.asks else members

    def asked(self) -> Asked:
        """A valid form, as a kind takes it."""
        cleaned = self.cleaned_data
        choices = {name: cleaned[name] for name in _TAKEN if name in cleaned}
        if "member" in self.kind.asks:
            choices["member"] = self._member(cleaned["member"])
        if PLOTS in self.kind.asks:
            choices[PLOTS] = self._chosen_plots() if PLOTS in self.fields else None
        if "place" in self.kind.asks:
            choices["place"] = self._place(cleaned)
        labels = cleaned.get("labels")
        return Asked(
            garden=self.garden,
            user=self.user,
            today=self.today,
            paper=SHEETS[labels].paper if labels else cleaned["paper"],
            language=cleaned.get("language") or self._readers_language(),
            large=cleaned.get("large", False),
            both_sides=cleaned.get("both_sides", False),
            choices=choices,
        )

    def asked_for(self, member: User) -> Asked:
        """A valid form for everyone, as it is for one of them."""
        asked = self.asked()
        choices = {**asked.choices, "member": member}
        return replace(asked, choices=choices, language=member.language or asked.language)

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or {}
        if (
            PLOTS in self.fields
            and not self.lacks_plots
            and PLOTS in cleaned
            and "rows" in cleaned
            and not self._chosen_plots(cleaned)
        ):
            self.add_error(PLOTS, _("Choose at least one plot."))
        if cleaned.get("member") == EVERYONE and not self.receivers:
            self.add_error("member", _("Nobody has a plot today, so there is no sheet to make."))
        since, until = cleaned.get("since"), cleaned.get("until")
        if since and until and until < since:
            self.add_error("until", _("This day must not come before the first one."))
        if "labels" in self.fields:
            self._clean_labels(cleaned)
        return cleaned

    def _clean_labels(self, cleaned: dict[str, Any]) -> None:
        labels: Labels | None = SHEETS.get(cleaned.get("labels", ""))
        if labels is None:
            return
        if labels.cut:
            cleaned["first"], cleaned["outlines"] = None, False
            self.errors.pop("first", None)
        else:
            cleaned["backs"] = False
            if (cleaned.get("first") or 1) > labels.count:
                words = {"count": labels.count}
                self.add_error("first", _("Such a sheet has only %(count)d labels.") % words)


_TAKEN = (
    "year", "since", "until", "week", "folded", "crops", "workshop", "workday", "notice", "text",
    "labels", "first", "outlines", "backs",
)  # fmt: skip
