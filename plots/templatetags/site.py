"""What the pages of the site map show: areas, places, and the key to the map's lines and marks."""

from __future__ import annotations

from django import template

from plots.markup import Svg
from plots.models import Plot, SiteFeature
from plots.sitemap.drawing import SiteDrawn
from plots.sketch_svg import sketch_svg
from plots.wording.site import area_text, place_text
from plots.wording.site_key import key_to_map

register = template.Library()


@register.filter
def area(square_metres: float, units: str) -> str:
    return area_text(square_metres, units)


@register.filter
def corner(thing: SiteFeature | Plot, units: str) -> str:
    """Where the corner of a thing lies; empty if it is not on the map."""
    if thing.left_m is None or thing.top_m is None:
        return ""
    return place_text(thing.left_m, thing.top_m, units)


@register.simple_tag
def map_key(drawn: SiteDrawn) -> list[tuple[Svg, str]]:
    """Each line and mark that this map uses, beside its word."""
    return [(sketch_svg(sketch, label="", css="key-mark"), word) for sketch, word in key_to_map(drawn)]
