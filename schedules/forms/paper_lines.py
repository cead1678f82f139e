"""Twenty lines to type logs into, from sheets of paper."""

from __future__ import annotations

from collections.abc import Sequence
from uuid import UUID, uuid4

from django import forms
from django.http import QueryDict
from django.utils.translation import gettext_lazy as _

from plots.spelling import tidy
from schedules.paper_lines import TYPED, Line
from schedules.service.paper_lines import Outcome

LINES = 20
_LISTS = {"plot": "plots", "work": "works", "what": "crops", "person": "people"}


class LineForm(forms.Form):
    """One line: short texts, whose meaning `schedules.paper_lines` finds out."""

    key = forms.UUIDField(widget=forms.HiddenInput)
    plot = forms.CharField(label=_("Plot"), required=False, max_length=40)
    day = forms.CharField(label=_("Day"), required=False, max_length=40)
    work = forms.CharField(label=_("What was done"), required=False, max_length=40)
    what = forms.CharField(label=_("On what"), required=False, max_length=80)
    amount = forms.CharField(label=_("How much"), required=False, max_length=40)
    person = forms.CharField(label=_("Who"), required=False, max_length=80)
    note = forms.CharField(label=_("Note"), required=False, max_length=1000)

    reads = ""  # how the line reads as a log, once it is right
    waits = False  # for a line above that has to be put right first

    def __init__(self, number: int, data: QueryDict | None) -> None:
        super().__init__(data, prefix=f"{number}", initial={"key": uuid4()}, auto_id="line-%s")
        self.number = number
        for name in TYPED:
            attrs = self.fields[name].widget.attrs
            attrs["autocomplete"] = "off"
            if name in _LISTS:
                attrs["list"] = _LISTS[name]

    @property
    def line(self) -> Line:
        """What was typed, of a valid form."""
        return Line(self.number, **{name: tidy(self.cleaned_data.get(name, "")) for name in TYPED})

    def cells(self) -> list[forms.BoundField]:
        return [self[name] for name in TYPED]


class PaperForm:
    """The page of lines."""

    def __init__(self, data: QueryDict | None = None) -> None:
        # A key that is missing or was given away already is made anew; see `tell`.
        self.data = data.copy() if data is not None else None
        for number in range(1, LINES + 1) if self.data is not None else ():
            if not _is_key(self.data.get(f"{number}-key", "")):
                self._new_key(number)
        self.lines = [LineForm(number, self.data) for number in range(1, LINES + 1)]

    def _new_key(self, number: int) -> None:
        self.data[f"{number}-key"] = str(uuid4())

    def is_valid(self) -> bool:
        return not self.wrong

    @property
    def typed(self) -> list[Line]:
        return [form.line for form in self.lines]

    @property
    def keys(self) -> dict[int, UUID]:
        return {form.number: form.cleaned_data["key"] for form in self.lines}

    def tell(self, outcomes: Sequence[Outcome]) -> None:
        """Puts beside each line how it reads, or beside its fields what is wrong."""
        for outcome in outcomes:
            form = self.lines[outcome.number - 1]
            form.reads, form.waits = outcome.text, outcome.waits
            for name, sentences in outcome.faults.items():
                for sentence in sentences:
                    form.add_error(name, sentence)
            if outcome.known:
                self._new_key(outcome.number)

    @property
    def wrong(self) -> list[int]:
        """The numbers of the lines that need another look."""
        return [form.number for form in self.lines if form.is_bound and form.errors]

    @property
    def begins_at(self) -> int:
        """The line to go on with: the first wrong one, else the first."""
        return self.wrong[0] if self.wrong else 1


def _is_key(text: str) -> bool:
    try:
        UUID(text)
    except ValueError:
        return False
    return True
