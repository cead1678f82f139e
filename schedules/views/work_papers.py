"""The sign-in sheet of a workday and the garden's dates, on paper."""

from __future__ import annotations

from datetime import date

from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404
from django.utils.formats import date_format, time_format
from django.utils.translation import gettext as _
from django.views.decorators.http import require_safe

from plots import access, queries
from plots.dates import Certainty, GardenDay
from plots.models import Workday, WorkTask
from plots.powers import Power
from plots.wording.dates import CERTAINTIES
from schedules.views.asked import asked_year
from schedules.views.paper import head_of, paper

# What one page holds beside the tasks, and how many lines there are for others at least.
LINES, EMPTY_LINES = 17, 8


@require_safe
def sign_in_sheet_pdf(request: HttpRequest, slug: str, pk: int) -> HttpResponse:
    """For the clip-board: it names people, so it is for who runs workdays."""
    from schedules.reports.sign_in_sheet import SignInLine, SignInSheet, sign_in_sheet_pdf  # lazy: reportlab

    garden = access.garden_to_run(request.user, slug, Power.WORKDAYS)
    workday = get_object_or_404(garden.workdays, pk=pk)
    tasks = [_task(task) for task in queries.tasks_of(workday)]
    lines = [SignInLine(row.person.name, row.task) for row in queries.sheet_rows(workday)]
    made = SignInSheet(
        head=head_of(garden, workday.name, subtitle=_when(workday)),
        tasks=tasks,
        note=workday.note,
        lines=lines,
        empty_lines=max(EMPTY_LINES, LINES - len(lines) - len(tasks) // 2),
    )
    return paper(sign_in_sheet_pdf(made), f"{workday.name}-{workday.on}")


def _when(workday: Workday) -> str:
    words = {
        "day": date_format(workday.on, "l, N j, Y"),
        "from": time_format(workday.starts_at),
        "until": time_format(workday.ends_at),
    }
    text = _("%(day)s, %(from)s to %(until)s.") % words
    if workday.held == "day" and workday.rain_day:
        text += " " + _("Rain date: %(day)s.") % {"day": date_format(workday.rain_day)}
    if workday.place:
        text += " " + _("People meet: %(place)s.") % {"place": workday.place}
    return text


def _task(task: WorkTask) -> tuple[str, str, str]:
    return task.name, task.place, str(task.places or _("as many as come"))


@require_safe
def dates_pdf(request: HttpRequest, slug: str) -> HttpResponse:
    """The dates of `?year=` for the gate; it names nobody, and whatever is not for everybody is left out."""
    from schedules.reports.dates_sheet import DateLine, dates_sheet_pdf  # lazy: reportlab

    garden = access.garden_to_see(request.user, slug)
    year = asked_year(request, garden.today().year)
    days = queries.dates_of(garden, date(year, 1, 1), date(year, 12, 31), public=True)
    lines = [
        DateLine(date_format(one.day, "F"), _day(one), _what(one))
        for one in days
        if one.certainty is not Certainty.OFF
    ]
    title = _("Dates of %(year)d") % {"year": year}
    head = head_of(garden, title, subtitle=garden.place)
    return paper(dates_sheet_pdf(head, lines), f"{garden.slug}-dates-{year}", private=False)


def _day(one: GardenDay) -> str:
    text = date_format(one.day, "D j")
    if one.last_day is not None:
        text += f" – {date_format(one.last_day, 'D j F' if one.last_day.month != one.day.month else 'D j')}"
    if one.starts_at is not None:
        text += f", {time_format(one.starts_at)}"
    return f"{text}–{time_format(one.ends_at)}" if one.ends_at is not None else text


def _what(one: GardenDay) -> str:
    sure = "" if one.certainty is Certainty.FIRM else str(CERTAINTIES[one.certainty])
    return ". ".join(part.rstrip(".") for part in (one.title, sure, one.place, one.note) if part)
