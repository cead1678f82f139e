"""The site map: looking at it, laying out rows, moving things, and the way past the plots."""

from __future__ import annotations

from django.contrib import messages
from django.core.exceptions import ValidationError
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils.translation import gettext as _
from django.utils.translation import ngettext
from django.views.decorators.http import require_POST, require_safe

from plots import access, queries, service
from plots.forms.site import FeatureForm, RowsForm, SiteForm, WalkForm, parse_moves
from plots.models import FeatureKind, Garden, SiteFeature
from plots.powers import Power
from plots.queries.site import SiteMap, next_rows, rows_looked_at
from plots.sitemap.drawing import site_sketch
from plots.sketch_svg import sketch_svg
from plots.views.answers import form_page, list_page, typed
from plots.views.ground import page_with_form
from plots.views.ground_lists import map_list

NEAR = ("1", "2", "4")  # how many times closer the map may be looked at


def _map_for(request: HttpRequest, garden: Garden) -> SiteMap:
    oversees = access.oversees(request.user, garden)
    return queries.site_map(
        garden,
        seen=set(access.visible_plots(request.user, garden).values_list("pk", flat=True)),
        own=set(access.own_plots(request.user, garden).values_list("pk", flat=True)),
        oversees=oversees,
    )


@require_safe
def site_map(request: HttpRequest, slug: str) -> HttpResponse:
    garden = access.garden_to_see(request.user, slug)
    site = _map_for(request, garden)
    near = request.GET.get("near", "1")
    near = near if near in NEAR else "1"
    drawing = sketch_svg(site_sketch(site.drawn), label=_("Map of the garden"), css=f"near-{near}", key="map")
    may_run = access.may_run(request.user, garden, Power.PLOTS)
    return list_page(
        request,
        "plots/site_map.html",
        map_list(garden),
        site.rows,
        garden=garden,
        site=site,
        drawing=drawing,
        near=near,
        nears=NEAR,
        may_run=may_run,
        changes=queries.changes_of(garden, site.site) if may_run and site.site.pk else [],
    )


@page_with_form
def site_edit(request: HttpRequest, slug: str) -> HttpResponse:
    garden = access.garden_to_run(request.user, slug, Power.PLOTS)
    form = SiteForm(typed(request), instance=queries.site_of(garden))
    if form.is_bound and form.is_valid():
        service.keep_site(site=form.save(commit=False), by=request.user)
        messages.success(request, _("The site is kept."))
        return redirect("plots:site_map", slug)
    return form_page(request, "plots/site_edit.html", form, garden=garden)


@page_with_form
def site_rows(request: HttpRequest, slug: str) -> HttpResponse:
    """Rows of plots: looked at first, then made."""
    garden = access.garden_to_run(request.user, slug, Power.PLOTS)
    form = RowsForm(garden, typed(request), initial=next_rows(garden))
    looked = None
    if form.is_bound and form.is_valid():
        try:
            service.refuse_rows(garden=garden, asked=form.asked())
            looked = rows_looked_at(garden, form.asked(), **form.shared())
            if "make" in request.POST:
                made = service.make_rows(garden=garden, by=request.user, asked=form.asked(), **form.shared())
                text = ngettext("%(count)d plot is made.", "%(count)d plots are made.", len(made))
                messages.success(request, text % {"count": len(made)})
                return redirect("plots:site_map", slug)
        except ValidationError as error:
            form.add_error(None, error)
    drawing = sketch_svg(site_sketch(looked.drawn), label=_("The rows as they would lie")) if looked else None
    return form_page(request, "plots/site_rows.html", form, garden=garden, looked=looked, drawing=drawing)


@page_with_form
def site_arrange(request: HttpRequest, slug: str) -> HttpResponse:
    """Moving plots and other things about on the map; every place can be typed as well."""
    garden = access.garden_to_run(request.user, slug, Power.PLOTS)
    if request.method == "POST":
        moves = parse_moves(request.POST.getlist("place"))
        count = service.move_things(garden=garden, by=request.user, moves=moves)
        text = ngettext("%(count)d thing has moved.", "%(count)d things have moved.", count)
        messages.success(request, text % {"count": count})
        return redirect("plots:site_arrange", slug)
    site = queries.site_map(garden, seen=(), own=(), oversees=True)
    drawing = sketch_svg(site_sketch(site.drawn), label=_("Map of the garden"), css="movable", key="map")
    context = {"garden": garden, "site": site, "drawing": drawing}
    return render(request, "plots/site_arrange.html", context)


@page_with_form
def feature_new(request: HttpRequest, slug: str) -> HttpResponse:
    garden = access.garden_to_run(request.user, slug, Power.PLOTS)
    kind = request.GET.get("kind", "")
    feature = SiteFeature(garden=garden, kind=kind if kind in FeatureKind.values else FeatureKind.PATH)
    return _feature_form(request, garden, feature)


@page_with_form
def feature_edit(request: HttpRequest, slug: str, pk: int) -> HttpResponse:
    garden = access.garden_to_run(request.user, slug, Power.PLOTS)
    return _feature_form(request, garden, get_object_or_404(garden.features, pk=pk))


def _feature_form(request: HttpRequest, garden: Garden, feature: SiteFeature) -> HttpResponse:
    form = FeatureForm(typed(request), instance=feature)
    is_new = feature.pk is None
    if form.is_bound and form.is_valid():
        service.keep_feature(feature=form.save(commit=False), by=request.user)
        messages.success(request, _("%(thing)s is on the map.") % {"thing": feature})
        return redirect("plots:site_map", garden.slug)
    changes = [] if is_new else queries.changes_of(garden, feature)
    return form_page(
        request, "plots/feature_edit.html", form,
        garden=garden, feature=feature, is_new=is_new, changes=changes, may_run=True,
    )  # fmt: skip


@require_POST
def feature_remove(request: HttpRequest, slug: str, pk: int) -> HttpResponse:
    garden = access.garden_to_run(request.user, slug, Power.PLOTS)
    feature = get_object_or_404(garden.features, pk=pk)
    name = str(feature)
    service.remove_feature(feature=feature, by=request.user)
    messages.success(request, _("%(thing)s is off the map.") % {"thing": name})
    return redirect("plots:site_map", slug)


@page_with_form
def site_walk(request: HttpRequest, slug: str) -> HttpResponse:
    """The way past the plots: proposed by the map, changed by hand, or forgotten again."""
    garden = access.garden_to_run(request.user, slug, Power.PLOTS)
    plots = queries.plots_in_walk_order(queries.gardened_plots(garden), garden)
    if request.method == "POST":
        form = WalkForm(plots, request.POST)
        if "forget" in request.POST or form.is_valid():
            order = None if "forget" in request.POST else form.order()
            service.keep_walk(garden=garden, by=request.user, order=order)
            messages.success(request, _("The way past the plots is kept."))
            return redirect("plots:site_walk", slug)
    else:
        form = WalkForm(plots)
    set_by_hand = any(plot.walk_place for plot in plots)
    return form_page(
        request, "plots/site_walk.html", form, garden=garden, plots=plots, set_by_hand=set_by_hand
    )
