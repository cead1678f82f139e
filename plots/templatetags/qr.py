"""QR codes in a page."""

from __future__ import annotations

from django import template

from plots.markup import Svg
from plots.qr import qr_svg

register = template.Library()


@register.simple_tag
def qr(text: str, label: str) -> Svg:
    """The text as a QR code; `label` says what it is for."""
    return qr_svg(str(text), str(label))
