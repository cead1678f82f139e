"""A member's own season: whether to keep the plot, what is due, and the agreement."""

from __future__ import annotations

from django.contrib import messages
from django.core.exceptions import ValidationError
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods

from plots import access, queries, service
from plots.forms.turn import AnswerForm
from plots.models import WishChoice
from plots.views.answers import typed


@require_http_methods(["GET", "HEAD", "POST"])
def own_season(request: HttpRequest, slug: str) -> HttpResponse:
    """The questions of the open round about one's own plots; each answered by its own button."""
    garden = access.garden_to_see(request.user, slug)
    round = queries.open_round_of(garden)
    asked = queries.own_questions(round, request.user) if round else []
    answered = _answered(request, round, asked) if request.method == "POST" else None
    if answered is True:
        return redirect("plots:own_season", slug)
    version = queries.agreement_of(garden)
    context = {
        "garden": garden,
        "round": round,
        "asked": [(row, answered if _is_asked(request, row) and answered else _form(row)) for row in asked],
        "version": version,
        "signature": queries.signature_of(version, request.user) if version else None,
        "dues": request.user.dues.filter(garden=garden).select_related("assignment__plot", "season"),
    }
    return render(request, "plots/own_season.html", context, status=422 if answered else 200)


def _is_asked(request: HttpRequest, row: queries.Asked) -> bool:
    return request.POST.get("plot") == str(row.assignment.pk)


def _form(row: queries.Asked) -> AnswerForm:
    initial = {"wish": row.wish, "note": row.renewal.note if row.renewal else ""}
    return AnswerForm(initial=initial, prefix=str(row.assignment.pk))


def _answered(request: HttpRequest, round: object, asked: list[queries.Asked]) -> AnswerForm | bool:
    """`True` when the answer is kept, else the form with what is wrong; 404 for a plot that was not asked."""
    row = next((row for row in asked if _is_asked(request, row)), None)
    if row is None:
        return _nothing_asked(request)
    form = AnswerForm(typed(request), prefix=str(row.assignment.pk))
    if not form.is_valid():
        return form
    answer = {"wish": WishChoice(form.cleaned_data["wish"]), "note": form.cleaned_data["note"]}
    try:
        service.answer_renewal(
            round=round,
            assignment=row.assignment,
            on=row.assignment.plot.garden.today(),
            by=request.user,
            **answer,
        )
    except ValidationError as error:
        form.add_error(None, error)
        return form
    messages.success(request, _("Your answer for plot %(plot)s is kept.") % {"plot": row.assignment.plot})
    return True


def _nothing_asked(request: HttpRequest) -> bool:
    messages.error(request, _("This is not asked, or no longer. Nothing was changed."))
    return True
