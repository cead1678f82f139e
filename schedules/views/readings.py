"""The garden's own thermometers: typing what they show, and reading a logger's file."""

from __future__ import annotations

from django.contrib import messages
from django.core.exceptions import PermissionDenied
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect
from django.utils.translation import gettext as _
from django.utils.translation import ngettext
from django.views.decorators.http import require_POST

from plots.access import garden_to_run, garden_to_see, may_run
from plots.powers import Power
from plots.views.answers import form_page, page_with_form, typed
from schedules.forms.readings import LoggerForm, ReadingForm
from schedules.service.readings import Imported, import_readings, keep_reading, remove_reading
from schedules.stations.loggers import LoggerFile
from schedules.wording.stations import finding_sentence

_SHOWN = 31
_UNUSED_SHOWN = 3


@page_with_form
def readings(request: HttpRequest, slug: str) -> HttpResponse:
    """Type what the thermometers show, and see what they showed."""
    garden = garden_to_see(request.user, slug)
    form = ReadingForm(typed(request), garden=garden)
    if form.is_bound and form.is_valid():
        keep_reading(garden=garden, by=request.user, **form.cleaned_data)
        messages.success(request, _("Kept. Thank you for looking."))
        return redirect("schedules:readings", slug)
    rows = garden.readings.select_related("made_by")[:_SHOWN]
    may_settle = may_run(request.user, garden, Power.SETTINGS)
    return form_page(
        request, "schedules/readings.html", form, garden=garden, readings=rows, may_settle=may_settle
    )


@require_POST
def reading_remove(request: HttpRequest, slug: str, pk: int) -> HttpResponse:
    """Takes a reading off the list: one's own, or anybody's for those trusted with settings."""
    garden = garden_to_see(request.user, slug)
    reading = get_object_or_404(garden.readings, pk=pk)
    if reading.made_by_id != request.user.pk and not may_run(request.user, garden, Power.SETTINGS):
        raise PermissionDenied(_("Whoever read the thermometer may take the reading off the list."))
    remove_reading(reading=reading, by=request.user)
    messages.success(request, _("The reading is off the list."))
    return redirect("schedules:readings", slug)


@page_with_form
def readings_import(request: HttpRequest, slug: str) -> HttpResponse:
    """Read a logger's file into days."""
    garden = garden_to_run(request.user, slug, Power.SETTINGS)
    form = LoggerForm(typed(request), request.FILES or None, garden=garden)
    if form.is_bound and form.is_valid() and form.logger is not None:
        done = import_readings(garden=garden, days=form.logger.days, by=request.user)
        messages.success(request, _imported_text(done, form.logger))
        return redirect("schedules:readings", slug)
    return form_page(request, "schedules/readings_import.html", form, garden=garden)


def _imported_text(done: Imported, logger: LoggerFile) -> str:
    parts = [
        ngettext("%(count)s day is new or changed.", "%(count)s days are new or changed.", done.new)
        % {"count": done.new}
    ]
    if done.unchanged:
        text = ngettext("%(count)s was there already.", "%(count)s were there already.", done.unchanged)
        parts.append(text % {"count": done.unchanged})
    if done.typed:
        text = ngettext(
            "%(count)s typed by hand stays as it was.",
            "%(count)s typed by hand stay as they were.",
            done.typed,
        )
        parts.append(text % {"count": done.typed})
    if logger.incomplete:
        text = ngettext(
            "%(count)s has a gap of more than three hours and is left out.",
            "%(count)s have a gap of more than three hours and are left out.",
            logger.incomplete,
        )
        parts.append(text % {"count": logger.incomplete})
    if logger.unlikely:
        text = ngettext(
            "%(count)s cannot be right and is left out: the lowest lies above the highest, or out of reach.",
            "%(count)s cannot be right and are left out: the lowest lies above the highest, or out of reach.",
            logger.unlikely,
        )
        parts.append(text % {"count": logger.unlikely})
    return " ".join([*parts, *_unused_texts(logger)])


def _unused_texts(logger: LoggerFile) -> list[str]:
    """How many lines could not be used, and the first of them."""
    count = logger.findings.unused_count
    if not count:
        return []
    text = ngettext("%(count)s line could not be used.", "%(count)s lines could not be used.", count)
    return [text % {"count": count}, *map(finding_sentence, logger.findings.unused[:_UNUSED_SHOWN])]
