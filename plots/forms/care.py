"""Forms of care: a finding, and the steps of a matter."""

from __future__ import annotations

from typing import Any, ClassVar

from django import forms
from django.utils.translation import gettext as _now
from django.utils.translation import gettext_lazy as _

from plots.forms.days import day_input
from plots.forms.photos import PhotosField
from plots.models import ContactHow, Garden, MatterStep, Outcome, PauseWhy, StepKind

NO_PRIVATE_WORDS = _("What there is to see. Please nothing about people or their health.")


class FindingForm(forms.Form):
    """A finding: a big button for each state, and a note beside it."""

    line = forms.IntegerField(min_value=1)
    note = forms.CharField(
        label=_("Note"), required=False, max_length=1000, help_text=NO_PRIVATE_WORDS,
        widget=forms.Textarea(attrs={"rows": 2}),
    )  # fmt: skip
    photos = PhotosField(label=_("Photos, for those trusted with care alone"), required=False)


class PauseForm(forms.Form):
    why = forms.ChoiceField(choices=PauseWhy.choices)
    until = forms.DateField(
        label=_("Until"), required=False, widget=day_input(),
        help_text=_("Left empty: until you say that you are back."),
    )  # fmt: skip


class StepForm(forms.ModelForm):
    """One step of a matter; which fields it has goes by its kind."""

    outcome = forms.ChoiceField(label=_("How it ended"), choices=Outcome.choices, widget=forms.RadioSelect)
    send = forms.BooleanField(label=_("Send this text by email now"), required=False)

    FIELDS: ClassVar[dict[str, list[str]]] = {
        StepKind.CONTACT: ["day", "how", "done", "due_on", "text"],
        StepKind.NOTICE: ["day", "how", "due_on", "text", "send"],
        StepKind.DEADLINE: ["due_on", "text"],
        StepKind.RECHECK: ["day", "done", "text"],
        StepKind.DECISION: ["day", "how", "due_on", "text", "send"],
        StepKind.APPEAL: ["day", "text"],
        StepKind.OUTCOME: ["day", "outcome", "text"],
    }
    WORDS: ClassVar[dict[tuple[str, str], Any]] = {
        (StepKind.CONTACT, "done"): _("They were reached"),
        (StepKind.CONTACT, "due_on"): _("Look again after"),
        (StepKind.CONTACT, "text"): _("What was agreed"),
        (StepKind.RECHECK, "done"): _("The plot is in order"),
        (StepKind.RECHECK, "text"): _("What there was to see"),
        (StepKind.NOTICE, "due_on"): _("Time until"),
        (StepKind.NOTICE, "text"): _("The letter"),
        (StepKind.DEADLINE, "due_on"): _("More time until"),
        (StepKind.DECISION, "due_on"): _("An appeal is heard until"),
        (StepKind.DECISION, "text"): _("The letter"),
        (StepKind.APPEAL, "text"): _("What they say"),
    }
    NEEDED: ClassVar[set[tuple[str, str]]] = {
        (StepKind.CONTACT, "how"),
        (StepKind.NOTICE, "how"),
        (StepKind.NOTICE, "text"),
        (StepKind.NOTICE, "due_on"),
        (StepKind.DEADLINE, "due_on"),
        (StepKind.DECISION, "how"),
        (StepKind.DECISION, "text"),
    }

    class Meta:
        model = MatterStep
        fields: ClassVar[list[str]] = ["day", "how", "done", "due_on", "text"]
        widgets: ClassVar[dict[str, Any]] = {
            "day": day_input(),
            "due_on": day_input(),
            "text": forms.Textarea(attrs={"rows": 4}),
        }

    def __init__(self, garden: Garden, kind: str, *args: Any, may_send: bool = False, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.garden, self.kind = garden, kind
        self.initial.setdefault("day", garden.today())
        wanted = [name for name in self.FIELDS[kind] if name != "send" or may_send]
        self.fields = {name: self.fields[name] for name in wanted}
        for name, field in self.fields.items():
            field.label = self.WORDS.get((kind, name), field.label)
            field.required = name in ("day", "outcome") or (kind, name) in self.NEEDED
        if "how" in self.fields:
            self.fields["how"].choices = [("", "—"), *ContactHow.choices]
        if kind in (StepKind.NOTICE, StepKind.DECISION):
            self.fields["text"].widget.attrs["rows"] = 14
        elif "text" in self.fields:
            self.fields["text"].help_text = NO_PRIVATE_WORDS

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or {}
        day, due = cleaned.get("day"), cleaned.get("due_on")
        if day and day > self.garden.today():
            self.add_error("day", _now("This day is still to come."))
        if due and due < (day or self.garden.today()):
            self.add_error("due_on", _now("This day is over."))
        if cleaned.get("send") and cleaned.get("how") != ContactHow.EMAIL:
            self.add_error("how", _now("To send it, choose email."))
        return cleaned
