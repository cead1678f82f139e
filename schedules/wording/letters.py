"""The weekly letter in words."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from django.conf import settings
from django.utils.formats import date_format
from django.utils.translation import gettext as _

from plots.dates import Certainty, GardenDay
from plots.wording.dates import CERTAINTIES
from schedules.jobs import Job
from schedules.wording import operation_name
from schedules.wording.calendar import day_text, moment_text


def letter_subject(garden: str, monday: date) -> str:
    return _("%(garden)s: the week of %(day)s") % {"garden": garden, "day": date_format(monday)}


def letter_body(
    garden: str, name: str, monday: date, jobs: Sequence[Job], days: Sequence[GardenDay], *, many: bool
) -> str:
    """Plain text. With `many` plots each job says at which."""
    day = date_format(monday, "MONTH_DAY_FORMAT")
    lines = [_("Dear %(name)s,") % {"name": name}, ""]
    lines += [_("At your plots in the week of %(day)s:") % {"day": day}, ""]
    lines += [line for job in jobs for line in _job(job, many=many)] or [_("Nothing is due.")]
    if days:
        lines += ["", _("In the garden:"), ""]
        lines += [_date(one) for one in days]
    end = _("You asked %(garden)s for this letter; to end it: %(link)s")
    return "\n".join([*lines, "", end % {"garden": garden, "link": settings.SITE_URL}])


def _job(job: Job, *, many: bool) -> list[str]:
    head = operation_name(job.operation)
    if many:
        head += " · " + _("plot %(plot)s") % {"plot": job.plot_label}
    return [head, *(f"  {task.entry.name}: {moment_text(task)}" for task in job.tasks)]


def _date(one: GardenDay) -> str:
    sure = "" if one.certainty is Certainty.FIRM else str(CERTAINTIES[one.certainty])
    words = [f"{date_format(one.day, 'D')} {day_text(one.day, one.day.year)}", one.title, sure, one.place]
    return "  " + ", ".join(word for word in words if word)
