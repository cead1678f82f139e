"""The site map on paper."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.utils.translation import gettext as _
from django.utils.translation import ngettext
from django.views.decorators.http import require_safe

from plots import access, queries
from plots.sitemap.drawing import site_sketch
from plots.wording.site_key import key_to_map
from schedules.views.paper import head_of, paper


@require_safe
def site_map_pdf(request: HttpRequest, slug: str) -> HttpResponse:
    """The whole site to scale on one sheet, for the notice board: the same for everybody who may see it."""
    from schedules.reports.site_map import site_map_pdf  # lazy: reportlab

    garden = access.garden_to_see(request.user, slug)
    site = queries.site_map(garden, seen=(), own=(), oversees=False)
    count = len(site.drawn.plots)
    head = head_of(
        garden,
        _("Map of %(garden)s") % {"garden": garden.name},
        subtitle=ngettext("%(count)d plot.", "%(count)d plots.", count) % {"count": count},
    )
    made = site_map_pdf(head, site_sketch(site.drawn), key_to_map(site.drawn), units=garden.units)
    return paper(made, f"map-{garden.slug}", private=False)
