"""Forms of taking people over from a spreadsheet."""

from __future__ import annotations

from typing import Any

from django import forms
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from plots import queries
from plots.models import Garden, Season
from plots.roster_file import Field, Table, TableError, decoded, guessed, read_table
from plots.wording.roster_file import FIELD_WORDS, table_error_text

LARGEST = 1_000_000


class RosterFileForm(forms.Form):
    """A file, or its contents pasted."""

    file = forms.FileField(
        label=gettext_lazy("Spreadsheet, saved as CSV"),
        required=False,
        widget=forms.FileInput(attrs={"accept": ".csv,.txt,.tsv,text/csv"}),
    )
    pasted = forms.CharField(
        label=gettext_lazy("Or paste the cells here"),
        required=False,
        max_length=LARGEST,
        strip=False,
        widget=forms.Textarea(attrs={"rows": 6}),
    )

    def clean(self) -> dict[str, Any]:
        given: dict[str, Any] = super().clean() or self.cleaned_data
        file = given.get("file")
        if file is not None and file.size > LARGEST:
            self.add_error("file", _("This file is too large: at most 1 MB."))
            return given
        text = decoded(file.read()) if file is not None else given.get("pasted", "")
        try:
            read_table(text)
        except TableError as error:
            self.add_error("file" if file is not None else "pasted", table_error_text(error.code))
        given["text"] = text
        return given


class MatchingForm(forms.Form):
    """Which column is what, and what to do with rows that are wrong; carries the table along."""

    text = forms.CharField(max_length=LARGEST, strip=False, widget=forms.HiddenInput)
    season = forms.ModelChoiceField(
        Season.objects.none(),
        label=gettext_lazy("Give the plots for"),
        required=False,
        empty_label=gettext_lazy("no season: only note the people"),
    )
    leave_out = forms.BooleanField(
        label=gettext_lazy("Leave out the rows that need another look"), required=False
    )

    def __init__(self, garden: Garden, table: Table, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.table = table
        self.fields["season"].queryset = garden.seasons.all()
        choices = [("", _("leave out")), *((kind.value, words) for kind, words in FIELD_WORDS.items())]
        guesses = guessed(table.titles)
        season = queries.season_now(garden)
        if Field.PLOTS in guesses.values() and season is not None and season.ends_on >= garden.today():
            self.fields["season"].initial = season
        for place, title in enumerate(table.titles):
            self.fields[f"column_{place}"] = forms.ChoiceField(
                label=title or _("column %(number)d") % {"number": place + 1},
                choices=choices,
                required=False,
                initial=guesses.get(place, ""),
            )

    def columns(self) -> list[forms.BoundField]:
        """The fields that match columns."""
        return [self[name] for name in self.fields if name.startswith("column_")]

    def giving_for(self) -> Season | None:
        """For which season plots are given, as chosen, or as proposed before anything was."""
        if not self.is_bound:
            proposed: Season | None = self.fields["season"].initial
            return proposed
        return self.cleaned_data.get("season")

    def matched(self) -> dict[int, Field]:
        """Which column is what, as chosen, or as guessed before anything was."""
        if not self.is_bound:
            return guessed(self.table.titles)
        chosen = {n: self.cleaned_data.get(f"column_{n}") for n in range(len(self.table.titles))}
        return {place: Field(kind) for place, kind in chosen.items() if kind}

    def clean(self) -> dict[str, Any]:
        given: dict[str, Any] = super().clean() or self.cleaned_data
        kinds = [value for name, value in given.items() if name.startswith("column_") and value]
        twice = sorted({kind for kind in kinds if kinds.count(kind) > 1})
        if twice:
            words = ", ".join(str(FIELD_WORDS[Field(kind)]) for kind in twice)
            self.add_error(None, _("More than one column is matched with: %(words)s.") % {"words": words})
        return given
