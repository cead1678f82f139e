"""What was planned against what was done, and what a year suggests for the next."""

from datetime import date

from schedules.figures import Logged, Share, totals
from schedules.plan_done import Change, PlanAgainstDone, Sowing, plan_against_done, suggestions
from schedules.summary import Figure, WorkshopHeld
from schedules.work import Work

TODAY = date(2026, 12, 1)
WINDOW = (date(2026, 4, 10), date(2026, 5, 10))


def sowing(**changes):
    return Sowing(**{"name": "Beet", "plot": "1", "planned": WINDOW, **changes})


def test_days_off_are_counted_from_the_windows_edges():
    days = [date(2026, 4, 1), date(2026, 4, 10), date(2026, 5, 10), date(2026, 5, 31)]
    assert [sowing(begun=day).days_off for day in days] == [-9, 0, 0, 21]
    assert sowing().days_off is sowing(begun=days[0], planned=None).days_off is None


def test_only_what_was_due_is_counted():
    late = sowing(begun=date(2026, 5, 31), first_picked=date(2026, 8, 1))
    coming = sowing(planned=(date(2026, 11, 20), date(2026, 12, 20)))
    lost = sowing(begun=WINDOW[0], lost=date(2026, 5, 2))
    assert plan_against_done([late, coming, lost, sowing()], TODAY) == PlanAgainstDone(
        due=3, begun=2, in_time=1, picked=1, lost=1
    )


def test_each_suggestion_rests_on_its_own_numbers():
    logs = [Logged(date(2026, 6, n), Work.WATER, plot=1) for n in (1, 2, 3)]
    logs += [Logged(date(2026, 7, n), Work.PICK, plot=1) for n in (1, 2, 3)]
    sowings = [
        *[sowing(name=name) for name in ("Kale", "Leek", "Leek")],
        *[sowing(name="Carrot", begun=date(2026, 5, 31), picking_planned=date(2026, 7, 1))] * 3,
        *[sowing(name="Pea", begun=date(2026, 3, 20), first_picked=date(2026, 6, 20))] * 3,
        sowing(name="Bean", begun=WINDOW[0], lost=date(2026, 5, 2)),
    ]
    found = suggestions(
        totals(logs),
        sowings,
        TODAY,
        share=Share(2, 9),
        figures={Figure.FREE: 2, Figure.WAITING_LAST: 5},
        workshops=[
            WorkshopHeld(date(2026, 3, 7), "Frost"),
            WorkshopHeld(date(2026, 4, 7), "Seed", attended=4),
            WorkshopHeld(date(2026, 12, 7), "To come"),
        ],
    )
    assert [(one.change, one.part, one.whole) for one in found] == [
        (Change.HANG_SHEETS, 2, 9),
        (Change.MEASURE_HOSE, 3, 3),
        (Change.WEIGH_BUNCHES, 3, 3),
        (Change.PLAN_LESS, 3, 10),
        (Change.BEGIN_EARLIER, 3, 10),
        (Change.BEGIN_LATER, 3, 10),
        (Change.WAIT_OR_COVER, 1, 10),
        (Change.NOTE_PICKING, 3, 10),
        (Change.OFFER_FREE_PLOTS, 2, 5),
        (Change.WRITE_ATTENDANCE, 1, 2),
    ]
    by_change = {one.change: one for one in found}
    assert by_change[Change.PLAN_LESS].names == ("Leek", "Kale")
    assert (by_change[Change.BEGIN_EARLIER].days, by_change[Change.BEGIN_LATER].days) == (21, 21)


def test_a_good_year_suggests_nothing():
    done = sowing(begun=WINDOW[0], first_picked=date(2026, 7, 1))
    logs = [Logged(date(2026, 7, 1), Work.PICK, plot=1, grams=200.0)]
    assert suggestions(totals(logs), [done], TODAY, share=Share(8, 9), figures={Figure.FREE: 0}) == []


def test_one_sowing_is_told_to_its_gardener_and_not_of_a_garden():
    late = sowing(begun=date(2026, 5, 31), picking_planned=date(2026, 7, 1))
    told = [Change.BEGIN_EARLIER, Change.NOTE_PICKING]
    assert [one.change for one in suggestions(totals([]), [late], TODAY)] == told
    assert suggestions(totals([]), [late], TODAY, share=Share(8, 9)) == []
