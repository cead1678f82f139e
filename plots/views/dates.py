"""The garden's dates: a year on one page, those written down by hand, and the public feed."""

from __future__ import annotations

import hashlib
from datetime import date, timedelta

from django.conf import settings
from django.contrib import messages
from django.contrib.auth.decorators import login_not_required
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect
from django.urls import reverse
from django.utils import translation
from django.utils.cache import get_conditional_response
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy, ngettext
from django.views.decorators.http import require_POST, require_safe

from plots import access, queries, service
from plots.dates import Certainty, GardenDay, ahead
from plots.feeds import dates_calendar
from plots.forms.dates import GardenDateForm
from plots.listing import Column, Filter, Listing
from plots.models import Garden, GardenDate
from plots.powers import Power
from plots.views.answers import form_page, list_page, page_with_form, saved, typed
from plots.wording.dates import CERTAINTIES, GROUPS, group_of

SOON = 14  # days: "due this fortnight"
FEED_BEHIND, FEED_AHEAD = timedelta(days=120), timedelta(days=550)

LISTING: Listing[GardenDay] = Listing(
    columns=[
        Column("day", gettext_lazy("Day"), lambda one: one.day),
        Column("last_day", gettext_lazy("Last day"), lambda one: one.last_day, on_page=False),
        Column("from", gettext_lazy("From"), lambda one: _clock(one.starts_at), on_page=False),
        Column("until", gettext_lazy("Until"), lambda one: _clock(one.ends_at), on_page=False),
        Column("title", gettext_lazy("What"), lambda one: one.title),
        Column("place", gettext_lazy("Place"), lambda one: one.place, on_page=False),
        Column("certainty", gettext_lazy("How sure"), lambda one: str(CERTAINTIES[one.certainty])),
        Column("note", gettext_lazy("Note"), lambda one: one.note, on_page=False),
    ],
    filters=[
        Filter("kind", gettext_lazy("Kind"), list(GROUPS.items()), lambda one, word: group_of(one) == word)
    ],
    text=lambda one: f"{one.title} {one.place} {one.note}",
)


def _clock(value: object) -> str:
    return f"{value:%H:%M}" if value else ""


@require_safe
def dates(request: HttpRequest, slug: str) -> HttpResponse:
    """The dates of one year, `?year=`, and what is due within a fortnight."""
    garden = access.garden_to_see(request.user, slug)
    today = garden.today()
    year = asked_year(request, garden)
    days = queries.dates_of(garden, date(year, 1, 1), date(year, 12, 31))
    soon = queries.dates_of(garden, today, today + timedelta(days=SOON))
    context = {
        "year": year,
        "today": today,
        "soon": [one for one in ahead(soon, today, SOON) if one.certainty is not Certainty.OFF],
        "may_run": access.may_run(request.user, garden, Power.WORKDAYS),
        "feed": settings.SITE.origin + reverse("plots:dates_ics", args=[slug]),
        "last_years": garden.dates.filter(day__year=year - 1, removed_at=None).count(),
    }
    context["webcal"] = "webcal://" + context["feed"].split("://", 1)[1]
    return list_page(request, "plots/dates.html", LISTING, days, garden=garden, **context)


def asked_year(request: HttpRequest, garden: Garden) -> int:
    """The year in the address, else the present one at the garden."""
    asked = request.GET.get("year", "")
    is_year = asked.isascii() and asked.isdecimal() and 2000 <= int(asked[:5]) <= 2200
    return int(asked) if is_year else garden.today().year


@page_with_form
def date_new(request: HttpRequest, slug: str) -> HttpResponse:
    garden = access.garden_to_run(request.user, slug, Power.WORKDAYS)
    return _date_form(request, garden, GardenDate(garden=garden))


@page_with_form
def date_edit(request: HttpRequest, slug: str, pk: int) -> HttpResponse:
    garden = access.garden_to_run(request.user, slug, Power.WORKDAYS)
    row = get_object_or_404(garden.dates, pk=pk, removed_at=None)
    if row.kept_by is not None:
        words = _("“%(date)s” follows what is planned here. Change its day here, and the calendar follows.")
        messages.info(request, words % {"date": row})
        return redirect(row.kept_by)
    return _date_form(request, garden, row)


def _date_form(request: HttpRequest, garden: Garden, row: GardenDate) -> HttpResponse:
    form = GardenDateForm(typed(request), instance=row)
    if form.is_bound and form.is_valid() and saved(form, lambda: service.keep_date(row=row, by=request.user)):
        messages.success(request, _("The date is kept."))
        if "another" in request.POST:
            return redirect("plots:date_new", garden.slug)
        return redirect(f"{reverse('plots:dates', args=[garden.slug])}?year={row.day.year}")
    changes = queries.changes_of(garden, row) if row.pk else []
    context = {"garden": garden, "row": row, "changes": changes, "may_run": True}
    return form_page(request, "plots/date_edit.html", form, **context)


def _written_by_hand(garden: Garden, pk: int) -> GardenDate:
    """A date, taken away or not, that nothing else keeps."""
    row = get_object_or_404(garden.dates, pk=pk)
    if row.kept_by is not None:
        raise Http404
    return row


@require_POST
def date_remove(request: HttpRequest, slug: str, pk: int) -> HttpResponse:
    garden = access.garden_to_run(request.user, slug, Power.WORKDAYS)
    row = _written_by_hand(garden, pk)
    service.remove_date(row=row, by=request.user)
    undo = reverse("plots:date_restore", args=[slug, pk])
    messages.success(request, _("“%(date)s” is off the calendar.") % {"date": row}, extra_tags=undo)
    return redirect("plots:dates", slug)


@require_POST
def date_restore(request: HttpRequest, slug: str, pk: int) -> HttpResponse:
    garden = access.garden_to_run(request.user, slug, Power.WORKDAYS)
    row = _written_by_hand(garden, pk)
    service.restore_date(row=row, by=request.user)
    messages.success(request, _("“%(date)s” is back on the calendar.") % {"date": row})
    return redirect("plots:dates", slug)


@require_POST
def dates_copy(request: HttpRequest, slug: str, year: int) -> HttpResponse:
    """Takes over the dates of the year before."""
    garden = access.garden_to_run(request.user, slug, Power.WORKDAYS)
    made = service.copy_year(garden=garden, to_year=year, by=request.user)
    words = ngettext(
        "%(count)d date was taken over. Look whether its day is right.",
        "%(count)d dates were taken over. Look whether their days are right.",
        len(made),
    )
    messages.success(request, words % {"count": len(made)})
    return redirect(f"{reverse('plots:dates', args=[slug])}?year={year}")


@login_not_required
@require_safe
def dates_ics(request: HttpRequest, slug: str) -> HttpResponse:
    """What anybody's calendar reads, where the garden lets it: dates, and no names."""
    garden = get_object_or_404(Garden.objects.select_related("rules"), slug=slug)
    if not garden.rules.dates_public:
        raise Http404
    today = garden.today()
    with translation.override(garden.language or settings.LANGUAGE_CODE):
        days = queries.dates_of(garden, today - FEED_BEHIND, today + FEED_AHEAD, public=True)
        body = dates_calendar(garden, days, rules_changed_at=queries.rules_changed_at(garden))
    response = HttpResponse(body, content_type="text/calendar; charset=utf-8")
    response["ETag"] = f'"{hashlib.sha256(body).hexdigest()[:32]}"'
    response["Cache-Control"] = "public, max-age=3600"
    return get_conditional_response(request, etag=response["ETag"], response=response)
