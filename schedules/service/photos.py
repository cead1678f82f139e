"""Photos of logs: kept once, on every log that they were sent with."""

from __future__ import annotations

from collections.abc import Sequence
from uuid import UUID, uuid5

from django.core.exceptions import ValidationError
from django.utils.translation import gettext as _

from plots.models import User
from plots.photos import Picture
from plots.service.photos import keep_photo, key_of, restore_photo
from schedules.models import LogPhoto, WorkLog

PER_LOG = 12


def keep_log_photo(
    *,
    logs: Sequence[WorkLog],
    picture: Picture,
    by: User,
    key: UUID | None = None,
    may_show: bool = False,
) -> tuple[LogPhoto, bool]:
    """Keeps one photo of what was done, outside any transaction; also says whether it is new.

    The logs are those of one piece of work, at several plots perhaps. Without `key` the same picture sent
    twice is kept once. Raises `ValidationError` for one too many.
    """
    first = logs[0]
    key = key or key_of(picture, about=first, by=by)
    others = first.photos.standing().exclude(key=key)
    if others.count() >= PER_LOG and not LogPhoto.objects.filter(key=key).exists():
        raise ValidationError(_("A log keeps %(count)d photos, and has them.") % {"count": PER_LOG})
    rows = [
        LogPhoto(
            key=key if log is first else uuid5(key, str(log.key)), log=log, made_by=by, may_show=may_show
        )
        for log in logs
    ]
    return keep_photo(rows, picture)


def keep_log_photos(
    *, logs: Sequence[WorkLog], pictures: Sequence[Picture], by: User, may_show: bool = False
) -> None:
    """Keeps photos chosen in a form; one that was taken away before is there again."""
    for picture in pictures:
        photo, is_new = keep_log_photo(logs=logs, picture=picture, by=by, may_show=may_show)
        if not is_new:
            restore_photo(photo=photo)


def word_photo(*, photo: LogPhoto) -> None:
    """Keeps the photo's words, and whether it may be shown, at every log that has it."""
    same = LogPhoto.objects.filter(image=photo.image.name)
    same.update(caption=photo.caption, may_show=photo.may_show)
