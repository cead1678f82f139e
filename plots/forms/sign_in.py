"""Forms for coming in: by password, and the first visit."""

from __future__ import annotations

from typing import Any

from django import forms
from django.conf import settings
from django.contrib.auth import password_validation
from django.utils.translation import gettext_lazy as _

from plots.first_visit import code_matches
from plots.forms.garden import NewGardenForm, offer_languages
from plots.models import User


class SignInForm(forms.Form):
    account = forms.CharField(
        label=_("Sign-in name or email"),
        max_length=254,
        widget=forms.TextInput(attrs={"autocomplete": "username", "autocapitalize": "none"}),
    )
    password = forms.CharField(
        label=_("Password"),
        max_length=4096,
        strip=False,
        widget=forms.PasswordInput(attrs={"autocomplete": "current-password"}),
    )
    shared = forms.BooleanField(
        label=_("Others use this device too: sign me out when it is closed"), required=False
    )


class AccountForm(forms.ModelForm):
    """What a person may change about themselves."""

    class Meta:
        model = User
        fields = ["name", "sign_in_name", "email", "phone", "address", "language"]
        widgets = {"email": forms.EmailInput(attrs={"autocomplete": "email"})}

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        offer_languages(self)


class PasswordForm(forms.Form):
    """Sets a password, or changes it for somebody who knows the present one."""

    current = forms.CharField(
        label=_("Present password"),
        strip=False,
        widget=forms.PasswordInput(attrs={"autocomplete": "current-password"}),
    )
    new = forms.CharField(
        label=_("New password"),
        help_text=_("At least 12 characters; a few words in a row are good."),
        max_length=4096,
        strip=False,
        widget=forms.PasswordInput(attrs={"autocomplete": "new-password"}),
    )

    def __init__(self, user: User, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.user = user
        if not user.has_usable_password():
            del self.fields["current"]

    def clean_current(self) -> str:
        current: str = self.cleaned_data["current"]
        if not self.user.check_password(current):
            raise forms.ValidationError(_("This is not your present password."))
        return current

    def clean_new(self) -> str:
        new: str = self.cleaned_data["new"]
        password_validation.validate_password(new, self.user)
        return new


class FirstVisitForm(NewGardenForm):
    """The first garden, and the person who will run it."""

    code = forms.CharField(
        label=_("Code"),
        max_length=40,
        help_text=_("Twelve letters and figures, printed where Trugbook was started."),
        widget=forms.TextInput(attrs={"autocomplete": "off", "autocapitalize": "characters"}),
    )
    person = forms.CharField(label=_("Your name"), max_length=120)
    field_order = ["code", "person"]

    def clean_code(self) -> str:
        code: str = self.cleaned_data["code"]
        if not code_matches(code, settings.SECRET_KEY):
            raise forms.ValidationError(_("This is not the code that was printed."))
        return code
