from datetime import date

import pytest

from schedules.reports.season import FrostCurve, FrostPoint, StripRow, dot_heights, strip_span
from tests.schedules.reports.samples import GARLIC, TOMATO, mark


@pytest.mark.parametrize(
    ("rows", "span"),
    [
        ([], (date(2026, 1, 1), date(2026, 12, 31))),
        ([StripRow("Nothing", ())], (date(2026, 1, 1), date(2026, 12, 31))),
        ([TOMATO], (date(2026, 3, 1), date(2027, 2, 28))),
        ([GARLIC], (date(2026, 10, 1), date(2027, 9, 30))),
        ([TOMATO, GARLIC], (date(2026, 3, 1), date(2027, 7, 31))),
        # a southern spring runs into the next year's autumn
        (
            [StripRow("Bean", (mark("sow", (2026, 10, 20), (2026, 11, 1), (2027, 1, 10)),))],
            (date(2026, 10, 1), date(2027, 9, 30)),
        ),
        # a perennial's third year lies beyond what is drawn
        (
            [StripRow("Asparagus", (mark("harvest", (2026, 4, 1), (2028, 4, 10), (2028, 6, 1)),))],
            (date(2026, 4, 1), date(2027, 9, 30)),
        ),
    ],
)
def test_the_strip_holds_the_windows_in_whole_months(rows, span):
    assert strip_span(rows, 2026) == span


def test_dots_stand_at_their_rank_among_all_seasons():
    years = (date(2026, 5, 1), date(2026, 4, 20), date(2026, 5, 10))
    curve = FrostCurve("32 °F", (), years, seasons=4)
    assert dot_heights(curve, falling=True) == [
        FrostPoint(date(2026, 5, 10), 0.25 * 0.75),
        FrostPoint(date(2026, 5, 1), 0.5 * 0.75),
        FrostPoint(date(2026, 4, 20), 0.75 * 0.75),
    ]
    assert [p.day for p in dot_heights(curve, falling=False)] == sorted(years)


def test_no_years_make_no_dots():
    assert dot_heights(FrostCurve("24 °F", (), (), seasons=30), falling=True) == []
