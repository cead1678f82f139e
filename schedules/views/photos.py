"""Photos of a log: sent by a phone one by one or by a form at once, shown, worded, taken away."""

from __future__ import annotations

from uuid import UUID

from django.contrib import messages
from django.core.exceptions import ValidationError
from django.http import HttpRequest, HttpResponse, JsonResponse
from django.shortcuts import redirect
from django.urls import reverse
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST, require_safe

from plots.access import garden_to_see
from plots.service.photos import remove_photo, restore_photo
from plots.views.answers import form_page, page_with_form, typed
from plots.views.pictures import picture_answer
from plots.views.to_script import faults_in_json, told_in_json, wants_json
from schedules.access import logs_to_picture, photo_to_change, photo_to_see
from schedules.forms.photos import PhotosForm, PhotoWordsForm, SentPhotoForm
from schedules.models import WorkLog
from schedules.service.photos import PER_LOG, keep_log_photo, keep_log_photos, word_photo


@told_in_json
@page_with_form
def log_photo_add(request: HttpRequest, slug: str, key: UUID) -> HttpResponse:
    """The photos of a log, with a form for more; a phone's script sends one at a time."""
    logs = logs_to_picture(request.user, slug, key)
    if wants_json(request) and request.method == "POST":
        return _sent(request, logs)
    form = PhotosForm(typed(request), request.FILES or None)
    if form.is_bound and form.is_valid():
        told = form.cleaned_data
        try:
            keep_log_photos(logs=logs, pictures=told["photos"], by=request.user, may_show=told["may_show"])
        except ValidationError as error:
            form.add_error("photos", error)
        else:
            messages.success(request, _("Kept."))
            return redirect("schedules:log_photo_add", slug, key)
    context = {"garden": logs[0].garden, "log": logs[0], "logs": logs, "limit": PER_LOG}
    return form_page(request, "schedules/log_photos.html", form, **context, photos=logs[0].photos.standing())


def _sent(request: HttpRequest, logs: list[WorkLog]) -> HttpResponse:
    form = SentPhotoForm(request.POST, request.FILES)
    if not form.is_valid():
        return faults_in_json(form)
    told = form.cleaned_data
    try:
        photo, is_new = keep_log_photo(
            logs=logs,
            picture=told["photo"],
            by=request.user,
            key=told["photo_key"],
            may_show=told["may_show"],
        )
    except ValidationError as error:
        return faults_in_json(error)
    return JsonResponse({"photo": str(photo.key), "text": _("Photo kept")}, status=201 if is_new else 200)


@require_safe
def log_photo(request: HttpRequest, slug: str, key: UUID, size: str) -> HttpResponse:
    garden = garden_to_see(request.user, slug)
    return picture_answer(request, photo_to_see(request.user, garden, key), size)


@page_with_form
def log_photo_edit(request: HttpRequest, slug: str, key: UUID) -> HttpResponse:
    """The words of a photo, and whether the garden may show it."""
    garden = garden_to_see(request.user, slug)
    photo = photo_to_change(request.user, garden, key)
    form = PhotoWordsForm(typed(request), instance=photo, by=request.user)
    if form.is_bound and form.is_valid():
        word_photo(photo=photo)
        messages.success(request, _("Kept."))
        return redirect("schedules:log_photo_add", slug, photo.log.key)
    return form_page(request, "schedules/log_photo_edit.html", form, garden=garden, photo=photo)


@require_POST
def log_photo_remove(request: HttpRequest, slug: str, key: UUID) -> HttpResponse:
    garden = garden_to_see(request.user, slug)
    photo = photo_to_change(request.user, garden, key)
    remove_photo(photo=photo, by=request.user)
    undo = reverse("schedules:log_photo_restore", args=[slug, key])
    messages.success(request, _("The photo is taken away."), extra_tags=undo)
    return redirect("schedules:log_photo_add", slug, photo.log.key)


@require_POST
def log_photo_restore(request: HttpRequest, slug: str, key: UUID) -> HttpResponse:
    garden = garden_to_see(request.user, slug)
    photo = photo_to_change(request.user, garden, key)
    restore_photo(photo=photo)
    messages.success(request, _("The photo is back."))
    return redirect("schedules:log_photo_add", slug, photo.log.key)
