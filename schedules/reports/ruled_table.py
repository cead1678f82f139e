"""A table that is broken over pages as a reader wants it: no row alone, no group without its name."""

from __future__ import annotations

from typing import cast

from reportlab.platypus import Flowable, Table

from schedules.reports import ink

TITLE_RULE = (0.8, ink.INK)
TOGETHER = 2  # rows of a table that stay on a page, at its beginning and its end
_TALL = 1 / 8  # of a page: tables with a row higher than that are broken wherever they must


class RuledTable(Table):  # type: ignore[misc]  # reportlab carries no types
    """A table with `repeatRows` of titles, in whose first column an `Again` may stand."""

    def keep_rows_together(self, width: float, height: float) -> None:
        """Lets no page of so many points begin or end with a row alone, if its rows are low enough."""
        self.wrap(width, height)
        if max(self._rowHeights) <= height * _TALL:
            self._rowSplitRange = (self.repeatRows + TOGETHER, -TOGETHER)

    def onSplit(self, part: RuledTable, byRow: int = 1) -> None:  # noqa: N802, N803  reportlab's names
        part._rowSplitRange = self._rowSplitRange
        if part.repeatRows:  # a row's own rule, which goes along, lies on that of the titles
            part.setStyle([("LINEBELOW", (0, 0), (-1, 0), *TITLE_RULE)])
        cell = part._cellvalues[part.repeatRows][0]
        name = cell[0] if isinstance(cell, tuple) else cell  # reportlab's own wrapping of what is not text
        if isinstance(name, Again):
            name.shown = True
            part._argH[part.repeatRows] = None  # the row may have become higher


class Again(Flowable):  # type: ignore[misc]  # reportlab carries no types
    """The name of a group in a row that is not its first: to be seen where a page begins with it."""

    def __init__(self, name: Flowable) -> None:
        super().__init__()
        self.name, self.shown = name, False

    def wrap(self, width: float, height: float) -> tuple[float, float]:
        return cast("tuple[float, float]", self.name.wrap(width, height)) if self.shown else (0.0, 0.0)

    def draw(self) -> None:
        if self.shown:
            self.name.drawOn(self.canv, 0, 0)
