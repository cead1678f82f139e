"""Photos of a log: one as a phone sends it, several as a page does, and the words of one."""

from __future__ import annotations

from typing import Any, ClassVar

from django import forms
from django.utils.translation import gettext_lazy as _

from plots.forms.photos import PhotoField, PhotosField
from plots.models import User
from schedules.models import LogPhoto

MAY_SHOW = _("The garden may show it in its season report")


class SentPhotoForm(forms.Form):
    photo = PhotoField()
    photo_key = forms.UUIDField()
    may_show = forms.BooleanField(required=False)


class PhotosForm(forms.Form):
    photos = PhotosField()
    may_show = forms.BooleanField(label=MAY_SHOW, required=False)


class PhotoWordsForm(forms.ModelForm):
    """Whether a photo may be shown says nobody but who took it."""

    class Meta:
        model = LogPhoto
        fields: ClassVar[list[str]] = ["caption", "may_show"]
        labels: ClassVar[dict[str, object]] = {"may_show": MAY_SHOW}
        help_texts: ClassVar[dict[str, object]] = {
            "caption": _("Also read out to who cannot see it. Without names of people, please."),
        }

    def __init__(self, *args: Any, by: User, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        if self.instance.made_by_id != by.pk:
            del self.fields["may_show"]
