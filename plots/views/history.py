"""What was changed in the garden, and taking it back."""

from __future__ import annotations

from functools import partial
from operator import itemgetter

from django.contrib import messages
from django.core.exceptions import ValidationError
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect
from django.utils.http import url_has_allowed_host_and_scheme
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST, require_safe

from plots import access, queries, service
from plots.listing import Column, Filter, Listing
from plots.models import Change
from plots.service.undo import UNDO
from plots.views.answers import list_page
from plots.views.keeping import kept_or_shown
from plots.wording.history import Told, what_text

# Changes that other apps rest dates on.
_MOVING = frozenset({"settings-changed"})


@require_safe
def history(request: HttpRequest, slug: str) -> HttpResponse:
    """All changes of one year, `?year=`, for coordinators: private matters are among them."""
    garden = access.garden_to_run(request.user, slug)
    years = queries.years_of_changes(garden) or [garden.today().year]
    asked = request.GET.get("year", "")
    year = next((year for year in years if str(year) == asked), years[0])
    changes = queries.changes_in(garden, year)
    return list_page(
        request, "plots/history.html", _listing(changes), changes, garden=garden, year=year, years=years
    )


def _listing(changes: list[Change]) -> Listing[Change]:
    codes = {change.what: what_text(change.what) for change in changes}
    kinds = sorted(codes.items(), key=itemgetter(1))
    people = [(name, name) for name in sorted({change.by_name for change in changes if change.by_name})]
    return Listing(
        columns=[
            Column("about", _("About"), lambda change: change.about_name),
            Column("what", _("What"), lambda change: what_text(change.what)),
            Column("at", _("When"), lambda change: change.told.moment, on_page=False),
            Column("by", _("By"), lambda change: change.told.by, on_page=False),
            Column("before", _("Before"), lambda change: _values(change.told, "before"), on_page=False),
            Column("after", _("After"), lambda change: _values(change.told, "after"), on_page=False),
            Column("why", _("Why"), lambda change: change.why, on_page=False),
        ],
        filters=[
            Filter("kind", _("What"), kinds, lambda change, word: change.what == word),
            Filter("person", _("By"), people, lambda change, word: change.by_name == word),
        ],
        text=lambda one: f"{one.about_name} {one.why} {one.before} {one.after}",
    )


def _values(told: Told, when: str) -> str:
    said = [(line.label, getattr(line, when)) for line in told.lines]
    return "; ".join(f"{label}: {value}" for label, value in said if value)


@require_POST
def change_undo(request: HttpRequest, slug: str, pk: int) -> HttpResponse:
    """Takes one change back, for whoever may make it."""
    garden = access.garden_to_see(request.user, slug)
    if not access.powers_in(request.user, garden):
        access.garden_to_run(request.user, slug)  # refuses
    change = get_object_or_404(garden.changes, pk=pk)
    if change.what not in UNDO:
        raise Http404
    access.garden_to_run(request.user, slug, UNDO[change.what].power)
    back = partial(service.undo, change=change, by=request.user)
    try:
        preview = kept_or_shown(request, garden, back) if change.what in _MOVING else back()
    except ValidationError as error:
        messages.error(request, error.messages[0])
    else:
        if preview is not None:
            return preview.page(request, garden, _("Taken back: %(what)s") % {"what": what_text(change.what)})
        messages.success(request, _("It is as it was before."))
    wanted = request.POST.get("next", "")
    safe = url_has_allowed_host_and_scheme(wanted, {request.get_host()}, require_https=request.is_secure())
    return redirect(wanted if safe else "plots:history", *([] if safe else [slug]))
