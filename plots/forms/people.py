"""Forms of a garden's members."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from django import forms
from django.utils.translation import gettext_lazy as _

from plots.models import Membership, Role, User


def _offer_roles(form: forms.BaseForm, roles: Sequence[Role]) -> None:
    """Only the parts that who adds somebody may give; see `access.roles_to_give`."""
    form.fields["role"].choices = [(role.value, role.label) for role in roles]


class NewMemberForm(forms.ModelForm):
    """A person who has no account here yet."""

    role = forms.ChoiceField(label=_("Part in the garden"), choices=Role.choices, initial=Role.MEMBER)

    class Meta:
        model = User
        fields = ["name", "sign_in_name", "email", "phone"]
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
    """What a coordinator may change about a member's account."""

    class Meta:
        model = User
        fields = ["name", "sign_in_name", "email", "phone"]
        widgets = {"email": forms.EmailInput(attrs={"autocomplete": "off"})}


class RoleForm(forms.ModelForm):
    class Meta:
        model = Membership
        fields = ["role"]
        labels = {"role": _("Part in the garden")}
