"""What was printed before: the list, everyone's sheets in the making, the file, and throwing it away."""

from __future__ import annotations

from collections.abc import Iterable
from functools import cache
from uuid import UUID

from django.contrib import messages
from django.http import FileResponse, Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy
from django.views.decorators.cache import never_cache
from django.views.decorators.http import require_POST, require_safe

from plots import access
from plots.htmx import part_or_page
from plots.listing import Column, Filter, Listing
from plots.models import Garden, User
from plots.views.answers import list_page
from schedules.access import printing_to_see, printings_to_see
from schedules.forms.print_choices import PLOTS
from schedules.forms.print_table import PrintForm
from schedules.models import Printing
from schedules.service.print_table import keeping
from schedules.service.print_table.kinds import KINDS, kinds_for
from schedules.views.paper import file_name


def kind_name(row: Printing) -> str:
    kind = KINDS.get(row.kind)
    return str(kind.name) if kind else row.kind


def _listing(rows: list[Printing]) -> Listing[Printing]:
    kinds = sorted({(row.kind, kind_name(row)) for row in rows}, key=lambda one: one[1])
    people = sorted({(str(row.made_by_id), str(row.made_by)) for row in rows if row.made_by})
    return Listing(
        columns=[
            Column("title", gettext_lazy("Sheet"), lambda row: row.title),
            Column("kind", gettext_lazy("What it is"), kind_name),
            Column("made", gettext_lazy("Printed"), lambda row: row.made_at),
            Column("by", gettext_lazy("By"), lambda row: str(row.made_by or "")),
            Column("size", gettext_lazy("Size"), lambda row: row.size),
        ],
        filters=[
            Filter("kind", gettext_lazy("What it is"), kinds, lambda row, word: row.kind == word),
            Filter("by", gettext_lazy("By"), people, lambda row, word: str(row.made_by_id) == word),
        ],
        text=lambda row: f"{row.title} {kind_name(row)}",
        page_size=50,
    )


def _printing(request: HttpRequest, slug: str, key: UUID) -> Printing:
    """A kept sheet that the visitor may see, and that they might still print."""
    row = printing_to_see(request.user, slug, key)
    if not _still_open([row], request.user, row.garden):
        raise Http404
    return row


def _still_open(rows: Iterable[Printing], user: User, garden: Garden) -> list[Printing]:
    """Those of kinds that the person may still print, and for whom these are; who may is asked once."""
    known = {kind.code for kind in kinds_for(user, garden)}
    may_others = cache(lambda rule: rule is None or rule(user, garden))
    return [
        row
        for row in rows
        if (kind := KINDS.get(row.kind)) is None
        or (kind.code in known and (not _is_of_others(row, user) or may_others(kind.others)))
    ]


def _is_of_others(row: Printing, user: User) -> bool:
    return row.asked.get("member", []) not in ([], [PLOTS], [str(user.pk)])


@require_safe
def printed(request: HttpRequest, slug: str) -> HttpResponse:
    """Kept sheets, latest first."""
    garden = access.garden_to_see(request.user, slug)
    kept = printings_to_see(request.user, garden).select_related("made_by")
    rows = _still_open(kept, request.user, garden)
    for row in rows:
        row.kind_name = kind_name(row)
    context = {
        "every": access.may_run(request.user, garden),
        "never": [kind.name for kind in KINDS.values() if not kind.kept],
        "size": sum(row.size for row in rows),
    }
    return list_page(request, "schedules/printed.html", _listing(rows), rows, garden=garden, **context)


@never_cache
@require_safe
def printing(request: HttpRequest, slug: str, key: UUID) -> HttpResponse:
    """One kept sheet, or how far everyone's are."""
    return _page(request, _printing(request, slug, key))


def _page(request: HttpRequest, row: Printing, *, no_room: bool = False) -> HttpResponse:
    context = {
        "no_room": no_room,
        "garden": row.garden,
        "printing": row,
        "kind_name": kind_name(row),
        "done": row.members_made(),
        "of": len(row.members),
        "kind": KINDS.get(row.kind),
        "again": PrintForm.address_of(row.asked),
    }
    return part_or_page(request, "schedules/_printing.html", "schedules/printing.html", context)


@never_cache
@require_POST
def printing_next(request: HttpRequest, slug: str, key: UUID) -> HttpResponse:
    """Makes the next members' sheets; the page asks for it again until all are made."""
    row = _printing(request, slug, key)
    kind = KINDS.get(row.kind)
    if kind is None:
        raise Http404
    day = row.made_at.astimezone(row.garden.zone).date()
    form = PrintForm.again(row.asked, kind=kind, garden=row.garden, user=request.user, today=day)
    if form.is_valid():
        try:
            keeping.next_step(printing=row, kind=kind, asked=form.asked())
        except Printing.DoesNotExist:
            raise Http404 from None
        except keeping.NoRoomError:
            return _page(request, row, no_room=True)
    else:
        messages.error(request, _("Something it was to be made from is no longer there. Please begin anew."))
        return redirect("schedules:print_kind", slug, kind.code)
    return _page(request, row) if request.htmx else redirect("schedules:printing", slug, key)  # type: ignore[attr-defined]


@require_safe
def printing_pdf(request: HttpRequest, slug: str, key: UUID) -> HttpResponse:
    """The file, just as it was given out."""
    row = _printing(request, slug, key)
    if not row.is_ready:
        raise Http404
    try:
        file = row.file.open("rb")
    except FileNotFoundError:
        raise Http404 from None
    kind = KINDS.get(row.kind)
    name = file_name(
        garden=row.garden.slug,
        kind=kind_name(row),
        asks=kind.asks if kind else (),
        title=row.title,
        asked=row.asked,
        on=row.made_at.astimezone(row.garden.zone).date(),
    )
    headers = {
        "Cache-Control": "private, no-store",
        "X-Content-Type-Options": "nosniff",
    }
    return FileResponse(file, filename=f"{name}.pdf", content_type="application/pdf", headers=headers)


@require_POST
def printing_remove(request: HttpRequest, slug: str, key: UUID) -> HttpResponse:
    """Throws a kept sheet away."""
    row = _printing(request, slug, key)
    keeping.throw_away(printing=row)
    messages.success(request, _("“%(title)s” is thrown away.") % {"title": row.title})
    return redirect("schedules:printed", slug)
