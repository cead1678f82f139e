"""Texts as a test compares them."""

from html import unescape

from django.http import HttpResponse
from django.utils.html import strip_tags


def plain(text: object) -> str:
    """With ordinary spaces, for a no-break space looks the same in a failing test."""
    return str(text).replace("\u00a0", " ")


def text_of(response: HttpResponse) -> str:
    """What a page says, with a single space where there was a tag or space."""
    return " ".join(plain(unescape(strip_tags(response.content.decode().replace("<", " <")))).split())
