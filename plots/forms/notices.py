"""The form of a notice."""

from __future__ import annotations

from typing import Any, ClassVar

from django import forms
from django.utils.translation import gettext as _now
from django.utils.translation import gettext_lazy as _

from plots.forms.several import SeveralField
from plots.models import Audience, Notice, User


class NoticeForm(forms.ModelForm):
    """A text and whom it is for."""

    class Meta:
        model = Notice
        fields: ClassVar[list[str]] = ["subject", "body", "audience", "picked"]
        widgets: ClassVar[dict[str, Any]] = {
            "body": forms.Textarea(attrs={"rows": 10}),
            "audience": forms.RadioSelect,
        }
        field_classes: ClassVar[dict[str, Any]] = {"picked": SeveralField}
        help_texts: ClassVar[dict[str, Any]] = {
            "body": _("It goes out by email, is read out on the telephone, and may hang at the gate.")
        }

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["picked"].queryset = User.objects.active_in(self.instance.garden)
        self.fields["picked"].label = _("People, by name")
        self.fields["picked"].required = False

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or {}
        if cleaned.get("audience") == Audience.PICKED and not cleaned.get("picked"):
            self.add_error("picked", _now("Tick at least one person."))
        return cleaned
