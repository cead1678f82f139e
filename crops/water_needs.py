"""How much water a crop uses: coefficients, roots and stages of FAO Irrigation and Drainage Paper 56.

`fixtures/catalogue/water.csv` holds Tables 11, 12 and 22 for crops that stand there, and Table 12's group
values for the families of those that do not. Root depths are the smaller of the table's two figures, which
FAO-56 means for watering.
"""

from __future__ import annotations

import csv
from dataclasses import dataclass
from functools import cache

from crops.catalogue import FOLDER
from crops.facts import CropFacts

_ANY = "any"
# Depth in metres and share easily had, by the catalogue's rooting class: common practice, no source.
_ROOTS = {"shallow": (0.3, 0.3), "medium": (0.5, 0.4), "deep": (0.7, 0.45)}
_YOUNG_ROOTS_M = 0.15  # FAO-56: roots of seedlings and transplants, 0.15 to 0.20 m


@dataclass(frozen=True, slots=True)
class WaterNeeds:
    """A crop's coefficients when small, full grown and at the end; roots in metres; stages as shares.

    `stages` are the shares of its time in the ground that it stays small, grows, stands full grown and ages.
    `seen_for` names the row of the tables that was taken.
    """

    kc_small: float
    kc_full: float
    kc_end: float
    root_m: float
    share: float
    stages: tuple[float, float, float, float]
    seen_for: str

    def kc(self, day: float, season_days: float) -> float:
        """The coefficient on a day (day 1: planted) of a season of so many days (equation 66).

        >>> bean = WaterNeeds(0.3, 1.19, 0.35, 0.6, 0.45, (0.25, 0.25, 0.3, 0.2), "dry bean")
        >>> [round(bean.kc(day, 100), 2) for day in (20, 40, 70, 95)]
        [0.3, 0.83, 1.19, 0.56]
        """
        small, grow, full, ageing = (share * season_days for share in self.stages)
        if day <= small:
            return self.kc_small
        if day <= small + grow:
            return self.kc_small + (day - small) / grow * (self.kc_full - self.kc_small)
        if day <= small + grow + full:
            return self.kc_full
        past = min(1.0, (day - small - grow - full) / ageing) if ageing else 1.0
        return self.kc_full + past * (self.kc_end - self.kc_full)

    def roots(self, day: float, season_days: float) -> float:
        """Depth of the roots in metres: from a seedling's to their whole, while the leaves grow."""
        growing = (self.stages[0] + self.stages[1]) * season_days
        grown = min(1.0, day / growing) if growing else 1.0
        young = min(_YOUNG_ROOTS_M, self.root_m)
        return young + grown * (self.root_m - young)


def water_needs(facts: CropFacts) -> WaterNeeds:
    """A crop's row; where it has none of its own, the row of its family, with roots by its rooting class."""
    rows = _rows()
    if facts.slug in rows:
        return _needs(rows[facts.slug], None)
    return _needs(rows.get(facts.family, rows[_ANY]), _ROOTS.get(facts.rooting_depth_class))


@cache
def _rows() -> dict[str, dict[str, str]]:
    """The table by crop and by family."""
    with (FOLDER / "water.csv").open(encoding="utf-8", newline="") as lines:
        return {row["crop_or_family"]: row for row in csv.DictReader(lines)}


def _needs(row: dict[str, str], roots: tuple[float, float] | None) -> WaterNeeds:
    depth, share = roots or (float(row["root_m"]), float(row["share"]))
    small, grow, full, ageing = (float(row[name]) for name in ("small", "growing", "full", "ageing"))
    return WaterNeeds(
        kc_small=float(row["kc_small"]),
        kc_full=float(row["kc_full"]),
        kc_end=float(row["kc_end"]),
        root_m=depth,
        share=share,
        stages=(small, grow, full, ageing),
        seen_for=row["seen_for"],
    )
