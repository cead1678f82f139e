"""Answers that every page gives alike."""

from __future__ import annotations

from django.db import IntegrityError, transaction
from django.forms import BaseForm, BaseModelForm
from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods

page_with_form = require_http_methods(["GET", "HEAD", "POST"])


def form_page(request: HttpRequest, template: str, form: BaseForm, **context: object) -> HttpResponse:
    """The page with its form; a form with mistakes answers 422 and still holds all that was typed."""
    return render(request, template, {"form": form, **context}, status=422 if form.errors else 200)


def typed(request: HttpRequest) -> dict[str, object] | None:
    """What was typed, or `None` for a page opened anew: what a form takes as its data."""
    return request.POST if request.method == "POST" else None


def saved(form: BaseModelForm) -> bool:
    """Saves a valid form, unless somebody took the same name meanwhile; then the form says so."""
    try:
        with transaction.atomic():
            form.save()
    except IntegrityError:
        form.add_error(None, _("Somebody has just taken the same name. Please look again."))
        return False
    return True
