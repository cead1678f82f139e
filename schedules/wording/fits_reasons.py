"""Why a crop still fits into free space only from a day on, or only until one."""

from __future__ import annotations

from django.utils.translation import gettext as _

from schedules.wording.phrases import Sentence, Values, days, month_day, to_harvest


def _space_needed(values: Values, units: str) -> str:
    words = {
        "until": month_day(values["until"]),
        "days": to_harvest(values),
        "picking": days(values["picking_days"]),
    }
    if values["picking_days"]:
        return (
            _("The space is free until %(until)s: %(days)s to the first harvest, and %(picking)s to pick.")
            % words
        )
    return _("The space is free until %(until)s: %(days)s to the first harvest.") % words


SENTENCES: dict[str, Sentence] = {
    "space-needed": _space_needed,
    "soil-right-for-seed": lambda v, u: _(
        "Until then the soil is too cold or too hot for its seed to come up."
    ),
}
