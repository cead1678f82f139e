"""Typing logs in from paper, for who writes logs of the whole garden."""

from __future__ import annotations

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import ngettext

from plots.access import garden_to_log
from plots.views.answers import page_with_form, typed
from schedules.forms.paper_lines import PaperForm
from schedules.queries.paper_lines import paper_book, typed_lately
from schedules.service.paper_lines import type_logs


@page_with_form
def type_in(request: HttpRequest, slug: str) -> HttpResponse:
    """Twenty lines at a time; with the button `look` they are only read."""
    garden = garden_to_log(request.user, slug)
    paper, form = paper_book(request.user, garden), PaperForm(typed(request))
    keep, read = "look" not in request.POST, None
    if request.method == "POST" and form.is_valid():
        read = type_logs(
            garden=garden, by=request.user, paper=paper, lines=form.typed, keys=form.keys, keep=keep
        )
        if read.kept:
            words = ngettext("%(n)d log is kept.", "%(n)d logs are kept.", len(read.lines))
            messages.success(request, words % {"n": len(read.lines)})
            return redirect("schedules:type_logs", slug)
        form.tell(read.lines)
    lately = [] if request.method == "POST" else typed_lately(request.user, garden)
    context = {"garden": garden, "form": form, "paper": paper, "lately": lately, "read": read}
    return render(request, "schedules/type_logs.html", context, status=422 if form.wrong else 200)
