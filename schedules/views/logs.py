"""Logs: writing one down, looking at it, changing it, taking it back and putting it back."""

from __future__ import annotations

from typing import Any
from uuid import UUID, uuid4

from django.contrib import messages
from django.core.exceptions import ValidationError
from django.http import HttpRequest, HttpResponse, JsonResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils.functional import SimpleLazyObject
from django.utils.http import url_has_allowed_host_and_scheme
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST, require_safe

from plots.access import garden_to_see
from plots.forms.photos import ask_for_photos_again
from plots.models import Garden
from plots.queries import changes_of
from plots.views.answers import form_page, page_with_form, typed
from plots.views.to_script import faults_in_json, told_in_json, wants_json
from schedules.access import known_people, log_to_change, log_to_see, may_change_log
from schedules.forms.logs import LogEditForm, LogFields, LogForm
from schedules.models import WorkLog
from schedules.queries.diary import spare_names
from schedules.queries.logs import log_choices
from schedules.service.logs import (
    Kept,
    change_log,
    keep_logs,
    kept_before,
    remove_logs,
    restore_logs,
    sent_with,
)
from schedules.service.photos import keep_log_photos
from schedules.service.usual import as_sent, same_again, usual_amounts, usual_log
from schedules.views.asked import asked_keys
from schedules.wording.logs import kept_text, logs_text


@told_in_json
@page_with_form
def log_new(request: HttpRequest, slug: str) -> HttpResponse:
    """The form of a log, opened with what it most likely says; a phone's script sends here what it kept."""
    garden = garden_to_see(request.user, slug)
    before = _came_before(request)
    if before and wants_json(request):
        return _in_json(before)
    asked = asked_keys(request, "plots", "plot")
    choices = SimpleLazyObject(lambda: log_choices(request.user, garden, chosen=asked))
    initial = {} if request.method == "POST" else _opens_with(request, choices, asked)
    who = {"choices": choices, "garden": garden, "by": request.user}
    form = LogForm(typed(request), request.FILES or None, initial=initial, **who)
    if form.is_bound and form.is_valid() and (kept := _kept(form, garden, before)):
        return _in_json(kept) if wants_json(request) else _back_with_undo(request, kept)
    if form.is_bound and wants_json(request):
        return faults_in_json(form)
    return _log_page(request, form, garden)


def _came_before(request: HttpRequest) -> Kept | None:
    """What came before under the key that is sent."""
    try:
        return kept_before(key=UUID(request.POST.get("key", "")), by=request.user)
    except ValueError:
        return None


def _opens_with(request: HttpRequest, choices: Any, asked: list[int]) -> dict[str, Any]:
    again = asked_keys(request, "again")
    if again:
        return same_again(choices, log_to_see(request.user, choices.garden.slug, again[0]))
    planting, succession = asked_keys(request, "planting"), asked_keys(request, "succession")
    return usual_log(
        choices, work=request.GET.get("work", ""), plots=asked,
        planting=planting[0] if planting else None, succession=succession[0] if succession else None,
    )  # fmt: skip


def _kept(form: LogForm, garden: Garden, before: Kept | None) -> Kept | None:
    """Keeps a valid form's log with its photos; `None` with the refusals on the form."""
    cleaned = form.cleaned_data
    if before and not before.same_as(plots=cleaned["at"], **form.told()):
        # Somebody went back in the browser and changed what was kept already.
        form.data = form.data.copy()
        form.data["key"] = str(uuid4())
        words = _("This was kept before as: %(log)s. Keep it once more for a second log.")
        form.add_error(None, words % {"log": logs_text(before.rows)})
        return None
    try:
        kept = keep_logs(garden=garden, plots=cleaned["at"], by=form.by, key=cleaned["key"], **form.told())
    except ValidationError as refusal:
        _refuse(form, refusal)
        return None
    try:
        keep_log_photos(logs=kept.rows, pictures=cleaned["photos"], by=form.by)
    except ValidationError as refusal:
        form.add_error("photos", refusal)
        return None
    return kept


def _refuse(form: LogFields, refusal: ValidationError) -> None:
    """The service's refusals beside the fields that they are about."""
    told = refusal.message_dict if hasattr(refusal, "error_dict") else {"__all__": refusal.messages}
    for name, sentences in told.items():
        name = "plots" if name == "plot" and "plots" in form.fields else name
        for sentence in sentences:
            form.add_error(name if name in form.fields else None, sentence)


def _in_json(kept: Kept) -> JsonResponse:
    rows = [
        {
            "log": row.pk,
            "key": str(row.key),
            "plot": str(row.plot or ""),
            "undo": reverse("schedules:log_remove", args=[row.garden.slug, row.pk]),
        }
        for row in kept.rows
    ]
    return JsonResponse({"kept": rows, "text": logs_text(kept.rows)}, status=201 if kept.is_new else 200)


def _log_page(request: HttpRequest, form: LogFields, garden: Garden, **context: object) -> HttpResponse:
    ask_for_photos_again(form)
    usual = as_sent(usual_amounts(form.choices))
    return form_page(request, "schedules/log_form.html", form, garden=garden, usual=usual, **context)


def _back_with_undo(request: HttpRequest, kept: Kept) -> HttpResponse:
    first = kept.rows[0]
    undo = reverse("schedules:log_remove", args=[first.garden.slug, first.pk])
    together = "?together=1" if len(kept.rows) > 1 else ""
    messages.success(request, kept_text(kept.rows, first.garden.today()), extra_tags=undo + together)
    return _back(request, first)


def _back(request: HttpRequest, log: WorkLog) -> HttpResponse:
    """Where the person came from; not to the form again."""
    asked = request.POST.get("next", "") or request.headers.get("Referer", "")
    form = reverse("schedules:log_new", args=[log.garden.slug])
    safe = url_has_allowed_host_and_scheme(asked, {request.get_host()}, require_https=request.is_secure())
    if safe and form not in asked:
        return redirect(asked)
    return redirect("schedules:week", log.garden.slug)


@require_safe
def log(request: HttpRequest, slug: str, pk: int) -> HttpResponse:
    """One log: who did and wrote it, what it counts for, its photos and its history."""
    found = log_to_see(request.user, slug, pk)
    known = known_people(request.user, found.garden)
    spare_names(found, known)
    context = {
        "garden": found.garden,
        "log": found,
        "known": known,
        "together": [row for row in sent_with(found) if row.pk != found.pk],
        "photos": found.photos.standing(),
        "changes": changes_of(found.garden, found) if found.named else [],  # they tell who did what
        "may_change": may_change_log(request.user, found),
    }
    return render(request, "schedules/log.html", context)


@page_with_form
def log_edit(request: HttpRequest, slug: str, pk: int) -> HttpResponse:
    found = log_to_change(request.user, slug, pk)
    garden = found.garden
    chosen = [found.plot_id] if found.plot_id else []
    choices = SimpleLazyObject(lambda: log_choices(request.user, garden, chosen=chosen))
    form = LogEditForm(
        typed(request), choices=choices, garden=garden, by=request.user, log=found,
        initial=LogEditForm.initial_of(found),
    )  # fmt: skip
    if form.is_bound and form.is_valid():
        try:
            changed = change_log(log=found, by=request.user, **form.told())
        except ValidationError as refusal:
            _refuse(form, refusal)
        else:
            messages.success(request, kept_text([changed], garden.today()))
            return redirect("schedules:log", slug, pk)
    return _log_page(request, form, garden, log=found)


@told_in_json
@require_POST
def log_remove(request: HttpRequest, slug: str, pk: int) -> HttpResponse:
    """Takes a log back, with `?together=1` all that came with it; a phone may ask twice."""
    found = log_to_change(request.user, slug, pk)
    together = request.GET.get("together") == "1"
    rows = remove_logs(logs=sent_with(found) if together else [found], by=request.user)
    text = _("Taken back: %(log)s") % {"log": logs_text(rows)}
    if wants_json(request):
        return JsonResponse({"text": text})
    undo = reverse("schedules:log_restore", args=[slug, pk]) + ("?together=1" if together else "")
    messages.success(request, text, extra_tags=undo)
    return _back(request, found)


@told_in_json
@require_POST
def log_restore(request: HttpRequest, slug: str, pk: int) -> HttpResponse:
    """Puts back what was taken back, unless something else stands in its way by now."""
    found = log_to_change(request.user, slug, pk)
    together = request.GET.get("together") == "1"
    try:
        rows = restore_logs(logs=sent_with(found) if together else [found], by=request.user)
    except ValidationError as refusal:
        if wants_json(request):
            return faults_in_json(refusal)
        messages.error(request, " ".join(refusal.messages))
        return redirect("schedules:log", slug, pk)
    text = _("Put back: %(log)s") % {"log": logs_text(rows)}
    if wants_json(request):
        return JsonResponse({"text": text})
    messages.success(request, text)
    return _back(request, found)
