"""What the tests of printing read of an answer."""

from __future__ import annotations

from io import BytesIO

from pypdf import PdfReader

TABLE = "/g/linden-row/print/"


def words(content: bytes) -> str:
    return " ".join(" ".join(page.extract_text() for page in PdfReader(BytesIO(content)).pages).split())


def body(response) -> bytes:
    return b"".join(response.streaming_content) if response.streaming else response.content
