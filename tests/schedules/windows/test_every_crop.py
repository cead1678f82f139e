"""What must hold for each of the catalogue's crops, in any climate."""

from __future__ import annotations

from datetime import date
from functools import cache, partial
from itertools import pairwise

import pytest

from schedules.bases import from_mean
from schedules.seasons import Hemisphere
from schedules.windows import (
    AS_PUBLISHED,
    MIDDLING,
    Edge,
    Nerve,
    Operation,
    Turn,
    Window,
    derive,
)
from schedules.wording import anchored_reasons, fits_reasons
from schedules.wording.reasons import known_codes, reason_sentence
from tests.schedules.records import catalogue
from tests.schedules.windows.climates import CLIMATES

CROPS = catalogue()
DATES_ALONE = {
    "both frosts": partial(from_mean, Hemisphere.NORTH, last=(5, 9), first=(9, 28)),
    "last frost alone": partial(from_mean, Hemisphere.NORTH, last=(4, 1)),
    "first frost alone": partial(from_mean, Hemisphere.NORTH, first=(10, 20)),
    "southern": partial(from_mean, Hemisphere.SOUTH, last=(9, 20), first=(5, 5)),
}
EVERYWHERE = CLIMATES | DATES_ALONE
IN_ORDER = (Operation.START_INDOORS, Operation.HARDEN_OFF, Operation.TRANSPLANT, Operation.HARVEST)


@cache
def windows_of(crop: str, climate: str, nerve: Nerve, cover_c: float = 0.0) -> list[Window]:
    return derive(CROPS[crop], EVERYWHERE[climate](), year=2026, nerve=nerve, cover_c=cover_c)


def dated(window: Window) -> bool:
    return window.earliest is not None and window.best is not None and window.latest is not None


def winter_before_autumn(climate: str) -> date:
    """Some day of the winter before the autumn of 2026; nothing that is picked in it was begun before."""
    return date(2026, 1, 1) if EVERYWHERE[climate]().hemisphere is Hemisphere.NORTH else date(2025, 7, 1)


@pytest.mark.parametrize("climate", EVERYWHERE)
@pytest.mark.parametrize("nerve", [AS_PUBLISHED, MIDDLING], ids=str)
def test_every_crop_ends_with_windows_or_a_stated_reason(climate, nerve):
    for crop in CROPS:
        windows = windows_of(crop, climate, nerve)
        assert {window.turn for window in windows} == {Turn.SPRING, Turn.AUTUMN}
        for window in windows:
            edges = {reason.edge for reason in window.reasons}
            if dated(window):
                assert window.earliest <= window.best <= window.latest
                assert edges == {Edge.EARLIEST, Edge.BEST, Edge.LATEST}
                if window.turn is Turn.AUTUMN and window.operation in (Operation.SOW, Operation.TRANSPLANT):
                    assert window.earliest >= winter_before_autumn(climate), window
            else:
                assert window.earliest is window.best is window.latest is None
                assert edges == {Edge.NONE}


def test_every_reason_has_a_sentence_that_names_its_facts():
    reasons = {
        (reason.code, tuple(reason.values), bool(reason.values.get("cover_c"))): reason
        for climate, nerve, cover_c in [
            *((climate, AS_PUBLISHED, 0.0) for climate in EVERYWHERE),
            *((climate, MIDDLING, 0.0) for climate in CLIMATES),
            *((climate, MIDDLING, 2.2) for climate in ("both frosts", "high plains")),
        ]
        for crop in CROPS
        for window in windows_of(crop, climate, nerve, cover_c)
        for reason in window.reasons
    }
    for reason in reasons.values():
        for units in ("us", "metric"):
            sentence = reason_sentence(reason, units)
            assert len(sentence) > 20
            assert sentence[0].isupper()
            assert sentence[-1] == "."
            assert "%(" not in sentence
            assert "None" not in sentence
    of_others = anchored_reasons.SENTENCES.keys() | fits_reasons.SENTENCES.keys()
    assert {code for code, *_ in reasons} == known_codes() - of_others


@pytest.mark.parametrize("climate", EVERYWHERE)
def test_operations_follow_each_other(climate):
    for crop in CROPS:
        courses: dict[tuple, dict[Operation, Window]] = {}
        for window in filter(dated, windows_of(crop, climate, MIDDLING)):
            key = (window.turn, window.start, window.succession)
            courses.setdefault(key, {})[window.operation] = window
        for course in courses.values():
            in_turn = [course[operation] for operation in IN_ORDER if operation in course]
            for one, next_one in pairwise(in_turn):
                assert one.earliest <= next_one.earliest
                assert one.best <= next_one.best
            if Operation.THIN in course:
                assert course[Operation.SOW].earliest < course[Operation.THIN].earliest


def test_successions_keep_their_interval_and_end_with_the_window():
    radish = CROPS["radish"]
    sown = [
        window
        for window in windows_of("radish", "both frosts", AS_PUBLISHED)
        if window.turn is Turn.SPRING and window.operation is Operation.SOW
    ]
    assert [window.succession for window in sown] == list(range(1, len(sown) + 1))
    assert len(sown) >= 3
    assert {(later.best - sooner.best).days for sooner, later in pairwise(sown)} == {radish.succession_days}
    assert {window.latest for window in sown} == {sown[0].latest}
    assert (sown[0].latest - sown[-1].best).days < radish.succession_days


def test_without_a_first_frost_autumn_says_so():
    windows = windows_of("kale", "last frost alone", AS_PUBLISHED)
    autumn = [window for window in windows if window.turn is Turn.AUTUMN]
    assert [reason.code for window in autumn for reason in window.reasons] == ["first-frost-unknown"] * 2


def test_without_a_last_frost_spring_says_so():
    windows = windows_of("tomato", "first frost alone", AS_PUBLISHED)
    spring = [window for window in windows if window.turn is Turn.SPRING]
    assert [reason.code for window in spring for reason in window.reasons] == ["last-frost-unknown"]
