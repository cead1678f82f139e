"""Forms of the waiting list: joining it, what is known about who waits, offers, and the yearly question."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, datetime, timedelta
from typing import Any

from django import forms
from django.conf import settings
from django.core.signing import BadSignature, SignatureExpired, TimestampSigner
from django.utils import timezone
from django.utils.formats import date_format
from django.utils.translation import gettext_lazy as _

from plots.forms.days import day_input
from plots.forms.several import SeveralField
from plots.models import Garden, InterestRound, Offer, PlotChoice, User, WaitingEntry
from plots.queries import Row, Stand

_SIGNER = TimestampSigner(salt="plots.waiting.form")
# Against robots that fill a form in at once or send it for days; people are not held to either.
_QUICKEST, _SLOWEST = timedelta(seconds=3), timedelta(days=2)


class MomentField(forms.DateTimeField):
    """A day and hour at the garden."""

    widget = forms.DateTimeInput(attrs={"type": "datetime-local"}, format="%Y-%m-%dT%H:%M")

    def __init__(self, garden: Garden, **kwargs: Any) -> None:
        super().__init__(**kwargs)
        self.garden = garden

    def prepare_value(self, value: Any) -> Any:
        with timezone.override(self.garden.zone):
            return super().prepare_value(value)

    def to_python(self, value: Any) -> datetime | None:
        with timezone.override(self.garden.zone):
            return super().to_python(value)


class _AboutForm(forms.ModelForm):
    """What a person says about their wish, asked as the garden asks it."""

    class Meta:
        model = WaitingEntry
        fields = [
            "name", "phone", "email", "address", "language", "choices", "needs_accessible", "near",
            "in_group", "note",
        ]  # fmt: skip
        field_classes = {"choices": SeveralField}
        widgets = {
            "choices": forms.CheckboxSelectMultiple,
            "address": forms.Textarea(attrs={"rows": 3}),
            "email": forms.EmailInput(attrs={"autocomplete": "email"}),
            "phone": forms.TextInput(attrs={"autocomplete": "tel", "type": "tel"}),
            "name": forms.TextInput(attrs={"autocomplete": "name"}),
        }
        help_texts = {
            "choices": _("None ticked means that any plot will do."),
            "note": _("Nothing about health or income, please; it is not needed."),
        }

    def __init__(self, garden: Garden, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.garden = garden
        self.instance.garden = garden
        self.fields["choices"].queryset = garden.plot_choices.all()
        self._ask("near", garden.rules.near_question)
        self._ask("in_group", garden.rules.group_question)
        if not garden.plot_choices.exists():
            del self.fields["choices"]
        if len(settings.LANGUAGES) > 1:
            self.fields["language"] = forms.ChoiceField(
                label=_("Language for letters"), choices=[("", "—"), *settings.LANGUAGES], required=False
            )
        else:
            del self.fields["language"]

    def _ask(self, name: str, question: str) -> None:
        if question:
            self.fields[name].label = question
        else:
            del self.fields[name]

    def chosen(self) -> list[PlotChoice]:
        return list(self.cleaned_data.get("choices", ()))


class JoinForm(_AboutForm):
    """The public form: any one way to be reached is enough, and robots stumble."""

    website = forms.CharField(
        label=_("Leave this empty"), required=False,
        widget=forms.TextInput(attrs={"autocomplete": "off", "tabindex": "-1"}),
    )  # fmt: skip
    opened = forms.CharField(required=False, widget=forms.HiddenInput)

    def __init__(self, garden: Garden, *args: Any, **kwargs: Any) -> None:
        super().__init__(garden, *args, **kwargs)
        self.fields["note"].label = _("Anything the garden should know")
        self.initial["opened"] = _SIGNER.sign("join")

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or self.cleaned_data
        if not any(cleaned.get(way) for way in ("phone", "email", "address")):
            self.add_error("phone", _("Give one way to reach you: telephone, email or postal address."))
        if cleaned.get("website"):
            self.add_error(None, _("Please empty the field that is to be left empty, and send it again."))
        if not self._opened_a_while_ago():
            self._open_again()
            self.add_error(None, _("That went very fast, or took very long. Please send it once more."))
        return cleaned

    def _opened_a_while_ago(self) -> bool:
        token = self.cleaned_data.get("opened", "")
        try:
            _SIGNER.unsign(token, max_age=_SLOWEST)
        except BadSignature:
            return False
        try:
            _SIGNER.unsign(token, max_age=_QUICKEST)
        except SignatureExpired:
            return True
        return False

    def _open_again(self) -> None:
        self.data = self.data.copy()
        self.data["opened"] = _SIGNER.sign("join")


class EntryForm(_AboutForm):
    """What whoever looks after the list knows about a person who waits."""

    why = forms.CharField(
        label=_("Why it is changed"), max_length=200, required=False, help_text=_("Kept with the change.")
    )

    class Meta(_AboutForm.Meta):
        fields = [*_AboutForm.Meta.fields, "member", "household_of"]
        help_texts = {
            **_AboutForm.Meta.help_texts,
            "member": _("Where the person has an account in this garden."),
            "household_of": _("A member with whom they share a household: its plots count against the cap."),
        }

    def __init__(self, garden: Garden, *args: Any, **kwargs: Any) -> None:
        super().__init__(garden, *args, **kwargs)
        for name in ("member", "household_of"):
            self.fields[name].queryset = User.objects.active_in(garden)
        self.fields["joined_at"] = MomentField(
            garden, label=_("Joined"), help_text=_("The date and time that the order goes by.")
        )
        self.initial["joined_at"] = self.instance.joined_at
        if self.instance.pk is None:
            del self.fields["why"]

    def clean_joined_at(self) -> datetime:
        """Seconds are not shown, so they are not lost either."""
        joined: datetime = self.cleaned_data["joined_at"]
        if joined > timezone.now() + timedelta(minutes=1):
            raise forms.ValidationError(_("Nobody has joined in the future."))
        former = self.instance.joined_at
        return former if former.replace(second=0, microsecond=0) == joined else joined

    def clean_member(self) -> Any:
        member = self.cleaned_data["member"]
        same = self.garden.waiting.filter(member=member, place__isnull=False).exclude(pk=self.instance.pk)
        if member is not None and same.exists():
            raise forms.ValidationError(_("This member is on the list already."))
        return member

    def entry(self) -> WaitingEntry:
        """The row as typed, not saved yet."""
        entry: WaitingEntry = self.save(commit=False)
        entry.joined_at = self.cleaned_data["joined_at"]
        if entry.pk is None:
            entry.placed_at = entry.joined_at
        return entry


class ChoiceForm(forms.ModelForm):
    """One thing that people may choose when they join."""

    class Meta:
        model = PlotChoice
        fields = ["name", "plots"]
        field_classes = {"plots": SeveralField}
        labels = {"plots": _("Plots it covers")}
        help_texts = {"name": _("A size, a field, a kind of bed: “half plot”, “north field”.")}

    def __init__(self, garden: Garden, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.instance.garden = garden
        self.fields["plots"].queryset = garden.plots.filter(retired_on__isnull=True)

    def clean_name(self) -> str:
        name: str = self.cleaned_data["name"]
        same = self.instance.garden.plot_choices.filter(name=name).exclude(pk=self.instance.pk)
        if same.exists():
            raise forms.ValidationError(_("This garden already has a choice of this name."))
        return name


class OfferForm(forms.Form):
    """Whom the plot is offered, from when, and how long they may think."""

    entry = forms.TypedChoiceField(label=_("Offered to"), coerce=int)
    begins_on = forms.DateField(label=_("The plot is theirs from"), widget=day_input())
    send = forms.BooleanField(
        label=_("Email it to them at once, where they have an address"), required=False, initial=True
    )
    why = forms.CharField(
        label=_("Why not the next in line"),
        max_length=300,
        required=False,
        help_text=_("Only where somebody else is chosen. It is kept with the offer."),
    )

    def __init__(
        self, garden: Garden, rows: Sequence[Row], stand: Stand, *args: Any, may_send: bool, **kwargs: Any
    ) -> None:
        super().__init__(*args, **kwargs)
        self.season, next_row = stand.season, stand.next_row
        can = [row for row in rows if row.place]
        if not may_send:
            del self.fields["send"]
        self.fields["entry"].choices = [
            ("", "—"),
            *((row.entry.pk, f"{row.place.number}. {row.entry.name}") for row in can),
        ]
        self.fields["ends_at"] = MomentField(garden, label=_("Answer by"))
        hours = timedelta(hours=garden.rules.offer_hours)
        self.initial.setdefault("ends_at", (timezone.now() + hours).replace(second=0, microsecond=0))
        self.initial.setdefault("entry", next_row.entry.pk if next_row else None)
        self.order_fields(["entry", "ends_at", "begins_on", "send", "why"])

    def clean_ends_at(self) -> datetime:
        ends_at: datetime = self.cleaned_data["ends_at"]
        if ends_at <= timezone.now():
            raise forms.ValidationError(_("The time to answer has to lie ahead."))
        return ends_at

    def clean_begins_on(self) -> date:
        day: date = self.cleaned_data["begins_on"]
        if not self.season.starts_on <= day <= self.season.ends_on:
            span = {"first": date_format(self.season.starts_on), "last": date_format(self.season.ends_on)}
            raise forms.ValidationError(_("The season is from %(first)s to %(last)s.") % span)
        return day


class ExtendForm(forms.Form):
    """More time to answer an offer."""

    def __init__(self, offer: Offer, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["ends_at"] = MomentField(offer.plot.garden, label=_("Answer by"))
        self.initial["ends_at"] = offer.ends_at


class ReasonForm(forms.Form):
    """A reason that is kept."""

    reason = forms.CharField(label=_("Why"), max_length=200, help_text=_("It is kept."))


class InterestForm(forms.ModelForm):
    """Asking everybody who waits."""

    class Meta:
        model = InterestRound
        fields = ["answer_by"]
        widgets = {"answer_by": day_input()}

    def __init__(self, garden: Garden, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.garden = garden
        self.initial["answer_by"] = garden.today() + timedelta(days=garden.rules.interest_days)

    def clean_answer_by(self) -> Any:
        day = self.cleaned_data["answer_by"]
        if day < self.garden.today():
            raise forms.ValidationError(_("The last day to answer cannot lie in the past."))
        return day
