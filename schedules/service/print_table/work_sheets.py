"""Sheets for work, dates and the gate: sign-in sheets, the year's dates, notices, care rounds, letters."""

from __future__ import annotations

from datetime import date

from django.utils.formats import date_format, time_format
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from plots import queries
from plots.access import own_plots
from plots.care import rubric_lines
from plots.dates import Certainty, GardenDay
from plots.models import Workday, WorkTask
from plots.powers import Power
from plots.service import post
from plots.wording.dates import told
from schedules.reports.document import Page
from schedules.service.calendar import GardenDates
from schedules.service.letters import readers_on_paper, weekly_letter
from schedules.service.print_table.table import Asked, Group, Kind, Made, trusted

# What one page of a sign-in sheet holds beside the tasks, and how many lines there are for others at least.
LINES, EMPTY_LINES = 17, 8
WRITING_ROW = 34.0  # points: two lines of a pen
CIRCLED_APART = "\u00a0" * 6  # so that a pen can go round one number alone


def sign_in_sheet(asked: Asked) -> Made:
    """For the clip-board of a workday: who is down for what, and lines for whoever else comes."""
    from schedules.reports.sign_in_sheet import SignInLine, SignInSheet  # lazy: reportlab
    from schedules.reports.sign_in_sheet import sign_in_sheet as sheet_of

    workday = asked.choices["workday"]
    tasks = [_task(task) for task in queries.tasks_of(workday)]
    rows = queries.sheet_rows(workday)
    lines = [SignInLine(row.person.name, row.task) for row in rows]
    made = SignInSheet(
        head=asked.head(workday.name, subtitle=_when(workday)),
        tasks=tasks,
        note=workday.note,
        lines=lines,
        empty_lines=max(EMPTY_LINES, LINES - len(lines) - len(tasks) // 2),
    )
    return Made(document=sheet_of(made), people=frozenset(row.person.pk for row in rows))


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


def dates(asked: Asked) -> Made:
    """The dates of a year for the gate: it names nobody; whatever is not for everybody is left out."""
    from schedules.reports.dates_sheet import DateLine, dates_sheet  # lazy: reportlab

    year = asked.choices["year"]
    days = queries.dates_of(asked.garden, date(year, 1, 1), date(year, 12, 31), public=True)
    lines = [
        DateLine(date_format(one.day, "F"), _day(one), told(one))
        for one in days
        if one.certainty is not Certainty.OFF
    ]
    head = asked.head(_("Dates of %(year)d") % {"year": year}, subtitle=asked.garden.place)
    return Made(document=dates_sheet(head, lines))


def _day(one: GardenDay) -> str:
    text = date_format(one.day, "D j")
    if one.last_day is not None:
        text += f" – {date_format(one.last_day, 'D j F' if one.last_day.month != one.day.month else 'D j')}"
    if one.starts_at is not None:
        text += f", {time_format(one.starts_at)}"
    return f"{text}–{time_format(one.ends_at)}" if one.ends_at is not None else text


def gate_notice(asked: Asked) -> Made:
    """A notice in letters that can be read from a step away."""
    from schedules.reports.gate_notice import gate_notice as notice_of  # lazy: reportlab

    notice = asked.choices["notice"]
    return Made(document=notice_of(asked.head(notice.subject, subtitle=asked.garden.name), notice.body))


def care_round(asked: Asked) -> Made:
    """The plots in the order of the walk with lines to write on; nobody's name, as paper is easily lost."""
    garden = asked.garden
    states = rubric_lines(garden.rules.rubric)
    numbers = CIRCLED_APART.join(str(number) for number in range(1, len(states) + 1))
    page = Page(
        asked.head(
            _("Care round"),
            subtitle=_("Day: ____________   Walked by: ________________________"),
            note=_("Names, pauses and open matters are left off on purpose: paper is easily lost."),
        )
    )
    plots = queries.plots_in_walk_order(queries.gardened_plots(garden), garden)
    page.points(states, numbered=True)
    if not plots:
        page.text(_("There is no plot to look at yet."))
    page.table(
        [(plot.label, numbers, "") for plot in plots],
        titles=(_("Plot"), _("State: circle one"), _("What would help, what was seen")),
        shares=(1, 2, 5),
        row_height=WRITING_ROW,
        grid=True,
        name=_("Care round"),
    )
    return Made(document=page.document())


def letters(asked: Asked) -> Made:
    """This week's letters of all who asked for one and cannot get it by email, each in their language."""
    from schedules.reports.letters import PaperLetter  # lazy: reportlab
    from schedules.reports.letters import letters as letters_of

    garden, reckoned, found, people = asked.garden, GardenDates.of(asked.garden), [], set()
    for reader in readers_on_paper(garden, can_send=post.can_send()):
        reader.garden = garden
        letter = weekly_letter(reader, asked.today, reckoned)
        labels = ", ".join(plot.label for plot in own_plots(reader.user, garden))
        to = f"{reader.user} · {labels}" if labels else str(reader.user)
        found.append(PaperLetter(to, letter.subject, letter.body))
        people.add(reader.user_id)
    return Made(document=letters_of(asked.head(_("The weekly letter")), found), people=frozenset(people))


KINDS = (
    Kind(
        code="dates",
        name=gettext_lazy("Dates of the year"),
        about=gettext_lazy("Workdays, deadlines and meetings of a year, for the gate or the kitchen."),
        group=Group.WORK,
        make=dates,
        asks=("year",),
    ),
    Kind(
        code="sign-in-sheet",
        name=gettext_lazy("Sign-in sheet of a workday"),
        about=gettext_lazy("Tasks, who is down for them, and lines for whoever else comes."),
        group=Group.WORK,
        make=sign_in_sheet,
        asks=("workday",),
        may=trusted(Power.WORKDAYS),
    ),
    Kind(
        code="gate-notice",
        name=gettext_lazy("Notice for the gate"),
        about=gettext_lazy("A notice in letters that can be read from a step away."),
        group=Group.WORK,
        make=gate_notice,
        asks=("notice",),
        may=trusted(Power.NOTICES),
    ),
    Kind(
        code="care-round",
        name=gettext_lazy("Care round"),
        about=gettext_lazy(
            "The plots in the order of the walk, with the garden's states and lines to write on."
        ),
        group=Group.WORK,
        make=care_round,
        may=trusted(Power.CARE),
    ),
    Kind(
        code="letters",
        name=gettext_lazy("Weekly letters on paper"),
        about=gettext_lazy("This week's letter for each who asked for it and cannot get it by email."),
        group=Group.WORK,
        make=letters,
        may=trusted(Power.NOTICES),
        several=True,
    ),
)
