"""Why a line typed in from paper cannot be read."""

from __future__ import annotations

from django.utils.functional import Promise
from django.utils.translation import gettext_lazy, pgettext

from schedules.paper_lines import Fault


def fault_text(fault: Fault) -> str:
    """A sentence beside its field."""
    names = pgettext("between the items of a list", ", ").join(fault.names)
    return str(_SENTENCES[fault.code]) % {"typed": fault.typed, "names": names}


_SENTENCES: dict[str, Promise] = {
    "several": gettext_lazy("“%(typed)s” may be %(names)s. Type more of it."),
    "which-plot": gettext_lazy("At which plot?"),
    "no-plot": gettext_lazy("No plot is called “%(typed)s”."),
    "which-day": gettext_lazy("On which day?"),
    "no-day": gettext_lazy("“%(typed)s” is no day that has been. Write it like 14, 5/14 or 2026-05-14."),
    "which-work": gettext_lazy("What was done?"),
    "no-work": gettext_lazy("No work begins with “%(typed)s”. See the words below."),
    "no-planting": gettext_lazy("Nothing called “%(typed)s” is planted there, and no crop is called so."),
    "whole-plot": gettext_lazy("This work is about the whole plot. Put “%(typed)s” into the note."),
    "no-amount": gettext_lazy("“%(typed)s” cannot be read as an amount. Write it like 10 min or 2.5 lb."),
    "which-unit": gettext_lazy("Of what? It may be %(names)s."),
    "no-unit": gettext_lazy("“%(typed)s”: this work is counted in %(names)s."),
    "how-long": gettext_lazy("How long did it take?"),
    "no-time": gettext_lazy(
        "“%(typed)s” cannot be read as a time worked. Write it like 2.5, 2:30, 45 min or 9-11:30."
    ),
    "no-person": gettext_lazy("No member is called “%(typed)s”."),
    "which-person": gettext_lazy("Who did it? This plot has no holder."),
    "what-note": gettext_lazy("Write the note."),
    "what-seen": gettext_lazy("What was seen? Write it into the note."),
}
