"""Hours of work in words."""

from __future__ import annotations

from collections.abc import Mapping

from django.utils.formats import date_format
from django.utils.functional import Promise
from django.utils.text import Truncator
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy, pgettext

from plots.hours import HOUR, Reason, State
from plots.sign_in_sheet import Fault

NO_BREAK = "\u00a0"

STATES: dict[State, Promise] = {
    State.NONE: gettext_lazy("owes none"),
    State.DONE: gettext_lazy("done"),
    State.OPEN: gettext_lazy("open"),
    State.OVERDUE: gettext_lazy("overdue"),
}


def hours_text(minutes: int | None) -> str:
    """A time worked: `2 h 30 min`, `45 min`, `0 h`."""
    hours, rest = divmod(minutes or 0, HOUR)
    parts = [f"{hours}{NO_BREAK}{pgettext('unit', 'h')}"] if hours or not rest else []
    if rest:
        parts.append(f"{rest}{NO_BREAK}{pgettext('unit', 'min')}")
    return NO_BREAK.join(parts)


def typed_hours(minutes: int | None) -> str:
    """A time as somebody would type it: `2:30`, `3`; nothing where there is none."""
    if not minutes:
        return ""
    hours, rest = divmod(minutes, HOUR)
    return f"{hours}:{rest:02}" if rest else str(hours)


def reason_text(reason: Reason, names: Mapping[int, str]) -> str:
    """Why so much is owed; `names` are those of people by their keys."""
    values = dict(reason.values)
    if isinstance(values.get("minutes"), int):
        values["hours"] = hours_text(values["minutes"])
    if "on" in values:
        values["on"] = date_format(values["on"])
    if "person" in values:
        values["person"] = names.get(values["person"], "")
    return _SENTENCES[reason.code] % values


_SENTENCES: dict[str, Promise] = {
    "each-member": gettext_lazy("The rule asks %(hours)s a season of each member who gardens a plot."),
    "each-household": gettext_lazy("The rule asks %(hours)s a season of each household."),
    "each-plot": gettext_lazy("The rule asks %(hours)s a season for each plot."),
    "share": gettext_lazy("Held on %(days)d of the season's %(of)d days, so a share: %(hours)s."),
    "left": gettext_lazy("Held until %(on)s, so nothing more is owed."),
    "excused": gettext_lazy("%(person)s is excused from %(hours)s."),
    "holds-nothing": gettext_lazy("Holds no plot this season, so owes nothing."),
}


def fault_text(fault: Fault) -> str:
    """What is wrong with a line of a typed sheet."""
    words = {"line": fault.line, "text": Truncator(fault.text).chars(80), "names": ", ".join(fault.names)}
    if fault.code == "twice":
        if not fault.earlier:
            return _("Line %(line)d, “%(text)s”: this person is on the list above already.") % words
        return _("Line %(line)d, “%(text)s”: the same person as on line %(earlier)d.") % {
            **words,
            "earlier": fault.earlier,
        }
    return _FAULTS[fault.code] % words


_FAULTS: dict[str, Promise] = {
    "nobody": gettext_lazy(
        "Line %(line)d, “%(text)s”: no member is called so. For a guest put + in front of the name."
    ),
    "several": gettext_lazy("Line %(line)d, “%(text)s”: this may be %(names)s. Type more of the name."),
    "no-time": gettext_lazy(
        "Line %(line)d, “%(text)s”: the time cannot be read. Write 2.5, 2:30 or 9-11:30 behind the name."
    ),
    "no-name": gettext_lazy("Line %(line)d, “%(text)s”: a name is missing."),
}
