"""What a member's printed calendar says, as plain values: words already translated, dates as dates."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date


@dataclass(frozen=True, slots=True)
class CalendarRow:
    """One window of one planting; its three dates are `None` together where there is no window.

    `operation` is the value of `schedules.windows.Operation`, `detail` a few words that tell it from its like
    ("2nd sowing"), `reasons` one sentence each. What is `done` has the days on which it was done.
    """

    crop: str
    operation: str
    operation_name: str
    detail: str = ""
    earliest: date | None = None
    best: date | None = None
    latest: date | None = None
    reasons: tuple[str, ...] = ()
    done: bool = False

    @property
    def window(self) -> tuple[date, date, date] | None:
        """Earliest, best and latest day, if there is a window."""
        if self.earliest is None or self.best is None or self.latest is None:
            return None
        return self.earliest, self.best, self.latest
