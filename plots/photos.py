"""Photos as they are kept: read with suspicion, upright, small, and nothing but the picture.

Whatever else a file carries (place, camera, comments, a preview, further frames, what lies under see-through
parts) stays behind, because what is kept is painted anew.
"""

from __future__ import annotations

import struct
import zlib
from dataclasses import dataclass
from enum import StrEnum
from io import BytesIO
from typing import BinaryIO

from PIL import Image

READABLE = ("JPEG", "PNG", "WEBP")
MEDIA_TYPES = ("image/jpeg", "image/png", "image/webp")
MAX_BYTES = 20_000_000
MAX_PIXELS = 50_000_000  # the largest that telephones take; an unpacked pixel costs four bytes of memory
IMAGE_SIDE = 1600
THUMB_SIDE = 400
_QUALITY = 82
_ORIENTATION = 0x0112  # EXIF: which way up the telephone was held
_UPRIGHT = {
    2: Image.Transpose.FLIP_LEFT_RIGHT,
    3: Image.Transpose.ROTATE_180,
    4: Image.Transpose.FLIP_TOP_BOTTOM,
    5: Image.Transpose.TRANSPOSE,
    6: Image.Transpose.ROTATE_270,
    7: Image.Transpose.TRANSVERSE,
    8: Image.Transpose.ROTATE_90,
}
# How the containers of HEIC and AVIF pictures begin, behind four bytes of length.
_HEIC_BRANDS = (b"heic", b"heix", b"hevc", b"hevx", b"heim", b"heis", b"mif1", b"msf1", b"avif", b"avis")
# What Pillow raises for files that are broken on purpose or by chance.
_BROKEN = (OSError, SyntaxError, ValueError, EOFError, struct.error, zlib.error, OverflowError)


class Problem(StrEnum):
    """Why a file is not taken; `plots.wording.photos` says it."""

    EMPTY = "empty"
    TOO_MANY_BYTES = "too-many-bytes"
    TOO_MANY_PIXELS = "too-many-pixels"
    HEIC = "heic"
    NO_PHOTO = "no-photo"
    CUT_OFF = "cut-off"


class PhotoError(ValueError):
    """A file that is not kept, with its problem."""

    def __init__(self, problem: Problem) -> None:
        super().__init__(problem.value)
        self.problem = problem


@dataclass(frozen=True, slots=True)
class Picture:
    """What is kept of a photo: two JPEG files, and the size of the larger one in pixels."""

    image: bytes
    thumb: bytes
    width: int
    height: int


def picture_of(file: BinaryIO) -> Picture:
    """The photo in the file, painted anew, no side longer than `IMAGE_SIDE`. Raises `PhotoError`."""
    _refuse_by_its_look(file)
    image = _plain(_decoded(file))
    thumb = image.copy()
    thumb.thumbnail((THUMB_SIDE, THUMB_SIDE))
    return Picture(_as_jpeg(image), _as_jpeg(thumb), image.width, image.height)


def fitted(width: int, height: int, side: int = THUMB_SIDE) -> tuple[int, int]:
    """Width and height shrunk alike so that none is longer than `side`; what is smaller stays.

    >>> fitted(1600, 1200), fitted(30, 20)
    ((400, 300), (30, 20))
    """
    part = min(1.0, side / max(width, height))
    return max(1, round(width * part)), max(1, round(height * part))


def _refuse_by_its_look(file: BinaryIO) -> None:
    """Looks at the length and the first bytes alone: names and types that were sent along prove nothing."""
    length = file.seek(0, 2)
    file.seek(0)
    head = file.read(12)
    file.seek(0)
    if not length:
        raise PhotoError(Problem.EMPTY)
    if length > MAX_BYTES:
        raise PhotoError(Problem.TOO_MANY_BYTES)
    if head[4:8] == b"ftyp" and head[8:12] in _HEIC_BRANDS:
        raise PhotoError(Problem.HEIC)


def _decoded(file: BinaryIO) -> Image.Image:
    """The picture, decoded no larger than needed and turned upright."""
    try:
        image: Image.Image = Image.open(file, formats=READABLE)
    except (Image.DecompressionBombError, Image.DecompressionBombWarning):
        raise PhotoError(Problem.TOO_MANY_PIXELS) from None
    except _BROKEN:
        raise PhotoError(Problem.NO_PHOTO) from None
    if image.width * image.height > MAX_PIXELS:  # before anything is unpacked
        raise PhotoError(Problem.TOO_MANY_PIXELS)
    try:
        image.thumbnail((IMAGE_SIDE, IMAGE_SIDE))
        image.load()  # a small one is not decoded yet
    except _BROKEN:
        raise PhotoError(Problem.CUT_OFF) from None
    turn = _UPRIGHT.get(_orientation(image))
    return image if turn is None else image.transpose(turn)


def _orientation(image: Image.Image) -> int:
    try:
        found = image.getexif().get(_ORIENTATION)
    except Exception:  # whatever is wrong there: the picture itself is whole
        return 1
    return found if isinstance(found, int) else 1


def _plain(image: Image.Image) -> Image.Image:
    """A new picture with the same colours on white paper, and nothing besides."""
    if image.mode.startswith("I"):  # greys of sixteen bits, which converting would cut off instead of scaling
        image = image.point(lambda grey: grey * (1 / 256)).convert("L")
    paper = Image.new("RGB", image.size, "white")
    if image.has_transparency_data:
        see_through = image.convert("RGBA")
        paper.paste(see_through, mask=see_through.getchannel("A"))
    else:
        paper.paste(image.convert("RGB"))
    return paper


def _as_jpeg(image: Image.Image) -> bytes:
    out = BytesIO()
    image.save(out, "JPEG", quality=_QUALITY, progressive=True)
    return out.getvalue()
