"""Taking people over from a spreadsheet: choose it, match its columns, look at every row, then keep all."""

from __future__ import annotations

from django.contrib import messages
from django.core.exceptions import ValidationError
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext as _
from django.utils.translation import ngettext
from django.views.decorators.http import require_http_methods

from plots import access, service
from plots.forms.roster_import import MatchingForm, RosterFileForm
from plots.models import Garden
from plots.powers import Power
from plots.roster_file import Line, Outcome, Table, TableError, read_people, read_table
from plots.views.answers import form_page
from plots.wording.roster_file import OUTCOME_WORDS, problem_text, table_error_text


@require_http_methods(["GET", "HEAD", "POST"])
def roster_import(request: HttpRequest, slug: str) -> HttpResponse:
    garden = access.garden_to_run(request.user, slug, Power.PEOPLE)
    if "text" in request.POST:
        return _matching(request, garden)
    form = RosterFileForm(request.POST or None, request.FILES or None)
    if form.is_bound and form.is_valid():
        text = form.cleaned_data["text"]
        table = read_table(text)
        return _page(request, garden, MatchingForm(garden, table, initial={"text": text}), table)
    return form_page(request, "plots/roster_import.html", form, garden=garden)


def _matching(request: HttpRequest, garden: Garden) -> HttpResponse:
    """The rows looked at anew; with the button `import`, kept if they are right."""
    try:
        table = read_table(request.POST["text"])
    except TableError as error:
        form = RosterFileForm({"pasted": request.POST["text"]})
        form.add_error("pasted", table_error_text(error.code))
        return form_page(request, "plots/roster_import.html", form, garden=garden)
    form = MatchingForm(garden, table, request.POST)
    if form.is_valid() and "import" in request.POST:
        return _import(request, garden, form, table)
    return _page(request, garden, form, table)


def _import(request: HttpRequest, garden: Garden, form: MatchingForm, table: Table) -> HttpResponse:
    lines = _lines(garden, form, table)
    wrong = any(line.outcome == Outcome.WRONG for line in lines)
    if wrong and not form.cleaned_data["leave_out"]:
        form.add_error(
            "leave_out", _("Put these rows right in the spreadsheet, or tick this. Nothing was kept.")
        )
        return _page(request, garden, form, table)
    season, today = form.cleaned_data["season"], garden.today()
    try:
        made = service.import_people(garden=garden, lines=lines, season=season, today=today, by=request.user)
    except ValidationError as error:
        form.add_error(None, error)
        return _page(request, garden, form, table)
    count = len(made)
    words = ngettext("%(count)d person is a member now.", "%(count)d people are members now.", count)
    messages.success(request, words % {"count": count})
    return redirect("plots:members", garden.slug)


def _lines(garden: Garden, form: MatchingForm, table: Table) -> list[Line]:
    known = service.known_in(garden, season=form.giving_for(), today=garden.today())
    return read_people(table, form.matched(), known)


def _page(request: HttpRequest, garden: Garden, form: MatchingForm, table: Table) -> HttpResponse:
    lines = _lines(garden, form, table)
    rows = [
        {
            "line": line,
            "outcome": OUTCOME_WORDS[line.outcome],
            "problems": [problem_text(problem) for problem in line.problems],
        }
        for line in sorted(lines, key=lambda line: (line.outcome != Outcome.WRONG, line.number))
    ]
    counts = {outcome.value: sum(line.outcome == outcome for line in lines) for outcome in Outcome}
    context = {"garden": garden, "form": form, "rows": rows, "counts": counts}
    status = 422 if form.errors else 200
    return render(request, "plots/roster_matching.html", context, status=status)
