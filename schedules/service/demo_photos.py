"""The demonstration's photos: small drawings that say so, beside some of its logs."""

from __future__ import annotations

from collections.abc import Iterator
from io import BytesIO
from random import Random
from typing import NamedTuple

from PIL import Image, ImageDraw

from plots.models import Garden
from plots.photos import picture_of
from schedules.models import WorkLog
from schedules.service.photos import keep_log_photo, word_photo
from schedules.work import Work

CROPS = 4  # of a garden, one picture each
_SIZE = (1600, 1200)  # drawn twice as large as kept, for smooth edges
_SOIL, _WOOD, _STRAW, _LEAF = (92, 70, 54), (168, 128, 84), (214, 188, 120), (86, 130, 62)


class Look(NamedTuple):
    """What a crop looks like in a crate: its colour, its length and its width in points of the drawing."""

    colour: tuple[int, int, int]
    long: int
    wide: int


LOOKS = {
    "tomato": Look((186, 52, 38), 150, 146),
    "carrot": Look((222, 126, 40), 340, 66),
    "bean-bush": Look((84, 132, 60), 300, 38),
    "pea-snap": Look((122, 168, 86), 210, 48),
    "lettuce-leaf": Look((134, 172, 84), 320, 290),
    "kale": Look((62, 98, 70), 330, 210),
    "potato": Look((190, 158, 108), 190, 140),
    "onion-transplants": Look((196, 138, 70), 160, 156),
    "pepper-sweet": Look((198, 66, 44), 190, 150),
    "beet": Look((116, 36, 66), 170, 160),
    "squash-winter": Look((206, 132, 58), 420, 330),
}


def take_photos() -> None:
    """Some pickings of each garden and what was mulched; not within a transaction, whose files could stay.

    The first picture of a garden is not given for the report, as happens.
    """
    for garden in Garden.objects.order_by("pk"):
        for number, (log, drawing, caption) in enumerate(_scenes(garden)):
            file = BytesIO()
            drawing.resize((_SIZE[0] // 2, _SIZE[1] // 2)).save(file, "JPEG", quality=85)
            by = log.person or log.made_by
            photo, _new = keep_log_photo(logs=[log], picture=picture_of(file), by=by, may_show=number > 0)
            photo.caption = f"{caption} (drawn for the demonstration)"
            word_photo(photo=photo)


def _scenes(garden: Garden) -> Iterator[tuple[WorkLog, Image.Image, str]]:
    logs = WorkLog.objects.standing().filter(garden=garden).select_related("planting__crop", "person")
    mulched = logs.filter(work=Work.MULCH).order_by("-day", "-pk").first()
    if mulched is not None:
        yield mulched, _bed(), "Straw around the plants"
    shown: set[str] = set()
    for log in logs.filter(work=Work.PICK, planting__crop__slug__in=LOOKS).order_by("-day", "-pk"):
        crop = log.planting.crop
        if crop.slug not in shown and len(shown) < CROPS:
            shown.add(crop.slug)
            yield log, _crate(LOOKS[crop.slug]), f"{crop.name}, just picked"


def _crate(look: Look) -> Image.Image:
    """A crate from above with what was picked in it."""
    image = Image.new("RGB", _SIZE, _SOIL)
    draw = ImageDraw.Draw(image)
    draw.rectangle((140, 120, 1460, 1080), fill=_WOOD)
    draw.rectangle((190, 170, 1410, 1030), fill=_darker(_WOOD, 0.5))
    chance = Random(look.long)  # noqa: S311 - the same picture each time
    for _piece in range(max(12, 1_500_000 // (look.long * look.wide))):
        piece = Image.new("RGBA", (look.long, look.wide))
        shade = _darker(look.colour, chance.uniform(0.8, 1.08))
        ImageDraw.Draw(piece).ellipse(
            (2, 2, look.long - 3, look.wide - 3), fill=shade, outline=_darker(shade, 0.7), width=4
        )
        turned = piece.rotate(chance.uniform(0, 180), expand=True)
        at = chance.randint(200, 1400 - turned.width), chance.randint(180, 1020 - turned.height)
        image.paste(turned, at, turned)
    return image


def _bed() -> Image.Image:
    """A bed from above: straw, and plants in two rows."""
    image = Image.new("RGB", _SIZE, _SOIL)
    draw = ImageDraw.Draw(image)
    chance = Random(1)  # noqa: S311 - the same picture each time
    for _straw in range(3500):
        x, y = chance.randint(0, 1600), chance.randint(150, 1050)
        to = x + chance.randint(-90, 90), y + chance.randint(-40, 40)
        draw.line((x, y, *to), fill=_darker(_STRAW, chance.uniform(0.7, 1.1)), width=7)
    for x in range(130, 1600, 270):
        for y in (400, 800):
            draw.ellipse((x - 70, y - 70, x + 70, y + 70), fill=_SOIL)
            for n in range(6):
                leaf = Image.new("RGBA", (220, 220))
                shade = _darker(_LEAF, 0.8 + 0.06 * n)
                ImageDraw.Draw(leaf).ellipse(
                    (110, 78, 216, 142), fill=shade, outline=_darker(shade, 0.7), width=4
                )
                turned = leaf.rotate(60 * n + 17)
                image.paste(turned, (x - 110, y - 110), turned)
    return image


def _darker(colour: tuple[int, int, int], share: float) -> tuple[int, int, int]:
    red, green, blue = (min(255, round(part * share)) for part in colour)
    return red, green, blue
