"""The pack of a workshop, its sheets for the door, and single topics for a guest's own place."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from io import BytesIO

import pytest
from pypdf import PdfReader

from crops.models import Workshop
from plots.models import Garden
from schedules.reports.document import Grid, Page, Title
from schedules.reports.name_tags import TAGS, tags_to_fill
from schedules.reports.setting import to_pdf
from schedules.service.place import place_of
from schedules.service.print_table import handouts
from schedules.service.print_table.handouts import KINDS, MOST_CROPS, MOST_QUESTIONS, usual_crops
from schedules.service.print_table.table import Asked, GuestPlace, Made
from schedules.wording.topics import TOPICS
from tests.factories import GardenFactory, PlotFactory
from tests.schedules.samples import carrot, planted, set_mean_frost, tomato

TODAY = date(2026, 3, 2)
SHEETS = ["by-crop", "frost-risk", "thinning"]
OF_CODE = {kind.code: kind for kind in KINDS}


@pytest.fixture
def garden(db) -> Garden:
    garden = GardenFactory(name="Linnet Lane Garden", units="us")
    set_mean_frost(garden)
    return garden


@pytest.fixture
def workshop(garden: Garden) -> Workshop:
    made = Workshop.objects.create(
        garden=garden, title="When do I plant this here?", on=date(2026, 3, 14), topics=SHEETS, expected=20,
        names="Pat Ashby\nĐặng Thu Hà",
    )  # fmt: skip
    made.crops.set([tomato(), carrot()])
    return made


def make(garden: Garden, code: str, **choices: object) -> Made:
    asked = Asked(garden=garden, user=None, today=TODAY, paper="letter", language="en", choices=choices)
    return OF_CODE[code].make(asked)


def pages_of(made: Made) -> list[str]:
    pdf = made.laid_out() if made.laid_out else to_pdf(made.document)
    return [page.extract_text() for page in PdfReader(BytesIO(pdf)).pages]


def test_the_pack_is_one_file_with_a_bookmark_for_each_sheet(garden: Garden, workshop: Workshop) -> None:
    made = make(garden, "workshop-pack", workshop=workshop, place=None)
    file = PdfReader(BytesIO(to_pdf(made.document)))
    titles = [str(entry["/Title"]) for entry in file.outline]
    assert titles == [workshop.title, *(str(TOPICS[code].name) for code in SHEETS)]
    first = file.pages[0].extract_text()
    assert "Saturday, March 14, 2026" in first
    assert "Thinning" in first
    for page in file.pages:
        assert "Mean frost dates" in page.extract_text()  # the record at every foot
    Workshop.objects.update(title_page=False)
    workshop.refresh_from_db()
    untitled = make(garden, "workshop-pack", workshop=workshop, place=None).document
    assert [one.text for one in untitled.blocks if isinstance(one, Title)] == titles[1:]


@pytest.mark.parametrize("paper", ["letter", "a4"])
def test_the_title_page_of_the_largest_pack_is_one_sheet_with_notes_on_its_back(
    garden: Garden, workshop: Workshop, paper: str
) -> None:
    workshop.note = "Bring the frost dates of your own place if you garden elsewhere, and a pencil."
    crops = [carrot(slug=f"c{n}", name=f"Edamame (vegetable soybean) {n}") for n in range(MOST_CROPS)]
    place = replace(place_of(garden, crops=crops, today=TODAY), guest=True)
    asked = Asked(garden=garden, user=None, today=TODAY, paper=paper, language="en")
    page = Page(asked.head(workshop.title, note=place.record), titled=False)
    handouts._title_page(page, workshop, list(TOPICS.values()), place)
    front, back = pages_of(Made(document=page.document()))
    assert ("Harvest and washing" in front, "What I heard" in back) == (True, True)


def test_the_sign_in_sheet_asks_little_and_has_a_line_for_everybody(
    garden: Garden, workshop: Workshop
) -> None:
    made = make(garden, "workshop-sign-in", workshop=workshop)
    table = next(block for block in made.document.blocks if isinstance(block, Grid))
    assert len(table.rows) == 26
    assert not any(cell for row in table.rows for cell in row[1:])  # nobody is named to the others
    text = " ".join(pages_of(made))
    assert "you agree" in text
    assert not [word for word in ("income", "birth", "address", "race") if word in text.lower()]


def test_name_tags_have_large_names_and_blank_ones_on_whole_sheets(
    garden: Garden, workshop: Workshop
) -> None:
    made = make(garden, "name-tags", workshop=workshop)
    pages = pages_of(made)
    assert len(pages) == 3
    assert " ".join(pages).count("Linnet Lane Garden") == 24
    assert "Ashby" in pages[0]
    long = "Wolfeschlegelsteinhausenbergerdorffwelchevoralternwarengewiss"
    workshop.names = long
    text = pages_of(make(garden, "name-tags", workshop=workshop))[0]
    assert long[:12] in text
    assert long in "".join(text.split())  # parted, not cut
    assert long not in text
    for paper in ("letter", "a4"):
        filled = 2 + tags_to_fill(2, 20, paper)
        assert filled >= 20
        assert filled % TAGS[paper].count == 0


def test_the_quiz_fits_one_side_with_its_answers_on_the_other(garden: Garden, workshop: Workshop) -> None:
    workshop.topics = list(TOPICS)
    made = make(garden, "quiz", workshop=workshop, place=None)
    questions, answers = pages_of(made)
    assert "Answers" in answers
    grids = [block for block in made.document.blocks if isinstance(block, Grid)]
    assert len(grids) == MOST_QUESTIONS + 1
    for asked, (_number, right, _why) in zip(grids, grids[-1].rows, strict=False):
        assert right in asked.rows[0]
    assert "Why" not in questions


def test_a_topic_is_made_for_a_guests_own_place(garden: Garden) -> None:
    crops = [tomato()]
    here = make(garden, "topic-by-crop", crops=crops, place=None, year=2026)
    guest = GuestPlace(name="Ida’s yard", last_frost="04-20")
    there = make(garden, "topic-by-crop", crops=crops, place=guest, year=2026)
    assert "May 17 – Jun 7" in " ".join(pages_of(here))  # one to four weeks after 10 May
    text = " ".join(pages_of(there))
    assert "Ida’s yard" in text
    assert "Apr 27 – May 18" in text
    assert "Counted from a mean last frost on April 20" in text


def test_without_chosen_crops_a_sheet_tells_of_what_is_planned(garden: Garden) -> None:
    asked = Asked(garden=garden, user=None, today=TODAY, paper="letter", language="en")
    beans = carrot(slug="bean", name="Bean")
    assert usual_crops(asked) == [beans]  # the whole catalogue of this test
    planted(PlotFactory(garden=garden), tomato())
    assert [crop.slug for crop in usual_crops(replace(asked, paper="a4"))] == ["tomato"]
