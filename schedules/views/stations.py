"""The garden and its stations: how it differs, what they disagree on, and by which years to plan."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from functools import partial

from django.contrib import messages
from django.core.exceptions import ValidationError
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST

from plots.access import garden_to_run, garden_to_see, may_run
from plots.models import Garden
from plots.powers import Power
from plots.views.answers import form_page, page_with_form, typed
from schedules import service
from schedules.forms.climate import OffsetForm
from schedules.forms.readings import SharesForm
from schedules.models import GardenClimate
from schedules.models.climate import MOST_OFFSET_C
from schedules.risk import CHART_YEAR
from schedules.seasons import Side, from_day_number
from schedules.service.stations import PERCENTS, Compared, compared, plan_by_years, trends, weigh_stations
from schedules.views.shifts import Shown, kept_or_shown
from schedules.wording import offset as words
from schedules.wording.trend import distance_text, trend_text


@page_with_form
def offset(request: HttpRequest, slug: str) -> HttpResponse:
    """What readings tell of how much colder or warmer the garden is, to be accepted, or typed instead."""
    garden = garden_to_run(request.user, slug, Power.SETTINGS)
    chosen = service.chosen_climate(garden)
    form = OffsetForm(typed(request), garden=garden, offset_c=chosen.offset_c if chosen else 0.0)
    preview = None
    if form.is_bound and form.is_valid():
        if form.has_changed():  # a learned difference that is sent back stays a learned one
            told = {"garden": garden, "offset_c": form.offset_c(), "by": request.user}
            preview = kept_or_shown(request, garden, partial(service.set_offset, **told))
        if preview is None:
            messages.success(request, _("The difference is kept; it counts before every frost date."))
            return redirect("schedules:frost", slug)
    context = {"chosen": chosen, "preview": preview, **_learned(garden, chosen)}
    return form_page(request, "schedules/frost_offset.html", form, garden=garden, **context)


def _learned(garden: Garden, chosen: GardenClimate | None) -> dict[str, object]:
    learned = service.learned_offset(garden, chosen)
    if learned is None:
        return {}
    estimate = learned.estimate
    return {
        "learned": learned,
        "estimate": estimate,
        "estimate_text": estimate and words.estimate_text(estimate, garden.units),
        "progress": words.progress_text(learned),
        "doubts": words.doubts_of(learned, garden.units),
        "flawed": [(night.day, words.flaw_text(night, garden.units)) for night in learned.flawed],
    }


@require_POST
def offset_accept(request: HttpRequest, slug: str) -> HttpResponse:
    """Take the learned difference into every date, if it is still the one that was looked at."""
    garden = garden_to_run(request.user, slug, Power.SETTINGS)
    learned = service.learned_offset(garden, service.chosen_climate(garden))
    estimate = learned and learned.estimate
    if not estimate or request.POST.get("offset_c") != str(estimate.offset_c):
        messages.error(request, _("The readings have changed meanwhile. Look again before you accept."))
        return redirect("schedules:frost_offset", slug)
    if abs(estimate.offset_c) > MOST_OFFSET_C:
        messages.error(request, _("No garden differs that much: the readings or the station are other ones."))
        return redirect("schedules:frost_offset", slug)
    accept = partial(service.accept_offset, garden=garden, estimate=estimate, by=request.user)
    preview = kept_or_shown(request, garden, accept)
    if preview is not None:
        words_of_it = words.estimate_text(estimate, garden.units)
        return preview.page(request, garden, _("The garden's difference: %(it)s") % {"it": words_of_it})
    messages.success(request, _("The difference is kept; it counts before every frost date."))
    return redirect("schedules:frost", slug)


@page_with_form
def stations(request: HttpRequest, slug: str) -> HttpResponse:
    """The stations side by side; whoever runs the garden weighs them."""
    garden = garden_to_see(request.user, slug)
    runs = may_run(request.user, garden, Power.SETTINGS)
    if request.method == "POST":
        garden_to_run(request.user, slug, Power.SETTINGS)
    chosen = service.chosen_climate(garden)
    rows = compared(garden, chosen)
    form = SharesForm(typed(request), stations=rows, weighted=bool(chosen and chosen.weighted))
    preview = None
    if form.is_bound and form.is_valid():
        preview = _weighed(request, garden, form)
        if preview is None and not form.errors:
            return redirect("schedules:stations", slug)
    shown = [StationLine(row, garden.units) for row in rows]
    context = {"rows": shown, "chosen": chosen, "may_run": runs, "preview": preview}
    texts = [trend_text(one) for one in trends(garden, chosen)]
    return form_page(request, "schedules/stations.html", form, garden=garden, trends=texts, **context)


def _weighed(request: HttpRequest, garden: Garden, form: SharesForm) -> Shown | None:
    """What weighing them moves, until that is accepted; what cannot be stands on the form."""
    told = {"garden": garden, "shares": form.shares(), "by": request.user}
    before = service.chosen_climate(garden)
    try:
        preview = kept_or_shown(request, garden, partial(weigh_stations, **told))
    except ValidationError as refusal:
        form.add_error(None, refusal)
        return None
    if preview is None:
        messages.success(request, _("The garden plans by these stations together now."))
        tell_learned_gone(request, garden, before)
    return preview


def tell_learned_gone(request: HttpRequest, garden: Garden, before: GardenClimate | None) -> None:
    """Says so where another station took a learned difference with it."""
    now = service.chosen_climate(garden)
    if before is not None and before.offset_nights is not None and now and now.offset_nights is None:
        messages.warning(
            request,
            _(
                "The difference learned beside the former station counts no more. Look under “The garden and "
                "its station” at what the readings tell beside this one."
            ),
        )


@dataclass(frozen=True)
class StationLine:
    """A station as a line of the table."""

    row: Compared
    units: str

    @property
    def away(self) -> str:
        """How far it is, if both places are known."""
        return "" if self.row.distance_km is None else distance_text(self.row.distance_km, self.units)

    @property
    def nights(self) -> str:
        """How much colder its nights are than the first station's."""
        found = self.row.difference
        return "" if found is None else words.difference_text(found.tmin_c, self.units)

    @property
    def dates(self) -> list[tuple[str, date | None]]:
        """The freeze days, each with what it is."""
        labels = [_("Last freeze"), _("rarely after"), _("First freeze"), _("rarely before")]
        numbers = [self.row.dates[side, percent] for side in Side for percent in PERCENTS]
        days = [None if number is None else from_day_number(number, CHART_YEAR) for number in numbers]
        return list(zip(labels, days, strict=True))


@require_POST
def years_choose(request: HttpRequest, slug: str) -> HttpResponse:
    """Plan by the last fifteen years, or by all."""
    garden = garden_to_run(request.user, slug, Power.SETTINGS)
    recent = request.POST.get("years") == "recent"
    if service.chosen_climate(garden) is not None:
        told = {"garden": garden, "recent_only": recent, "by": request.user}
        preview = kept_or_shown(request, garden, partial(plan_by_years, **told))
        if preview is not None:
            what = _("Plan by the last fifteen years") if recent else _("Plan by all years")
            return preview.page(request, garden, what)
        text = _("The garden plans by the last fifteen years now.") if recent else _("All years count now.")
        messages.success(request, text)
    return redirect("schedules:stations", slug)
