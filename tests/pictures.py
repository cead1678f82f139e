"""Picture files of every kind for tests, made as they are needed."""

from io import BytesIO
from typing import Any

from PIL import Image


def encoded(image: Image.Image, kind: str, **options: Any) -> bytes:
    out = BytesIO()
    image.save(out, kind, **options)
    return out.getvalue()


def jpeg(width: int = 40, height: int = 30, colour: str = "green", **options: Any) -> bytes:
    return encoded(Image.new("RGB", (width, height), colour), "JPEG", **options)
