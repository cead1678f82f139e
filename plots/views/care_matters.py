"""Private matters: the list, one of them with what is next, and its steps."""

from __future__ import annotations

from datetime import timedelta

from django.contrib import messages
from django.core.exceptions import ValidationError
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST, require_safe

from plots import access, queries, service
from plots.forms.care import PauseForm, StepForm
from plots.listing import Column, Filter, Listing
from plots.models import Finding, Garden, Matter, MatterStep, StepKind
from plots.powers import Power
from plots.queries import MatterRow
from plots.service import post
from plots.views.answers import chosen, form_page, list_page, page_with_form, typed
from plots.wording.care import ASKED, asked_text, decision_draft, notice_draft, reason_text


def _listing() -> Listing[MatterRow]:
    states = [("open", _("open")), ("ripe", _("waiting for a person")), ("closed", _("closed"))]
    return Listing(
        columns=[
            Column("plot", _("Plot"), lambda row: row.assignment.plot.label),
            Column("holder", _("Held by"), lambda row: row.assignment.holder.name),
            Column("opened", _("Opened on"), lambda row: row.matter.opened_on),
            Column("next", _("Next"), lambda row: asked_text(row.proposal) or reason_text(row.proposal)),
            Column("from", _("From"), lambda row: row.proposal.from_on),
            Column("closed", _("Closed on"), lambda row: row.matter.closed_on, on_page=False),
            Column("outcome", _("Outcome"), lambda row: row.matter.get_outcome_display(), on_page=False),
        ],
        filters=[Filter("state", _("State"), states, _is)],
        text=lambda row: f"{row.assignment.plot.label} {row.assignment.holder.name}",
        page_size=50,
    )


def _is(row: MatterRow, state: str) -> bool:
    if state == "ripe":
        return row.is_ripe
    return (row.matter.closed_on is None) == (state == "open")


@require_safe
def matters(request: HttpRequest, slug: str) -> HttpResponse:
    garden = access.garden_to_run(request.user, slug, Power.CARE)
    rows = queries.matters_of(garden, today=garden.today())
    held = queries.held_personal(garden, garden.today())
    return list_page(request, "plots/matters.html", _listing(), rows, garden=garden, held=held)


@require_POST
def matter_new(request: HttpRequest, slug: str) -> HttpResponse:
    """Opens a matter with the people of a plot, from a finding or because somebody came to talk."""
    garden = access.garden_to_run(request.user, slug, Power.CARE)
    today = garden.today()
    held = chosen(queries.held_personal(garden, today), request.POST.get("assignment", ""))
    if held is None:
        messages.error(request, _("Choose a plot that somebody holds."))
        return redirect("plots:matters", slug)
    found = chosen(Finding.objects.filter(plot=held.plot), request.POST.get("finding", ""))
    made = service.open_matter(assignment=held, finding=found, on=today, by=request.user)
    return redirect("plots:matter", slug, made.pk)


@require_safe
def matter(request: HttpRequest, slug: str, pk: int) -> HttpResponse:
    garden = access.garden_to_run(request.user, slug, Power.CARE)
    found = _matter(garden, pk)
    row = queries.matter_row(found, queries.care_rules(garden.rules), today=garden.today())
    context = {
        "garden": garden,
        "matter": found,
        "row": row,
        "steps": found.steps.select_related("made_by", "taken_back_by"),
        "last": row.steps[-1] if row.steps else None,
        "asked": asked_text(row.proposal),
        "reason": reason_text(row.proposal),
        "kinds": [(str(kind), words) for kind, words in ASKED.items() if kind != row.proposal.step],
        "pause_form": PauseForm(),
        "may_run": True,
    }
    return render(request, "plots/matter.html", context)


@page_with_form
def matter_step(request: HttpRequest, slug: str, pk: int, kind: str) -> HttpResponse:
    """One step, taken by whoever presses the button; a notice begins with a draft."""
    garden = access.garden_to_run(request.user, slug, Power.CARE)
    found = _matter(garden, pk)
    if kind not in StepKind.values:
        raise Http404
    step = MatterStep(matter=found, kind=kind, day=garden.today())
    may_send = post.can_send() and bool(found.assignment.holder.email)
    form = StepForm(
        garden, kind, typed(request), instance=step, may_send=may_send, initial=_draft(garden, found, kind)
    )
    if form.is_bound and form.is_valid() and _taken(request, form, found):
        return redirect("plots:matter", slug, pk)
    words = ASKED[StepKind(kind).value]
    return form_page(request, "plots/matter_step.html", form, garden=garden, matter=found, asked=words)


def _taken(request: HttpRequest, form: StepForm, matter: Matter) -> bool:
    """Keeps the step, then sends it if that was asked; a letter that could not go out is said."""
    try:
        step = service.take_step(
            step=form.save(commit=False), by=request.user, outcome=form.cleaned_data.get("outcome")
        )
    except ValidationError as error:
        form.add_error(None, error)
        return False
    messages.success(request, _("The step is kept."))
    if form.cleaned_data.get("send"):
        holder, garden = matter.assignment.holder, matter.assignment.plot.garden
        if not post.send(to=holder.email, subject=garden.name, body=step.text):
            said = _("The email could not be sent. Hand the letter over yourself, or take the step back.")
            messages.error(request, said)
    return True


def _draft(garden: Garden, matter: Matter, kind: str) -> dict[str, object]:
    today, rules = garden.today(), garden.rules
    if kind == StepKind.NOTICE:
        until = today + timedelta(days=rules.cure_days)
        return {"due_on": until, "text": notice_draft(garden, matter, until=until).body}
    if kind == StepKind.DECISION:
        until = today + timedelta(days=rules.appeal_days)
        return {"due_on": until, "text": decision_draft(garden, matter, until=until).body}
    return {}


@require_POST
def matter_step_back(request: HttpRequest, slug: str, pk: int, step_pk: int) -> HttpResponse:
    garden = access.garden_to_run(request.user, slug, Power.CARE)
    step = get_object_or_404(_matter(garden, pk).steps, pk=step_pk)
    try:
        service.take_step_back(step=step, by=request.user)
    except ValidationError as error:
        messages.error(request, error.messages[0])
    else:
        messages.success(request, _("The step is taken back; it stays readable."))
    return redirect("plots:matter", slug, pk)


def _matter(garden: Garden, pk: int) -> Matter:
    rows = Matter.objects.filter(assignment__plot__garden=garden).select_related(
        "assignment__plot__garden__rules", "assignment__holder", "finding__round", "opened_by"
    )
    return get_object_or_404(rows, pk=pk)
