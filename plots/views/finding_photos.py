"""Photos of care rounds: handed out, taken away, put back; only for those trusted with care."""

from __future__ import annotations

from uuid import UUID

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect
from django.urls import reverse
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST, require_safe

from plots import access
from plots.models import FindingPhoto
from plots.powers import Power
from plots.service.photos import remove_photo, restore_photo
from plots.views.pictures import picture_answer


def _photo(request: HttpRequest, slug: str, key: UUID, *, standing: bool = False) -> FindingPhoto:
    garden = access.garden_to_run(request.user, slug, Power.CARE)
    rows = FindingPhoto.objects.filter(finding__plot__garden=garden).select_related("finding")
    return get_object_or_404(rows.standing() if standing else rows, key=key)


@require_safe
def finding_photo(request: HttpRequest, slug: str, key: UUID, size: str) -> HttpResponse:
    return picture_answer(request, _photo(request, slug, key, standing=True), size)


@require_POST
def finding_photo_remove(request: HttpRequest, slug: str, key: UUID) -> HttpResponse:
    photo = _photo(request, slug, key)
    remove_photo(photo=photo, by=request.user)
    undo = reverse("plots:finding_photo_restore", args=[slug, key])
    messages.success(request, _("The photo is taken away."), extra_tags=undo)
    return _back(slug, photo)


@require_POST
def finding_photo_restore(request: HttpRequest, slug: str, key: UUID) -> HttpResponse:
    photo = _photo(request, slug, key)
    restore_photo(photo=photo)
    messages.success(request, _("The photo is back."))
    return _back(slug, photo)


def _back(slug: str, photo: FindingPhoto) -> HttpResponse:
    return redirect("plots:care_stop", slug, photo.finding.round_id, photo.finding.plot_id)
