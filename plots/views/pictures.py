"""Handing a photo out, after `access` has agreed."""

from __future__ import annotations

from django.http import FileResponse, Http404, HttpRequest, HttpResponse
from django.utils.cache import get_conditional_response

from plots.models import Photo

IMAGE, THUMB = "image", "thumb"


def picture_answer(request: HttpRequest, photo: Photo, size: str) -> HttpResponse:
    """The picture in one of its two sizes; asked for anew each time, as who may see it can change."""
    if size not in (IMAGE, THUMB):
        raise Http404
    etag = f'"{photo.image.name.removesuffix(".jpg").replace("/", "")}-{size}"'
    headers = {"Cache-Control": "private, no-cache", "X-Content-Type-Options": "nosniff"}
    known = get_conditional_response(request, etag=etag)
    if known is not None:
        for name, value in headers.items():
            known[name] = value
        return known
    try:
        file = getattr(photo, size).open("rb")
    except FileNotFoundError:
        raise Http404 from None
    name = f"{photo.made_at:%Y-%m-%d}-{photo.key}.jpg"
    return FileResponse(file, filename=name, content_type="image/jpeg", headers={**headers, "ETag": etag})
