"""How published planting practice moves with a place's frost date.

Published weeks from the mean last frost are written for places with a winter. Where the last frost falls
early, winter is mild and published calendars start cool-season crops further ahead of it: cabbage is set out
3-4 weeks before the last frost in Missouri, 9 in middle Georgia. So the edges of hardy and half-hardy crops
move by some days and by a share of each day by which the last frost comes before a reference.

Both were fitted by least absolute deviations to the open calendars in `fixtures/calendars/calendars_open.csv`
(`schedules/calendars/fitting.py` does it again and tries the rule on regions left out). A finer rule,
with a slope for each hardiness class or for the cold that the grown plant stands, predicted left-out regions
no better. Tender crops follow the last frost itself everywhere. Beyond the frost dates of those calendars
nothing is extrapolated.
"""

from __future__ import annotations

from dataclasses import dataclass

from crops.facts import CropFacts, Hardiness

REFERENCE_LAST_FROST = 100  # 10 April: where it comes later, published weeks need no help
EARLIEST_FITTED_LAST_FROST = 79  # 20 March, middle Georgia
COOL_SEASON = (Hardiness.HARDY, Hardiness.HALF_HARDY)


@dataclass(frozen=True, slots=True)
class Shift:
    """Days added to a published edge: everywhere, and for each day of earlier last frost."""

    days: float = 0.0
    per_mild_day: float = 0.0

    def at(self, mild_days: int) -> int:
        """Whole days, later when positive, where the last frost comes `mild_days` before the reference."""
        return round(self.days + self.per_mild_day * mild_days)


@dataclass(frozen=True, slots=True)
class Practice:
    """How far the early and the late edge of a spring window move for cool-season crops."""

    early: Shift
    late: Shift

    def early_shift(self, facts: CropFacts, last_frost: int) -> int:
        """Days to add to the early edge where the mean last frost is day `last_frost` of a northern year."""
        return self.early.at(mild_days(last_frost)) if facts.hardiness in COOL_SEASON else 0

    def late_shift(self, facts: CropFacts, last_frost: int) -> int:
        """Days to add to the late edge where the mean last frost is day `last_frost` of a northern year."""
        return self.late.at(mild_days(last_frost)) if facts.hardiness in COOL_SEASON else 0


def mild_days(last_frost: int) -> int:
    """Days by which a mean last frost comes before the reference, from 0 up to the earliest one fitted.

    >>> mild_days(121), mild_days(86), mild_days(20)
    (0, 14, 21)
    """
    return REFERENCE_LAST_FROST - min(max(last_frost, EARLIEST_FITTED_LAST_FROST), REFERENCE_LAST_FROST)


UNFITTED = Practice(Shift(), Shift())
FITTED = Practice(early=Shift(0, -0.3), late=Shift(-8, -0.2))
