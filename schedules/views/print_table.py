"""The print table: what there is to print, choosing and looking at a sheet, and its files."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import groupby

from django.contrib import messages
from django.core.exceptions import PermissionDenied
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils.functional import Promise
from django.utils.http import content_disposition_header
from django.utils.translation import gettext as _
from django.utils.translation import override
from django.views.decorators.http import require_http_methods, require_safe

from plots import access
from plots.htmx import part_or_page
from plots.models import Garden
from schedules.access import printings_to_see
from schedules.feeds import feed_calendar
from schedules.forms.print_table import PrintForm
from schedules.reports.sheet_csv import to_csv
from schedules.service import chosen_climate
from schedules.service.print_table import keeping
from schedules.service.print_table.kinds import KINDS, kinds_for
from schedules.service.print_table.table import Asked, Group, Kind, Made, Words
from schedules.views.paper import file_name, paper
from schedules.wording.print_table import GROUPS

SHOWN = 3  # sheets of a preview
FILES = ("pdf", "csv", "ics")


@dataclass(frozen=True)
class _Shown:
    """Kinds under their heading; what is said of all of them alike is said once, as `about`."""

    code: str
    name: Promise
    kinds: list[Kind]
    about: Words = ""

    @classmethod
    def of(cls, group: Group, kinds: list[Kind]) -> _Shown:
        said = {str(kind.about) for kind in kinds}
        return cls(group.value, GROUPS[group], kinds, said.pop() if len(said) == 1 and len(kinds) > 1 else "")


@require_safe
def table(request: HttpRequest, slug: str) -> HttpResponse:
    """Everything that the visitor may print, by what it is for."""
    garden = access.garden_to_see(request.user, slug)
    order = list(Group)
    kinds = sorted(kinds_for(request.user, garden), key=lambda kind: order.index(kind.group))
    groups = [_Shown.of(group, list(found)) for group, found in groupby(kinds, key=lambda kind: kind.group)]
    context = {"garden": garden, "groups": groups, "kept": printings_to_see(request.user, garden).count()}
    return render(request, "schedules/print_table.html", context)


def kind_to_print(request: HttpRequest, slug: str, code: str) -> tuple[Garden, Kind]:
    """The garden and a kind of sheet, for who may print it there."""
    garden = access.garden_to_see(request.user, slug)
    kind = KINDS.get(code)
    if kind is None:
        raise Http404
    if not kind.may(request.user, garden):
        raise PermissionDenied(_("“%(sheet)s” is printed by who is trusted with it.") % {"sheet": kind.name})
    return garden, kind


def _form(request: HttpRequest, garden: Garden, kind: Kind) -> PrintForm:
    data = request.POST if request.method == "POST" else request.GET
    return PrintForm(data, kind=kind, garden=garden, user=request.user)


@require_http_methods(["GET", "HEAD", "POST"])
def print_kind(request: HttpRequest, slug: str, code: str) -> HttpResponse:
    """Chooses and shows a sheet; sent, it is printed, and kept where its kind is."""
    garden, kind = kind_to_print(request, slug, code)
    form = _form(request, garden, kind)
    valid = form.is_valid()
    if request.method == "POST" and valid and not form.unfinished:
        return _printed(request, garden, kind, form)
    context: dict[str, object] = {
        "garden": garden,
        "kind": kind,
        "form": form,
        "earlier": _earlier(request, garden, kind),
    }
    if valid and not form.unfinished and not kind.changes:
        context |= _shown(form)
    elif form.wants_more:
        form.errors.clear()
        context["nothing"] = True
    page = part_or_page(request, "schedules/_print_kind.html", "schedules/print_kind.html", context)
    page.status_code = 422 if form.errors else 200
    if kind.private:
        page["Cache-Control"] = "private, no-store"
    return page


def _earlier(request: HttpRequest, garden: Garden, kind: Kind) -> int:
    return printings_to_see(request.user, garden).filter(kind=kind.code).count() if kind.kept else 0


def _shown(form: PrintForm) -> dict[str, object]:
    """What the preview needs: the first sheets, how many there are, and the ways to have it as a file."""
    asked = form.asked()
    members = []
    if form.for_everyone:
        members = form.receivers
        asked = form.asked_for(members[0])
    sheet = keeping.made(form.kind, asked)
    document = sheet.document
    return {
        "document": document,
        "most": SHOWN,
        "sheets": document.sheets,
        "members": members,
        "sample": members[0] if members else None,
        "has_table": bool(document.tables),
        "has_entries": bool(sheet.entries),
        "query": form.query,
    }


def _printed(request: HttpRequest, garden: Garden, kind: Kind, form: PrintForm) -> HttpResponse:
    if form.for_everyone:
        begun = keeping.begin_everyone(
            kind=kind, garden=garden, members=form.receivers, by=request.user, filled_in=form.kept
        )
        return redirect("schedules:printing", garden.slug, begun.key)
    if not kind.kept:
        return _file(kind, form, "pdf")
    try:
        kept = keeping.keep(kind=kind, asked=form.asked(), by=request.user, filled_in=form.kept)
    except keeping.NoRoomError:
        messages.warning(request, _("The server has no room left, so what you printed is not kept here."))
        return _file(kind, form, "pdf")
    return redirect("schedules:printing_pdf", garden.slug, kept.key)


@require_safe
def print_file(request: HttpRequest, slug: str, code: str, form: str) -> HttpResponse:
    """The sheet that the address fills in, at once as a file; nothing of it is kept."""
    garden, kind = kind_to_print(request, slug, code)
    if form not in FILES:
        raise Http404
    chosen = _form(request, garden, kind)
    if kind.changes or not chosen.is_valid() or chosen.unfinished or chosen.for_everyone:
        address = request.GET.urlencode()
        return redirect(f"{kind_address(garden, kind)}?{address}" if address else kind_address(garden, kind))
    return _file(kind, chosen, form)


def kind_address(garden: Garden, kind: Kind) -> str:
    return reverse("schedules:print_kind", args=[garden.slug, kind.code])


def _file(kind: Kind, form: PrintForm, ending: str) -> HttpResponse:
    asked = form.asked()
    sheet = keeping.made(kind, asked)
    name = file_name(
        garden=form.garden.slug,
        kind=str(kind.name),
        asks=kind.asks,
        title=sheet.document.head.title,
        asked=form.kept,
        on=form.today,
    )
    if ending == "pdf":
        return paper(keeping.pdf_of(sheet, both_sides=asked.both_sides), name)
    response = _csv(sheet) if ending == "csv" else _ics(form.garden, asked, sheet)
    response["Content-Disposition"] = content_disposition_header(True, f"{name}.{ending}")
    response["Cache-Control"] = "private, no-store"
    return response


def _csv(sheet: Made) -> HttpResponse:
    if not sheet.document.tables:
        raise Http404
    return HttpResponse(to_csv(sheet.document), content_type="text/csv; charset=utf-8")


def _ics(garden: Garden, asked: Asked, sheet: Made) -> HttpResponse:
    """The rows of a calendar; what tells when they last changed is the same as in a member's feed."""
    if not sheet.entries:
        raise Http404
    chosen = chosen_climate(garden)
    newest = max(entry.changed_at for entry in sheet.entries)
    with override(asked.language):
        body = feed_calendar(garden, sheet.entries, dates_changed_at=chosen.changed_at if chosen else newest)
    return HttpResponse(body, content_type="text/calendar; charset=utf-8")
