"""The list of plots; those who look after all of them see when each was last worked."""

from __future__ import annotations

from datetime import date

from django.http import HttpRequest, HttpResponse
from django.utils.translation import gettext as _
from django.views.decorators.http import require_safe

from plots import access, queries
from plots.listing import Column, Filter, Listing
from plots.models import Garden, Plot
from plots.powers import Power
from plots.views.answers import list_page
from plots.views.ground_lists import plots_list
from schedules.service.care import care_of
from schedules.views.care_lists import quiet_choices
from schedules.wording.care import worked_text


@require_safe
def plots(request: HttpRequest, slug: str) -> HttpResponse:
    garden = access.garden_to_see(request.user, slug)
    today = garden.today()
    rows = queries.plots_with_holders(access.visible_plots(request.user, garden), today=today)
    powers = access.powers_in(request.user, garden)
    oversees = access.oversees(request.user, garden)
    context = {
        "garden": garden,
        "plots": rows,
        "may_run": Power.PLOTS in powers,
        "oversees": oversees,
        "cares": Power.CARE in powers,
    }
    listing = _with_work(garden, rows, today, cares=context["cares"]) if oversees else plots_list(garden)
    return list_page(request, "schedules/plots.html", listing, rows, **context)


def _with_work(garden: Garden, plots: list[Plot], today: date, *, cares: bool) -> Listing[Plot]:
    """The list with the latest work of each plot; for those trusted with care also who is quiet long."""
    known = care_of(garden, plots, today)
    for plot in plots:
        plot.worked, plot.attended = known[plot.pk]
    worked = Column[Plot](
        "worked",
        _("Last worked"),
        lambda plot: worked_text(plot.worked, plot.attended),
        order=lambda plot: plot.attended.ago,
    )
    day = Column[Plot](
        "worked_on", _("Last worked on"), lambda plot: plot.worked and plot.worked.day, on_page=False
    )
    quiet = Filter[Plot]("logs", _("Logs"), quiet_choices(garden), lambda plot, _word: plot.attended.asks)
    return plots_list(garden, [worked, day], [quiet] if cares else [])
