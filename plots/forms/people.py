"""Forms of a garden's members."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from typing import Any

from django import forms
from django.utils.translation import gettext_lazy as _

from plots.forms.days import day_input
from plots.forms.several import SeveralField
from plots.models import Assignment, Duty, Membership, Role, User, Whereabout
from plots.spelling import tidy
from plots.wording.powers import POWER_WORDS


def _offer_roles(form: forms.BaseForm, roles: Sequence[Role]) -> None:
    """Only the parts that who adds somebody may give; see `access.roles_to_give`."""
    form.fields["role"].choices = [(role.value, role.label) for role in roles]


class NewMemberForm(forms.ModelForm):
    """A person who has no account here yet."""

    role = forms.ChoiceField(label=_("Part in the garden"), choices=Role.choices, initial=Role.MEMBER)

    class Meta:
        model = User
        fields = ["name", "sign_in_name", "email", "phone", "address"]
        widgets = {"email": forms.EmailInput(attrs={"autocomplete": "off"})}

    def __init__(self, *args: Any, roles: Sequence[Role], **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        _offer_roles(self, roles)
        self.fields["sign_in_name"].required = False
        self.fields["sign_in_name"].help_text = _("Left empty, one is made from the name.")


class KnownMemberForm(forms.Form):
    """A person who already has an account, from another garden of this installation."""

    account = forms.CharField(label=_("Their sign-in name or email"), max_length=254)
    role = forms.ChoiceField(label=_("Part in the garden"), choices=Role.choices, initial=Role.MEMBER)

    def __init__(self, *args: Any, roles: Sequence[Role], **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        _offer_roles(self, roles)

    def clean_account(self) -> User:
        try:
            return User.objects.get_by_natural_key(self.cleaned_data["account"])
        except User.DoesNotExist:
            raise forms.ValidationError(_("Nobody here signs in with this.")) from None


class MemberForm(forms.ModelForm):
    """What a coordinator may change about a member's account, and the household they belong to."""

    household = forms.CharField(
        label=_("Household"),
        required=False,
        max_length=120,
        help_text=_("The same words for all who live and garden together; empty for somebody alone."),
        widget=forms.TextInput(attrs={"list": "households", "autocomplete": "off"}),
    )

    class Meta:
        model = User
        fields = ["name", "sign_in_name", "email", "phone", "address"]
        widgets = {"email": forms.EmailInput(attrs={"autocomplete": "off"})}

    def clean_household(self) -> str:
        return tidy(self.cleaned_data["household"])


class RoleForm(forms.ModelForm):
    """A member's part in the garden; powers count for helpers alone."""

    powers = forms.MultipleChoiceField(
        label=_("A helper is trusted with"),
        required=False,
        choices=[(power.value, words) for power, words in POWER_WORDS.items()],
        widget=forms.CheckboxSelectMultiple,
        help_text=_("Only for helpers. Coordinators may do everything, members nothing of this."),
    )
    why = forms.CharField(label=_("Why"), required=False, max_length=300)

    class Meta:
        model = Membership
        fields = ["role", "powers"]
        labels = {"role": _("Part in the garden")}

    def clean(self) -> dict[str, Any]:
        given: dict[str, Any] = super().clean() or self.cleaned_data
        if given.get("powers") and given.get("role") not in (None, Role.HELPER):
            self.add_error("powers", _("Only a helper is trusted with single things."))
        return given


class OwnPartForm(forms.ModelForm):
    """What a member decides about being reached; nothing else of a membership is theirs to change."""

    class Meta:
        model = Membership
        fields = ["email_for", "phone_for", "address_for", "emergency_name", "emergency_phone"]
        widgets = dict.fromkeys(("email_for", "phone_for", "address_for"), forms.RadioSelect)
        help_texts = {
            "emergency_name": _("Printed on a sealed sheet for the shed. No illness, no medicine: a name."),
        }


class PaperConsentForm(forms.ModelForm):
    """What a member agreed to on paper, typed in for them."""

    agreed_on = forms.DateField(
        label=_("Agreed on paper on"),
        widget=day_input(),
        help_text=_("The day that stands on the paper. Keep the paper itself."),
    )

    class Meta:
        model = Membership
        fields = ["email_for", "phone_for", "address_for", "weekly_letter"]
        labels = {
            "email_for": _("Email is for"),
            "phone_for": _("Telephone is for"),
            "address_for": _("Postal address is for"),
            "weekly_letter": _("wants the weekly letter"),
        }
        widgets = dict.fromkeys(("email_for", "phone_for", "address_for"), forms.RadioSelect)

    def clean_agreed_on(self) -> date:
        day: date = self.cleaned_data["agreed_on"]
        if day > self.instance.garden.today():
            raise forms.ValidationError(_("This day has not come yet."))
        return day


class CoGardenersForm(forms.Form):
    """Who gardens a plot beside its holder."""

    people = SeveralField(
        User.objects.none(), label=_("Co-gardeners"), required=False, widget=forms.CheckboxSelectMultiple
    )
    why = forms.CharField(label=_("Why"), required=False, max_length=300)

    def __init__(self, assignment: Assignment, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        garden = assignment.plot.garden
        people = User.objects.active_in(garden)
        self.fields["people"].queryset = people.exclude(pk=assignment.holder_id)
        self.fields["people"].initial = list(assignment.co_gardeners.all())


class AskForLinkForm(forms.Form):
    """Somebody who cannot come in says who they are."""

    account = forms.CharField(
        label=_("Your name, sign-in name or email"),
        max_length=254,
        help_text=_("As your garden knows you."),
        widget=forms.TextInput(attrs={"autocomplete": "username", "autocapitalize": "none"}),
    )


class DutyForm(forms.ModelForm):
    """A part of running the garden; somebody or nobody does it."""

    class Meta:
        model = Duty
        fields = ["name", "holder", "deputy", "until", "tasks"]
        widgets = {
            "until": day_input(),
            "tasks": forms.Textarea(attrs={"rows": 4}),
        }

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        people = User.objects.active_in(self.instance.garden)
        for name in ("holder", "deputy"):
            self.fields[name].queryset = people
            self.fields[name].empty_label = _("nobody yet")


class WhereaboutForm(forms.ModelForm):
    class Meta:
        model = Whereabout
        fields = ["thing", "place", "knows", "due_on", "note", "for_members"]
        widgets = {
            "due_on": day_input(),
            "note": forms.Textarea(attrs={"rows": 3}),
        }
        help_texts = {
            "place": _("Never a code or a password: say who knows it."),
        }
