"""Answers that every page gives alike."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from typing import TypeVar

from django.db import IntegrityError, transaction
from django.db.models import Model, QuerySet
from django.forms import BaseForm, BaseModelForm
from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.utils import timezone
from django.utils.text import slugify
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods

from plots.csv_out import csv_text
from plots.listing import Listing

page_with_form = require_http_methods(["GET", "HEAD", "POST"])

Row = TypeVar("Row")
Chosen = TypeVar("Chosen", bound=Model)


def form_page(request: HttpRequest, template: str, form: BaseForm, **context: object) -> HttpResponse:
    """The page with its form; a form with mistakes answers 422 and still holds all that was typed."""
    return render(request, template, {"form": form, **context}, status=422 if form.errors else 200)


def typed(request: HttpRequest) -> dict[str, object] | None:
    """What was typed, or `None` for a page opened anew: what a form takes as its data."""
    return request.POST if request.method == "POST" else None


def saved(form: BaseModelForm, keep: Callable[[], object] | None = None) -> bool:
    """Saves a valid form, unless somebody took the same name meanwhile; then the form says so.

    `keep` does the saving where a service does more than that.
    """
    try:
        with transaction.atomic():
            (keep or form.save)()
    except IntegrityError:
        form.add_error(None, _("Somebody has just taken the same name. Please look again."))
        return False
    return True


def chosen(rows: QuerySet[Chosen], number: str) -> Chosen | None:
    """The row that a button or an address names by its key; `None` where the key is none of these."""
    return rows.filter(pk=number).first() if number.isdecimal() and len(number) < 18 else None


def list_page(
    request: HttpRequest,
    template: str,
    listing: Listing[Row],
    rows: Iterable[Row],
    *,
    dress: Callable[[Sequence[Row]], object] | None = None,
    **context: object,
) -> HttpResponse:
    """The list as its address asks for it: `shown` on the page, or with `as=csv` all of it as a file.

    `dress` gets what only the rows of this one page need, such as their photos. Days in it are those of the
    garden's clock.
    """
    with timezone.override(getattr(context.get("garden"), "zone", None)):
        return _list_page(request, template, listing, rows, dress, context)


def _list_page(
    request: HttpRequest,
    template: str,
    listing: Listing[Row],
    rows: Iterable[Row],
    dress: Callable[[Sequence[Row]], object] | None,
    context: Mapping[str, object],
) -> HttpResponse:
    shown = listing.show(rows, request.GET)
    if request.GET.get("as") == "csv":
        name = slugify(str(context.get("garden", ""))) or "trugbook"
        return csv_answer(
            f"{name}-{template.rpartition('/')[2].removesuffix('.html')}", *listing.table(shown)
        )
    if dress is not None:
        dress(shown.rows)
    return render(request, template, {"shown": shown, **context})


def csv_answer(name: str, titles: Sequence[str], rows: Iterable[Sequence[object]]) -> HttpResponse:
    """A table to save, as `name`.csv."""
    return HttpResponse(
        csv_text(titles, rows),
        content_type="text/csv; charset=utf-8",
        headers={"Content-Disposition": f'attachment; filename="{name}.csv"'},
    )
