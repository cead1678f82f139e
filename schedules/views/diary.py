"""The diary of a plot, and of all plots that somebody sees: what was logged, latest first."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from django.http import HttpRequest, HttpResponse
from django.utils.translation import gettext as _
from django.views.decorators.http import require_safe

from plots.access import garden_to_see, plot_to_see
from plots.listing import Column, Filter, Listing
from plots.models import Garden, Plot
from plots.spelling import name_key, natural_key
from plots.views.answers import list_page
from schedules.access import known_people, logs_to_read
from schedules.models import WorkLog
from schedules.months import month_start
from schedules.queries.diary import diary_of, with_photos
from schedules.views.log_years import log_year
from schedules.wording.figures import month_text, who_text
from schedules.wording.logs import grown_text, work_word
from schedules.wording.pests import beside_text
from schedules.work import Work

_PAGE = 50


@require_safe
def diary(request: HttpRequest, slug: str) -> HttpResponse:
    """What was done at the plots that the person sees, and what they did elsewhere."""
    garden = garden_to_see(request.user, slug)
    return _diary(request, garden, None)


@require_safe
def plot_diary(request: HttpRequest, slug: str, pk: int) -> HttpResponse:
    """What was done at one plot, whoever held it."""
    garden = garden_to_see(request.user, slug)
    return _diary(request, garden, plot_to_see(request.user, garden, pk))


def _diary(request: HttpRequest, garden: Garden, plot: Plot | None) -> HttpResponse:
    readable = logs_to_read(request.user, garden)
    if plot is not None:
        readable = readable.filter(plot=plot)
    year = log_year(request, garden, readable)
    logs = diary_of(readable.filter(day__range=year.span), known_people(request.user, garden))
    listing = diary_list(logs, one_plot=plot is not None)
    context = {"garden": garden, "plot": plot, "year": year}
    return list_page(request, "schedules/diary.html", listing, logs, dress=with_photos, **context)


def diary_list(logs: Sequence[WorkLog], *, one_plot: bool) -> Listing[WorkLog]:
    """The diary; its filters offer what stands in `logs`."""
    where = [] if one_plot else [Column[WorkLog]("plot", _("Plot"), _plot)]
    return Listing(
        columns=[
            Column("day", _("Day"), lambda log: log.day),
            *where,
            Column("work", _("Work"), lambda log: work_word(log.work)),
            Column("crop", _("Crop"), grown_text),
            Column("by", _("Done by"), who_text),
            *_figures(),
            Column("given", _("Given away"), lambda log: log.given_away, on_page=False),
            Column("to", _("To whom"), lambda log: log.given_to, on_page=False),
            Column("beside", _("Seen or used"), beside_text, on_page=False),
            Column("note", _("Note"), lambda log: log.note, on_page=False),
        ],
        filters=_filters(logs, one_plot=one_plot),
        text=_all_words,
        page_size=_PAGE,
    )


def _figures() -> list[Column[WorkLog]]:
    return [
        Column("sowing", _("Sowing"), lambda log: log.succession, on_page=False),
        Column("amount", _("Amount"), lambda log: log.amount, on_page=False),
        Column("unit", _("Unit"), lambda log: log.unit, on_page=False),
        Column("litres", _("Litres"), lambda log: _rounded(log.litres), on_page=False),
        Column("grams", _("Grams"), lambda log: _rounded(log.grams), on_page=False),
        Column("pieces", _("Pieces"), lambda log: log.pieces, on_page=False),
        Column("minutes", _("Minutes of work"), lambda log: log.minutes, on_page=False),
    ]


def _filters(logs: Sequence[WorkLog], *, one_plot: bool) -> list[Filter[WorkLog]]:
    done = {log.work for log in logs}
    works = [(work.value, work_word(work)) for work in Work if work in done]
    kinds = {"photos": _("with photos"), "note": _("with a note"), "given": _("given away")}
    own = {
        "photos": lambda log: log.pictured,
        "note": lambda log: log.note,
        "given": lambda log: log.given_away,
    }
    months = sorted({month_start(log.day) for log in logs})
    found = [
        Filter[WorkLog]("work", _("Work"), works, lambda log, word: log.work == word),
        _one_of(logs, "crop", _("Crop"), grown_text),
        _one_of(logs, "by", _("Done by"), who_text),
        Filter[WorkLog](
            "month",
            _("Month"),
            [(first.isoformat()[:7], month_text(first)) for first in months],
            lambda log, word: log.day.isoformat()[:7] == word,
        ),
        Filter[WorkLog]("with", _("Only"), list(kinds.items()), lambda log, word: bool(own[word](log))),
    ]
    return found if one_plot else [_one_of(logs, "plot", _("Plot"), _plot), *found]


def _one_of(
    logs: Sequence[WorkLog], key: str, title: str, value: Callable[[WorkLog], str]
) -> Filter[WorkLog]:
    """A choice between the names that stand in the diary."""
    names = sorted({value(log) for log in logs} - {""}, key=lambda name: natural_key(name_key(name)))
    return Filter(key, title, [(name, name) for name in names], lambda log, word: value(log) == word)


def _all_words(log: WorkLog) -> str:
    """What a search looks through."""
    told = (_plot(log), work_word(log.work), grown_text(log), who_text(log), beside_text(log), log.note)
    return " ".join(told)


def _plot(log: WorkLog) -> str:
    return log.plot.label if log.plot else ""


def _rounded(value: float | None) -> float | None:
    return None if value is None else round(value, 2)
