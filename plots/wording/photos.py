"""Why a file is not taken as a photo, in a sentence with what to do."""

from __future__ import annotations

from django.utils.functional import Promise
from django.utils.translation import gettext_lazy as _

from plots.photos import MAX_BYTES, MAX_PIXELS, Problem

_PROBLEMS: dict[Problem, Promise] = {
    Problem.EMPTY: _("This file is empty."),
    Problem.HEIC: _(
        "This photo is in the HEIC format, which browsers cannot show. Choose it from the photo library "
        "instead of the files, or let the telephone save photos as JPEG (“most compatible”)."
    ),
    Problem.NO_PHOTO: _("This is no photo in a format that every browser shows: JPEG, PNG or WebP."),
    Problem.CUT_OFF: _("This photo is broken or was cut off on its way. Please send it again."),
}


def problem_text(problem: Problem) -> str:
    if problem is Problem.TOO_MANY_BYTES:
        return str(_("This file is larger than %(size)d MB.") % {"size": MAX_BYTES // 1_000_000})
    if problem is Problem.TOO_MANY_PIXELS:
        return str(
            _("This picture has more than %(size)d million pixels.") % {"size": MAX_PIXELS // 1_000_000}
        )
    return str(_PROBLEMS[problem])
