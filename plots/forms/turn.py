"""Forms of the season turn, of dues and of the agreement."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Any

from django import forms
from django.utils.translation import gettext_lazy as _

from plots.forms.days import day_input
from plots.forms.ground import check_cap
from plots.forms.several import SeveralField
from plots.models import AgreementText, Assignment, Due, Garden, RenewalRound, User, WishChoice


class RoundForm(forms.ModelForm):
    """Asking who stays for a season."""

    class Meta:
        model = RenewalRound
        fields = ["season", "answer_by", "grace_days"]
        labels = {"grace_days": _("Days after that in which late answers still count")}
        widgets = {"answer_by": day_input()}

    def __init__(self, garden: Garden, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        today = garden.today()
        self.instance.opened_on = today
        seasons = garden.seasons.filter(ends_on__gt=today, renewals__isnull=True)
        self.fields["season"].queryset = seasons
        self.fields["season"].empty_label = None
        coming = seasons.filter(starts_on__gt=today).order_by("starts_on").first()
        self.initial.setdefault("grace_days", garden.rules.renew_grace_days)
        if coming is not None:
            wanted = coming.starts_on - timedelta(days=garden.rules.renew_by_days)
            self.initial |= {"season": coming.pk, "answer_by": max(today, wanted)}

    def clean_answer_by(self) -> Any:
        day = self.cleaned_data["answer_by"]
        if day < self.instance.opened_on:
            raise forms.ValidationError(_("This day is over."))
        return day


class AnswerForm(forms.Form):
    """What a household wants to do about its plot."""

    wish = forms.ChoiceField(label=_("Next season"), choices=WishChoice.choices, widget=forms.RadioSelect)
    note = forms.CharField(
        label=_("Anything to know"), max_length=300, required=False,
        help_text=_("Such as which plot you would like. Please nothing about health or money."),
    )  # fmt: skip


class HandOverForm(forms.Form):
    """The end of holding a plot in mid-season, and who goes on."""

    last_day = forms.DateField(label=_("Last day of the present holder"), widget=day_input())
    holder = forms.ModelChoiceField(
        User.objects.none(), label=_("Then held by"), required=False, empty_label=_("nobody yet")
    )
    co_gardeners = SeveralField(
        User.objects.none(),
        label=_("Their co-gardeners"),
        required=False,
        widget=forms.CheckboxSelectMultiple,
    )
    why = forms.CharField(
        label=_("Why"), max_length=300, required=False,
        help_text=_("Kept in the plot's history. Please nothing about health or money."),
    )  # fmt: skip

    def __init__(self, assignment: Assignment, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.assignment = assignment
        garden = assignment.plot.garden
        people = User.objects.active_in(garden)
        self.fields["holder"].queryset = people.exclude(pk=assignment.holder_id)
        self.fields["co_gardeners"].queryset = people
        self.fields["last_day"].initial = garden.today()

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or {}
        last_day, began_on = cleaned.get("last_day"), self.assignment.began_on
        if last_day and last_day < began_on:
            self.add_error("last_day", _("They hold the plot only from a later day on."))
        if cleaned.get("co_gardeners") and not cleaned.get("holder"):
            self.add_error("holder", _("Co-gardeners need somebody who holds the plot."))
        if last_day and last_day < date.max:
            following = last_day + timedelta(days=1)
            check_cap(self, self.assignment.plot.garden, cleaned.get("holder"), following)
        return cleaned


class DueForm(forms.ModelForm):
    """One more thing that somebody owes."""

    class Meta:
        model = Due
        fields = ["person", "season", "what", "amount", "due_on"]
        widgets = {"due_on": day_input()}
        help_texts = {"what": _("Such as a deposit for a key.")}

    def __init__(self, garden: Garden, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, instance=Due(garden=garden), **kwargs)
        self.fields["person"].queryset = User.objects.active_in(garden)
        self.fields["season"].queryset = garden.seasons.all()
        self.fields["season"].empty_label = None
        self.fields["what"].required = True
        self.initial["due_on"] = garden.today() + timedelta(days=garden.rules.dues_days)


class PartDueForm(forms.Form):
    """What a plot held for a part of the season costs."""

    amount = forms.DecimalField(label=_("Amount"), min_value=0, max_digits=8, decimal_places=2)


class AgreementTextForm(forms.ModelForm):
    class Meta:
        model = AgreementText
        fields = ["language", "title", "body", "checked_by"]
        widgets = {"body": forms.Textarea(attrs={"rows": 18})}

    def clean_language(self) -> str:
        language: str = self.cleaned_data["language"]
        same = AgreementText.objects.filter(version=self.instance.version, language=language)
        if same.exclude(pk=self.instance.pk).exists():
            raise forms.ValidationError(_("This version has a text in this language already."))
        return language


class SignForm(forms.Form):
    """An adult's own signature."""

    name = forms.CharField(label=_("Your name, as a signature"), max_length=120)
    agreed = forms.BooleanField(label=_("I have read this and agree to it."))


class PaperForm(forms.Form):
    """Marking somebody as having signed a sheet of paper."""

    person = forms.ModelChoiceField(User.objects.none(), label=_("Who signed"))
    text = forms.ModelChoiceField(AgreementText.objects.none(), label=_("Which text"), empty_label=None)
    signed_on = forms.DateField(label=_("Signed on"), widget=day_input())

    def __init__(self, garden: Garden, version: Any, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["person"].queryset = User.objects.active_in(garden)
        self.fields["text"].queryset = version.texts.all()
        self.fields["text"].label_from_instance = lambda text: text.get_language_display()
        self.fields["signed_on"].initial = garden.today()
