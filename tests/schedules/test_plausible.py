"""What cannot have happened as it was told, each with its reason; what could have is not refused."""

from dataclasses import replace
from datetime import date

import pytest

from schedules.plausible import Days, Done, Ground, Sown, Told, doubts

TODAY = date(2024, 6, 5)
GROUND = Ground(today=TODAY, area_m2=8.0)
CARROT = Sown(2024, 2, [Done("sow", date(2024, 5, 1), 1), Done("harvest", date(2024, 6, 2), 1)])
CLEARED = Sown(2024, 2, [Done("clear", date(2024, 5, 20))])
FIRST_CLEARED = Sown(2024, 2, [Done("clear", date(2024, 5, 20), 1)])


def codes(ground=GROUND, planting=None, **told):
    told = Told(**{"work": "water", "day": TODAY, **told})
    return [(doubt.where, doubt.code) for doubt in doubts(told, replace(ground, planting=planting))]


def test_a_plot_is_not_cleared_while_what_grew_there_is_still_worked():
    """What was begun anew since may be worked, and what nobody said was begun before."""

    def cleared(*done, on=date(2024, 5, 20)):
        return codes(replace(GROUND, plantings=[done]), work="clear", day=on)

    sown, picked = Done("sow", date(2024, 5, 1)), Done("harvest", date(2024, 6, 2))
    assert cleared(sown, picked) == [("day", "worked-after-clearing")]
    assert cleared(sown, Done("sow", date(2024, 5, 20)), picked) == []
    assert cleared(sown, picked, on=date(2024, 6, 2)) == []
    assert cleared(picked) == cleared(sown) == []


def test_a_likely_log_is_not_doubted():
    assert codes() == []
    assert codes(amount=10, unit="min") == []
    assert codes(work="harvest", planting=CARROT, succession=2, amount=90, unit="kg", grams=90_000) == []
    assert codes(work="harvest", names_a_crop=True, given_away=True, given_to="the pantry") == []
    assert codes(work="harvest", planting=CLEARED, day=date(2024, 5, 20)) == []
    assert codes(work="harvest", planting=FIRST_CLEARED, succession=2) == []
    assert codes(work="harvest", planting=FIRST_CLEARED) == []
    assert codes(work="note", planting=CLEARED) == []
    assert codes(work="start-indoors", planting=Sown(2025, 1), day=date(2024, 6, 1)) == [
        ("day", "before-its-year")
    ]
    assert codes(work="hours", minutes=90) == []


@pytest.mark.parametrize(
    ("where", "code", "told"),
    [
        ("day", "not-yet", {"day": date(2024, 6, 6)}),
        ("day", "too-old", {"day": date(2004, 6, 5)}),
        ("amount", "nothing", {"amount": -1, "unit": "L"}),
        ("unit", "which-unit", {"amount": 1}),
        ("unit", "unit-of-other-work", {"amount": 1, "unit": "kg"}),
        ("amount", "no-amount", {"work": "weed", "amount": 1, "unit": "kg"}),
        ("amount", "too-much-water", {"amount": 3000, "unit": "L", "litres": 3000.0}),
        (
            "amount",
            "too-heavy",
            {"work": "harvest", "names_a_crop": True, "amount": 4000, "unit": "kg", "grams": 4e6},
        ),
        (
            "amount",
            "too-many",
            {"work": "sow", "names_a_crop": True, "amount": 1, "unit": "pcs", "pieces": 10**6},
        ),
        ("minutes", "how-long", {"work": "hours"}),
        ("minutes", "longer-than-a-day", {"work": "hours", "minutes": 1441}),
        ("given_away", "only-harvest-is-given", {"given_away": True}),
        ("given_to", "kept-not-given", {"work": "harvest", "names_a_crop": True, "given_to": "Ada"}),
        ("planting", "which-planting", {"work": "harvest"}),
        ("succession", "succession-without-planting", {"succession": 1}),
        ("succession", "no-such-sowing", {"work": "sow", "planting": CARROT, "succession": 21}),
        ("day", "before-its-year", {"work": "sow", "planting": Sown(2025, 1), "day": date(2024, 6, 1)}),
        ("day", "long-after-its-year", {"work": "harvest", "planting": Sown(2022, 1)}),
        ("day", "cleared", {"work": "harvest", "planting": CLEARED}),
        ("day", "cleared", {"work": "thin", "planting": FIRST_CLEARED, "succession": 1}),
        ("day", "cleared", {"work": "clear", "planting": CLEARED}),
        ("day", "worked-after-clearing", {"work": "clear", "planting": CARROT, "day": date(2024, 6, 1)}),
    ],
)
def test_what_cannot_be_is_refused_beside_its_field(where, code, told):
    assert codes(**told) == [(where, code)]


def test_somebody_tells_of_the_days_on_which_the_plot_was_theirs():
    days = [Days(date(2024, 5, 1), date(2024, 5, 9)), Days(date(2024, 6, 1))]
    own = replace(GROUND, days=days, given_up_on=date(2024, 6, 4))
    assert codes(own, day=date(2024, 4, 30)) == [("day", "before-yours")]
    assert codes(own, day=date(2024, 5, 9)) == []
    assert codes(own, day=date(2024, 5, 10)) == [("day", "before-yours")]
    assert codes(own) == [("day", "given-up")]
    assert codes(replace(own, days=days[:1]), day=date(2024, 5, 10)) == [("day", "after-yours")]
