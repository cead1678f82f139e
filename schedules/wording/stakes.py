"""Sheets of labels by their measures, in the units of the paper that they are sold on."""

from __future__ import annotations

from fractions import Fraction

from django.utils.translation import gettext as _

from plots.models import Paper
from plots.wording import NO_BREAK, number_text
from schedules.reports.label_sheets import INCH, SHEETS, Labels

_PARTS = {
    Fraction(1, 8): "⅛", Fraction(1, 4): "¼", Fraction(1, 3): "⅓", Fraction(3, 8): "⅜", Fraction(1, 2): "½",
    Fraction(5, 8): "⅝", Fraction(2, 3): "⅔", Fraction(3, 4): "¾", Fraction(7, 8): "⅞",
}  # fmt: skip


def label_choices(paper: str) -> list[tuple[str, list[tuple[str, str]]]]:
    """Labels and cards for stakes, those on the garden's own paper first."""
    groups = []
    for one in sorted(Paper, key=lambda one: one != paper):
        for cut in (False, True):
            name = _("Cards to cut out, %(paper)s") if cut else _("Labels, %(paper)s")
            found = [
                (sheet.key, labels_text(sheet))
                for sheet in SHEETS.values()
                if sheet.paper == one and sheet.cut == cut
            ]
            groups.append((name % {"paper": one.label}, found))
    return groups


def labels_text(sheet: Labels) -> str:
    """`2⅝ × 1 in (66.7 × 25.4 mm), 30 a sheet`."""
    sides = (sheet.width, sheet.height)
    size = f"{' × '.join(number_text(round(side, 1)) for side in sides)}{NO_BREAK}mm"
    if sheet.paper == Paper.LETTER:
        size = f"{' × '.join(map(_inches, sides))}{NO_BREAK}in ({size})"
    return _("%(size)s, %(count)d a sheet") % {"size": size, "count": sheet.count}


def _inches(length: float) -> str:
    whole, part = divmod(Fraction(length / INCH).limit_denominator(8), 1)
    return f"{whole}{_PARTS[part]}" if part else str(whole)
