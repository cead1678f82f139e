"""Every topic of workshop packs, set for places known well and hardly at all, on both papers."""

from __future__ import annotations

from datetime import date
from functools import cache
from io import BytesIO

import pytest
from pypdf import PdfReader

from schedules.reports.document import Caution, Document, Grid, Head, Page
from schedules.reports.setting import to_pdf
from schedules.windows import Turn
from schedules.wording.topics import TOPICS
from tests.schedules.records import minimums
from tests.schedules.wording.topic_places import MOST_CROPS, fullest_places, places

HOLES = ("None", "%(", "nan", "{", "datetime")
SIDES = 2
# Set on paper: where there is most to set on both, one of the others by turns, on each paper by turns.
FULLEST = "of a record"  # by the length of names
MOST_ROWS = "of the most rows"
ALMOST = (
    "of the most seedlings",
    "of a guest with the most seedlings",
    "of a guest with a short season",
    "of a guest with a long season",
)
CLOSEST = {"by-crop", "by-month", "hardening-off", "autumn", "seed-or-seedling"}  # tables of dates alone
BY_TURNS = ("metric", "southern", "of a guest with one date", "without freezes", "without frost dates")


@cache
def sheet_of(code: str, place_name: str, paper: str = "letter") -> Document:
    place = places().get(place_name) or fullest_places()[place_name]
    head = Head(place.name, str(TOPICS[code].name), paper, "en", date(2026, 3, 2), note=place.record)
    page = Page(head, titled=False)
    TOPICS[code].add_to(page, place)
    return page.document()


def grid_of(code: str) -> Grid:
    """The first table of a sheet."""
    return next(block for block in sheet_of(code, FULLEST).blocks if isinstance(block, Grid))


@pytest.mark.parametrize(("turn", "code"), list(enumerate(TOPICS)), ids=TOPICS)
def test_a_topic_fits_two_sides(turn: int, code: str) -> None:
    """Each paper has its turn: what fits the lower Letter fits A4 but for its narrower lines."""
    papers = ("letter", "a4") if turn % 2 else ("a4", "letter")
    sheets = [*zip((FULLEST, BY_TURNS[turn % len(BY_TURNS)]), papers, strict=True)]
    sheets += [(MOST_ROWS, "letter"), (MOST_ROWS, "a4")]
    sheets += [(name, "letter") for name in ALMOST if code in CLOSEST]
    for name, paper in sheets:
        pages = PdfReader(BytesIO(to_pdf(sheet_of(code, name, paper)))).pages
        assert len(pages) <= SIDES, (name, paper)
        if name == FULLEST:
            assert "Sources" in pages[-1].extract_text()


def test_no_crop_is_left_out_for_a_sheet_to_fit() -> None:
    crops = fullest_places()[MOST_ROWS].crops
    assert len(crops) == MOST_CROPS
    for code in ("by-crop", "autumn", "harvest-and-washing"):
        tables = [block for block in sheet_of(code, MOST_ROWS).blocks if isinstance(block, Grid)]
        named = {row[0] for table in tables for row in table.rows}
        assert [crop.name for crop in crops if crop.name not in named] == [], code


@pytest.mark.parametrize("code", TOPICS)
def test_a_topic_has_no_hole_anywhere(code: str) -> None:
    for name in places():
        text = " ".join(sheet_of(code, name).words())
        assert [hole for hole in HOLES if hole in text] == [], name
        assert len(text) > LEAST_SAID, name


LEAST_SAID = 800  # characters: a sheet teaches its topic, whatever is known of the place


@pytest.mark.parametrize("code", TOPICS)
def test_a_topic_has_sources_and_questions_of_the_place(code: str) -> None:
    assert TOPICS[code].sources
    for name, place in places().items():
        asked = TOPICS[code].questions(place)
        assert 1 <= len(asked) <= 3, name
        for question in asked:
            texts = (question.text, question.why, *question.choices)
            assert 0 <= question.right < len(question.choices), (name, question.text)
            assert len(set(question.choices)) == len(question.choices) >= 2, (name, question.text)
            assert all(texts), name
            assert not [hole for hole in HOLES if hole in " ".join(texts)], (name, texts)


def test_where_somebody_can_be_hurt_a_caution_stands() -> None:
    for code in CAUTIONED & set(TOPICS):
        assert any(isinstance(block, Caution) for block in sheet_of(code, FULLEST).blocks), code


CAUTIONED = {
    "frost-risk", "seed-or-seedling", "hardening-off", "supports", "harvest-and-washing", "place-and-sun",
    "kinds-of-garden", "soil", "new-ground", "water", "feeding", "compost", "mulch", "pests", "closing",
}  # fmt: skip


def test_dates_on_the_sheets_are_those_of_the_windows() -> None:
    """Two sheets and the rows that the place was given: the same day everywhere."""
    crop = next(one for one in places()["of a record"].crops if one.facts.slug == "pepper-sweet")
    window = next(one for one in crop.windows if one.operation == "transplant")
    assert window.earliest is not None
    table = grid_of("by-crop")
    row = next(row for row in table.rows if row[0] == crop.name)
    assert row[3].startswith(f"{window.earliest:%b}\xa0{window.earliest.day} – ")
    months = grid_of("by-month")
    picked = {row[0]: row[1] for row in grid_of("harvest-and-washing").rows}
    assert [row[0] for row in table.rows if row[4] and picked.get(row[0], row[4]) != row[4]] == []
    of_may = [row for row in months.rows if crop.name in row[2] and row[1] == "Transplant"]
    assert of_may


def test_the_worked_question_counts_the_years_of_the_record() -> None:
    """Counted here day by day in the record itself, Champion (fixtures/stations/SOURCES.txt)."""
    place = places()["of a record"]
    when = place.freeze[0].last[30]
    assert when is not None
    frozen = {
        day.year
        for day, lowest in minimums().items()
        if lowest <= 0.0 and (when.month, when.day) <= (day.month, day.day) < (8, 1)
    }
    texts = " ".join(sheet_of("frost-risk", "of a record", "letter").words())
    assert f"in {len(frozen)} of 37 years" in texts


def test_a_southern_season_runs_from_spring_over_new_year_to_autumn() -> None:
    """Every day of it lies ahead, in one order, and none needs a year to be told apart."""
    southern = places()["southern"]
    twice = [crop for crop in southern.crops if len({one.turn for one in crop.windows if one.earliest}) == 2]
    assert twice
    for crop in twice:
        spring, autumn = (
            min(one.earliest for one in crop.windows if one.turn is turn and one.earliest) for turn in Turn
        )
        assert date(southern.year, 6, 1) < spring < autumn < date(southern.year + 1, 7, 1), crop.name
    for code in ("by-crop", "autumn"):
        cells = [cell for block in sheet_of(code, "southern").blocks if isinstance(block, Grid)
                 for row in block.rows if "Garlic" not in row[0] for cell in row]  # fmt: skip
        assert not [cell for cell in cells if ", 20" in cell], code


def test_a_bed_that_has_not_room_for_all_takes_what_most_people_want_first() -> None:
    names = [row[0] for row in grid_of("bed-plan").rows]
    assert {"Bean, snap, bush", "Lettuce, leaf"} <= set(names)


def test_a_cucumbers_trellis_is_higher_than_a_vine_left_on_the_ground() -> None:
    """Its published height, 14 inches, is of one that creeps."""
    rows = {row[0]: row[2] for row in grid_of("supports").rows}
    assert rows["Muskmelon (cantaloupe)"].replace("\xa0", " ") == "5 ft"


def test_seed_comes_up_in_the_soil_of_its_own_days() -> None:
    """In a month's mean soil some would take a year; none is told to wait more than a month."""
    rows = grid_of("sowing-depth").rows
    days = [int(row[-1].split()[0]) for row in rows if row[-1]]
    assert len(days) > 20
    assert max(days) <= 30
