"""Stakes: what their codes open, and printing them; and sheets to write logs on by hand."""

from __future__ import annotations

from django.contrib.auth.decorators import login_not_required
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils.translation import gettext as _
from django.views.decorators.cache import never_cache
from django.views.decorators.http import require_safe

from plots import access, queries, service
from plots.models import Garden, Plot
from plots.powers import Power
from plots.views.answers import form_page
from schedules.forms.stakes import StakesForm
from schedules.queries.logs import plots_together
from schedules.reports.label_sheets import pages_of
from schedules.service.stakes import log_key, log_sheets, stakes_on_paper
from schedules.views.asked import asked_keys
from schedules.views.paper import head_of, paper


@login_not_required
@never_cache
@require_safe
def at_plot(request: HttpRequest, code: str) -> HttpResponse:
    """What a stake's code opens: the plot's log for who may write it, to others its public line alone."""
    plot = queries.plot_of_stake(code)
    if not service.may_guess(request=request, right=plot is not None):
        return render(request, "schedules/at_plot_later.html", status=429)
    if plot is None:
        raise Http404
    garden = plot.garden
    if access.plots_to_log(request.user, garden).filter(pk=plot.pk).exists():
        return redirect(f"{reverse('schedules:log_new', args=[garden.slug])}?plots={plot.pk}")
    is_member = access.role_in(request.user, garden) is not None
    context = {"plot": plot, "at_garden": garden, **({"garden": garden} if is_member else {})}
    return render(request, "schedules/at_plot.html", context)


def _asked(request: HttpRequest, slug: str) -> tuple[Garden, StakesForm]:
    """What is to be printed; the form is bound once something was asked for."""
    garden = access.garden_to_run(request.user, slug, Power.PLOTS)
    plots = queries.plots_in_walk_order(queries.gardened_plots(garden), garden)
    together = plots_together(garden, plots)
    data = request.GET if "what" in request.GET else None
    asked = asked_keys(request, "plots")
    whole = together[-1:] if not asked else []
    first = {
        "rows": [one.value for one in whole],
        "plots": asked or ([] if whole else [plot.pk for plot in plots]),
    }
    return garden, StakesForm(data, plots=plots, together=together, paper=garden.paper, initial=first)


@require_safe
def stakes(request: HttpRequest, slug: str) -> HttpResponse:
    """Chooses plots and paper, and says what will come out before it is printed."""
    garden, form = _asked(request, slug)
    context: dict[str, object] = {"garden": garden}
    if form.is_bound and form.is_valid():
        labels, count = form.labels, len(form.chosen)
        context |= {
            "count": count,
            "labels": labels,
            "pages": pages_of(count, labels, first=form.begins_at) if labels else count,
            "pdf": f"{reverse('schedules:stakes_pdf', args=[slug])}?{request.GET.urlencode()}",
        }
    return form_page(request, "schedules/stakes.html", form, **context)


@require_safe
def stakes_pdf(request: HttpRequest, slug: str) -> HttpResponse:
    """What the page of stakes has chosen, on paper; asked wrongly, it is that page."""
    garden, form = _asked(request, slug)
    if not form.is_bound or not form.is_valid():
        return form_page(request, "schedules/stakes.html", form, garden=garden)
    labels, asked = form.labels, form.cleaned_data
    if labels is None:
        return _log_sheets(garden, form.chosen, large=form.in_large_print)
    content = stakes_on_paper(
        garden, form.chosen, labels,
        first=form.begins_at, backs=asked["backs"], outlines=asked["outlines"],
    )  # fmt: skip
    return paper(content, f"stakes-{slug}")


@require_safe
def log_sheet_pdf(request: HttpRequest, slug: str, pk: int) -> HttpResponse:
    """A blank sheet for one plot, with `?large=1` in large print, for who may write its logs."""
    garden = access.garden_to_see(request.user, slug)
    plot = access.plot_to_log(request.user, garden, pk)
    return _log_sheets(garden, [plot], large=request.GET.get("large") == "1")


def _log_sheets(garden: Garden, plots: list[Plot], *, large: bool) -> HttpResponse:
    from schedules.reports.log_sheet import log_sheets_pdf  # lazy: reportlab

    head = head_of(garden, _("Log sheets"), note=_("Fill it in and hand it to who types logs in."))
    made = log_sheets_pdf(head, log_sheets(garden, plots), log_key(garden), large=large)
    return paper(made, f"log-sheets-{plots[0]}" if len(plots) == 1 else f"log-sheets-{garden.slug}")
