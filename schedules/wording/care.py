"""When a plot was last worked, in words that blame nobody."""

from __future__ import annotations

from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from schedules.attended import Attended
from schedules.models import WorkLog


def worked_text(log: WorkLog | None, known: Attended) -> str:
    """Such as “19 days ago: weeded”."""
    if log is None or known.ago is None:
        return _("nothing logged yet")
    work = log.get_work_display()
    if known.ago == 0:
        return _("today: %(work)s") % {"work": work}
    if known.ago == 1:
        return _("yesterday: %(work)s") % {"work": work}
    told = ngettext("%(days)d day ago: %(work)s", "%(days)d days ago: %(work)s", known.ago)
    return told % {"days": known.ago, "work": work}
