"""What a change would move, shown before it is kept; and what people were told before changes that were."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, render
from django.utils.translation import gettext_lazy as _
from django.views.decorators.http import require_safe

from plots.access import garden_to_see, visible_plots
from plots.listing import Column, Listing
from plots.models import Garden
from plots.views.answers import list_page
from plots.views.keeping import Keep, shows_first
from plots.wording.history import tell
from schedules.models import DatesMoved
from schedules.queries.shifts import dates_moved as moved_of
from schedules.queries.shifts import rows_of
from schedules.service.shifts import keep_moving, moved_by
from schedules.shifts import Shift, fingerprint, summed
from schedules.wording.shifts import row_text, summary_text

SEEN = "seen"
_ASKED_AGAIN = frozenset({SEEN, "csrfmiddlewaretoken"})


@dataclass(frozen=True)
class Shown:
    """What somebody is to look at; pressing again, with `seen`, accepts just this."""

    template: ClassVar[str] = "schedules/_shifts.html"

    rows: tuple[Shift, ...]
    text: str
    seen: str
    year: int  # dates of this year leave it out
    changed: bool  # something was accepted, but by now it would move other dates

    def page(self, request: HttpRequest, garden: Garden, what: str) -> HttpResponse:
        """For a button that has no form of its own: `what` it does and moves, and the button once more."""
        sent = [(name, value) for name, value in request.POST.items() if name not in _ASKED_AGAIN]
        context = {"garden": garden, "preview": self, "sent": sent, "what": what}
        return render(request, "schedules/shifts_accept.html", context)


@shows_first
def kept_or_shown(request: HttpRequest, garden: Garden, keep: Keep) -> Shown | None:
    """Keeps a change if it moves no dates, or if what it moves was seen; else gives what is to be shown."""
    moved = moved_by(garden, keep)
    seen, asked = fingerprint(moved), request.POST.get(SEEN, "")
    if moved and asked != seen:
        return Shown(moved, summary_text(summed(moved)), seen, garden.today().year, changed=bool(asked))
    keep_moving(garden=garden, change=keep, moved=moved, by=request.user)
    return None


_MOVED: Listing[DatesMoved] = Listing(
    columns=[
        Column("at", _("When"), lambda one: one.told.moment),
        Column("what", _("What"), lambda one: one.told.what),
        Column("about", _("About"), lambda one: one.told.about),
        Column("by", _("By"), lambda one: one.told.by),
        Column("count", _("Dates"), lambda one: one.count),
    ],
    text=lambda one: f"{one.told.what} {one.told.about} {one.told.by}",
    page_size=50,
)


@require_safe
def dates_before(request: HttpRequest, slug: str) -> HttpResponse:
    """The changes that moved dates of the plots that one sees."""
    garden = garden_to_see(request.user, slug)
    rows = list(moved_of(garden, visible_plots(request.user, garden)))
    for row in rows:
        row.change.garden = garden
        row.told = tell(row.change)
    return list_page(request, "schedules/dates_before.html", _MOVED, rows, garden=garden)


@require_safe
def dates_moved(request: HttpRequest, slug: str, pk: int) -> HttpResponse:
    """One change: who made it, and every date before and after."""
    garden = garden_to_see(request.user, slug)
    plots = visible_plots(request.user, garden)
    found = get_object_or_404(moved_of(garden, plots), pk=pk)
    found.change.garden = garden
    rows = rows_of(found, plots)
    year = garden.today().year
    told = {"change": tell(found.change), "text": summary_text(summed(rows)), "year": year}
    return list_page(request, "schedules/dates_moved.html", _rows(year), rows, garden=garden, **told)


def _rows(year: int) -> Listing[Shift]:
    return Listing(
        columns=[
            Column("planting", _("Planting"), lambda row: row_text(row, year)),
            Column("plot", _("Plot"), lambda row: row.plot_label),
            Column("before", _("Before"), lambda row: row.before and row.before[0]),
            Column(
                "before_until", _("Before, until"), lambda row: row.before and row.before[2], on_page=False
            ),
            Column("after", _("After"), lambda row: row.after and row.after[0]),
            Column("after_until", _("After, until"), lambda row: row.after and row.after[2], on_page=False),
            Column("shift", _("Shift"), lambda row: row.days),
        ],
        text=lambda row: f"{row_text(row, year)} {row.plot_label}",
        page_size=50,
    )
