"""Long lists: what an address asks for is what is shown."""

from dataclasses import dataclass
from datetime import date

import pytest

from plots.listing import Column, Filter, Listing


@dataclass(frozen=True)
class Stake:
    label: str
    holder: str = ""
    freed: date | None = None


STAKES = [
    Stake("A10", "Úna"),
    Stake("A2", "Bo", date(2024, 5, 1)),
    Stake("B1"),
    Stake("A1", "Ann", date(2023, 5, 1)),
]
LISTING = Listing(
    columns=[
        Column("label", "Plot", lambda stake: stake.label),
        Column("holder", "Held by", lambda stake: stake.holder),
        Column("freed", "Freed", lambda stake: stake.freed),
        Column("words", "Words", lambda stake: f"plot {stake.label}", on_page=False),
    ],
    filters=[
        Filter(
            "held",
            "Held",
            [("yes", "held"), ("no", "free")],
            lambda s, word: bool(s.holder) == (word == "yes"),
        )
    ],
    text=lambda stake: f"{stake.label} {stake.holder}",
    sort="label",
    page_size=3,
)


def labels(**asked):
    return [stake.label for stake in LISTING.show(STAKES, asked).rows]


@pytest.mark.parametrize(
    ("asked", "expected"),
    [
        ({}, ["A1", "A2", "A10"]),
        ({"page": "2"}, ["B1"]),
        ({"page": "99"}, ["B1"]),
        ({"page": "-1"}, ["A1", "A2", "A10"]),
        ({"sort": "-label"}, ["B1", "A10", "A2"]),
        ({"sort": "no such"}, ["A1", "A2", "A10"]),
        ({"sort": "freed"}, ["A1", "A2", "A10"]),
        ({"sort": "-freed"}, ["A2", "A1", "A10"]),
        ({"sort": "-holder"}, ["A10", "A2", "A1"]),  # Ú with U
        ({"held": "no"}, ["B1"]),
        ({"held": "maybe"}, ["A1", "A2", "A10"]),
        ({"q": " ÚNA  a10"}, ["A10"]),
        ({"q": "nobody"}, []),
    ],
)
def test_the_address_is_answered(asked, expected):
    assert labels(**asked) == expected


def test_headings_offer_the_other_way_round():
    heads = LISTING.show(STAKES, {"sort": "label"}).heads
    assert [(head.key, head.sort, head.aria) for head in heads] == [
        ("label", "-label", "ascending"),
        ("holder", "holder", "none"),
        ("freed", "freed", "none"),
    ]


def test_the_file_has_all_that_was_found_and_more_columns():
    shown = LISTING.show(STAKES, {"held": "yes", "page": "2"})
    titles, rows = LISTING.table(shown)
    assert titles == ["Plot", "Held by", "Freed", "Words"]
    assert [row[0] for row in rows] == ["A1", "A2", "A10"]
    assert (shown.found, shown.total, shown.pages, shown.narrowed) == (3, 4, 1, True)


def test_what_else_the_address_says_stays_said():
    shown = LISTING.show(STAKES, {"year": "2023", "held": "yes", "q": "una", "sort": "label", "page": "1"})
    assert (shown.beside, shown.everything) == ([("year", "2023")], "?year=2023")
    assert [(chosen.title, chosen.words) for chosen in shown.in_use] == [("Held", "held")]
    assert LISTING.show(STAKES, {"held": "maybe"}).in_use == []


def test_two_thousand_rows_are_sorted_in_a_moment():
    from time import perf_counter

    rows = [Stake(f"P{number % 977}-{number}", f"Person {number}") for number in range(2000)]
    began = perf_counter()
    shown = LISTING.show(rows, {"sort": "-holder", "q": "person 1"})
    assert perf_counter() - began < 0.5
    assert shown.rows[0].label == f"P{1999 % 977}-1999"
