"""The site map on paper."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.utils.translation import get_language, ngettext
from django.utils.translation import gettext as _
from django.views.decorators.http import require_safe

from plots import access, queries
from plots.sitemap.drawing import site_sketch
from plots.wording.site_key import key_to_map


@require_safe
def site_map_pdf(request: HttpRequest, slug: str) -> HttpResponse:
    """The whole site to scale on one sheet, for the notice board: the same for everybody who may see it."""
    from schedules.reports.site_map import SiteSheet, site_map_pdf  # lazy: reportlab

    garden = access.garden_to_see(request.user, slug)
    site = queries.site_map(garden, seen=(), own=(), oversees=False)
    count = len(site.drawn.plots)
    made = SiteSheet(
        garden=garden.name,
        title=_("Map of %(garden)s") % {"garden": garden.name},
        subtitle=ngettext("%(count)d plot.", "%(count)d plots.", count) % {"count": count},
        sketch=site_sketch(site.drawn),
        key=key_to_map(site.drawn),
        units=garden.units,
        paper=garden.paper,
        language=get_language() or "en",
        printed_on=garden.today(),
    )
    response = HttpResponse(site_map_pdf(made), content_type="application/pdf")
    response["Content-Disposition"] = f'inline; filename="map-{garden.slug}.pdf"'
    return response
