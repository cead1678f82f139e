"""Frost tonight: the forecast's low, what it endangers, and the notice about it."""

from __future__ import annotations

from django.contrib import messages
from django.core.exceptions import ValidationError
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.urls import reverse
from django.utils.translation import gettext as _
from django.utils.translation import ngettext
from django.views.decorators.http import require_POST, require_safe

from crops.models import Planting
from plots.access import garden_to_run, garden_to_see, may_run, plots_to_log, visible_plots
from plots.models import Garden
from plots.powers import Power
from plots.views.answers import form_page, page_with_form, typed
from schedules.forms.losses import LossForm
from schedules.forms.tonight import TonightForm
from schedules.service.tonight import draft_notice, growing_now, keep_losses
from schedules.service.tonight import tonight as weighed
from schedules.tonight import AtRisk
from schedules.wording import tonight as words


@require_safe
def tonight(request: HttpRequest, slug: str) -> HttpResponse:
    """What a low, asked for in the address, endangers at the plots that one sees."""
    garden = garden_to_see(request.user, slug)
    form = TonightForm(request.GET if "low" in request.GET else None, garden=garden)
    context: dict[str, object] = {"garden": garden, "cover": words.cover_source_text(garden)}
    if form.is_bound and form.is_valid():
        plots = visible_plots(request.user, garden).filter(retired_on__isnull=True)
        night = weighed(garden, plots, form.cleaned_data["low"])
        context |= {
            "night": night,
            "lede": words.lede_text(night, garden.units),
            "plots": [(plot, [_told(row, garden.units) for row in plot.rows]) for plot in night.plots],
            "may_write": may_run(request.user, garden, Power.NOTICES),
        }
    return form_page(request, "schedules/tonight.html", form, **context)


@page_with_form
def losses(request: HttpRequest, slug: str) -> HttpResponse:
    """After the night: whatever was lost at the plots one logs at, written down at once."""
    garden = garden_to_see(request.user, slug)
    growing = growing_now(garden, plots_to_log(request.user, garden).distinct())
    form = LossForm(typed(request), garden=garden, growing=growing)
    if form.is_bound and form.is_valid() and _losses_kept(request, garden, form):
        return redirect("schedules:week", slug)
    return form_page(request, "schedules/losses.html", form, garden=garden, growing=growing)


def _losses_kept(request: HttpRequest, garden: Garden, form: LossForm) -> bool:
    told = form.cleaned_data
    plantings = Planting.objects.filter(pk__in=told["plantings"]).select_related("plot", "crop")
    kept = {"plantings": plantings, "day": told["day"], "key": told["key"]}
    try:
        rows = keep_losses(garden=garden, by=request.user, **kept)
    except ValidationError as refusal:
        for name, sentences in refusal.message_dict.items():
            form.add_error(name if name == "day" else "plantings", sentences)
        return False
    text = ngettext(
        "%(count)s planting is written down as lost to frost.",
        "%(count)s plantings are written down as lost to frost.",
        len(rows),
    )
    messages.success(request, text % {"count": len(rows)})
    return True


def _told(row: AtRisk, units: str) -> tuple[AtRisk, str, str]:
    return row, words.danger_text(row, units), words.remedy_text(row)


@require_POST
def tonight_notice(request: HttpRequest, slug: str) -> HttpResponse:
    """Drafts the notice; whoever is trusted with notices reads it over and gives it out."""
    garden = garden_to_run(request.user, slug, Power.NOTICES)
    form = TonightForm(request.POST, garden=garden)
    if not form.is_valid():
        return form_page(
            request, "schedules/tonight.html", form, garden=garden, cover=words.cover_source_text(garden)
        )
    night = weighed(garden, garden.plots.filter(retired_on__isnull=True), form.cleaned_data["low"])
    subject, body = words.notice_draft(night, garden)
    told = {"garden": garden, "plots": night.plot_keys, "subject": subject, "body": body}
    try:
        notice = draft_notice(by=request.user, **told)
    except ValidationError as refusal:
        messages.error(request, " ".join(refusal.messages))
        return redirect(f"{reverse('schedules:frost_tonight', args=[slug])}?low={request.POST['low']}")
    messages.success(request, _("Read it over. Nobody has it before you give it out."))
    return redirect("plots:notice_edit", slug, notice.pk)
