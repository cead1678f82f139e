"""Photos in forms: read and made small while the form is checked, so that what is valid can be kept."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from django import forms
from django.core.files.uploadedfile import UploadedFile
from django.utils.translation import gettext as _now
from django.utils.translation import gettext_lazy as _

from plots.photos import MAX_BYTES, MEDIA_TYPES, PhotoError, Picture, picture_of
from plots.wording.photos import problem_text

AT_ONCE = 6
CHOOSE_AGAIN = _("Please choose the photos again: browsers do not keep the choice.")


class PhotoInput(forms.FileInput):
    """Offers what can be kept, from the camera or the library as the person likes."""

    def __init__(self, attrs: dict[str, Any] | None = None) -> None:
        super().__init__({"accept": ",".join(MEDIA_TYPES), "data-photo": True, **(attrs or {})})


class SeveralPhotosInput(PhotoInput):
    allow_multiple_selected = True


class PhotoField(forms.FileField):
    """One photo, as `plots.photos.Picture`."""

    widget = PhotoInput

    def __init__(self, **kwargs: Any) -> None:
        super().__init__(allow_empty_file=True, **kwargs)  # an empty one is refused in our own words

    def clean(self, data: Any, initial: Any = None) -> Picture | None:
        file = super().clean(data, initial)
        return self._picture(file) if file else None

    def _picture(self, file: UploadedFile) -> Picture:
        try:
            return picture_of(file.file)
        except PhotoError as error:
            raise forms.ValidationError(problem_text(error.problem), code=error.problem) from error


class PhotosField(PhotoField):
    """Several photos, as a list of `plots.photos.Picture`; one that is refused is named."""

    widget = SeveralPhotosInput

    def __init__(self, **kwargs: Any) -> None:
        told = {"size": MAX_BYTES // 1_000_000, "count": AT_ONCE}
        kwargs.setdefault("label", _("Photos"))
        kwargs.setdefault(
            "help_text",
            _("JPEG, PNG or WebP, up to %(count)d at once. The place where they were taken is not kept.")
            % told,
        )
        super().__init__(**kwargs)

    def clean(self, data: Any, initial: Any = None) -> list[Picture]:
        files = [file for file in _each(data) if file]
        if not files:
            super().clean(None, initial)
            return []
        if len(files) > AT_ONCE:
            raise forms.ValidationError(_now("At most %(count)d photos at once.") % {"count": AT_ONCE})
        pictures, wrong = [], []
        for file in files:
            try:
                pictures.append(self._picture(forms.FileField.clean(self, file)))
            except forms.ValidationError as error:
                wrong.append(f"{file.name}: {error.messages[0]}")
        if wrong:
            raise forms.ValidationError([*wrong, CHOOSE_AGAIN])
        return pictures


def ask_for_photos_again(form: forms.BaseForm) -> None:
    """Says beside the photos of a form that is shown again for other mistakes that they are not kept."""
    for name, field in form.fields.items():
        sent = isinstance(field, PhotosField) and form.files.get(form.add_prefix(name))
        if sent and form.errors and name not in form.errors:
            form.add_error(name, CHOOSE_AGAIN)


def _each(data: Any) -> Iterable[Any]:
    return data if isinstance(data, list | tuple) else [data]
