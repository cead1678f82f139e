"""Stakes on paper: codes that read, places that fit, and lines that meet on every sheet."""

from functools import cache
from io import BytesIO

from pypdf import PdfReader
from reportlab.lib.units import mm

from plots.qr import QUIET_ZONE, dark_runs
from schedules.reports import fonts
from schedules.reports.label_sheets import PAPERS_MM, SHEETS, pages_of, placed
from schedules.reports.stakes import Stake, StakePrint, largest, stakes_pdf
from schedules.wording.stakes import labels_text

LABELS = ["12", "A1", "Communal bed 12", "Straße der Einheit 7", "Kräuterbeet am Tor"]


def stakes(count: int) -> list[Stake]:
    return [
        Stake(LABELS[n % len(LABELS)], f"https://garden.example/at/CDF34MR{n:02d}/") for n in range(count)
    ]


def printed(sheet: str, count: int, **asked: object) -> PdfReader:
    made = StakePrint("Linden Row", "en", SHEETS[sheet], stakes(count), **asked)
    return PdfReader(BytesIO(stakes_pdf(made)))


@cache
def alone(sheet: str) -> list[tuple[bytes, tuple[float, ...]]]:
    """What is drawn of one label alone on its sheet."""
    return drawn(printed(sheet, 1).pages[0])


def drawn(page) -> list[tuple[bytes, tuple[float, ...]]]:
    """The page's rectangles (corner and far corner) and lines (from, to), in points from below left."""
    found: list[tuple[bytes, tuple[float, ...]]] = []
    at = (0.0, 0.0)

    def look(operator, operands, matrix, _text) -> None:
        nonlocal at
        numbers = [float(one) for one in operands] if operator in {b"re", b"m", b"l"} else []

        def put(x: float, y: float) -> tuple[float, float]:
            return (
                matrix[0] * x + matrix[2] * y + matrix[4],
                matrix[1] * x + matrix[3] * y + matrix[5],
            )

        if operator == b"re":
            x, y, width, height = numbers
            found.append((b"re", put(x, y) + put(x + width, y + height)))
        elif operator == b"m":
            at = put(*numbers)
        elif operator == b"l":
            found.append((b"l", at + put(*numbers)))

    page.extract_text(visitor_operand_before=look)
    return found


def lines(page) -> list[tuple[float, ...]]:
    return [tuple(round(n, 2) for n in numbers) for kind, numbers in drawn(page) if kind == b"l"]


def test_every_kind_of_sheet_fits_its_paper_with_room_for_the_check_line():
    wrong = {}
    for sheet in SHEETS.values():
        width, height = PAPERS_MM[sheet.paper]
        corners = [sheet.corner(place) for place in range(sheet.count)]
        right, bottom = corners[-1][0] + sheet.width, corners[-1][1] + sheet.height
        margins = (corners[0][0], width - right, corners[0][1], height - bottom)
        if abs(margins[0] - margins[1]) > 0.01 or min(margins[:2]) < 3.9 or min(margins[2:]) < 12.5:
            wrong[sheet.key] = margins
        if len(set(corners)) != sheet.count or sheet.gap < 0:
            wrong[sheet.key] = corners
    assert wrong == {}


def test_measures_are_told_in_the_units_of_the_paper():
    assert (
        labels_text(SHEETS["letter-30"])
        == "2⅝ × 1\N{NO-BREAK SPACE}in (66.7 × 25.4\N{NO-BREAK SPACE}mm), 30 a sheet"
    )
    assert labels_text(SHEETS["letter-6"]).startswith("4 × 3⅓\N{NO-BREAK SPACE}in")
    assert labels_text(SHEETS["a4-24"]) == "63.5 × 33.9\N{NO-BREAK SPACE}mm, 24 a sheet"


def test_a_part_used_sheet_is_begun_at_its_first_label():
    sheet = SHEETS["letter-10"]
    assert list(placed(3, sheet, first=9)) == [[(0, 8), (1, 9)], [(2, 0)]]
    assert pages_of(3, sheet, first=9) == 2
    assert pages_of(10, sheet) == 1


def test_the_code_on_paper_is_that_of_the_page_module_by_module():
    """Read back at the middle of each module, from what the page draws."""
    address = stakes(1)[0].address
    side, runs = dark_runs(address)
    modules = {(row, column + n) for row, column, length in runs for n in range(length)}
    for sheet in (SHEETS["letter-30"], SHEETS["a4-cards-4"]):
        bars = [numbers for kind, numbers in alone(sheet.key) if kind == b"re"]
        left, top = min(bar[0] for bar in bars), max(bar[3] for bar in bars)
        module = min(bar[3] - bar[1] for bar in bars)
        assert module > 0.45 * mm, sheet.key  # what a phone reads from a hand's breadth
        dark = [
            [
                any(
                    bar[0] < left + (column + 0.5) * module < bar[2]
                    and bar[1] < top - (row + 0.5) * module < bar[3]
                    for bar in bars
                )
                for column in range(side)
            ]
            for row in range(side)
        ]
        assert dark == [[(row, column) in modules for column in range(side)] for row in range(side)], (
            sheet.key
        )
        corner = sheet.corner(0)
        height = PAPERS_MM[sheet.paper][1]
        # The quiet zone lies within the label, beyond what a knife may be out by.
        assert left - QUIET_ZONE * module >= (corner[0] + 2.9) * mm
        assert top + QUIET_ZONE * module <= (height - corner[1] - 2.9) * mm


def test_cut_lines_are_the_same_on_all_sheets_and_the_other_side_lies_behind():
    sheet = SHEETS["letter-cards-4"]
    pages = printed(sheet.key, 6, backs=True).pages
    assert len(pages) == 4
    assert all(lines(page) == lines(pages[0]) for page in pages)
    across = sorted({x for x, _y, end, _end in lines(pages[0]) if x == end and _y == 0})
    assert across == [round((0.5 + 3.75 * n) * 72, 2) for n in range(3)]
    fronts, backs = ([bar[0] for kind, bar in drawn(page) if kind == b"re"] for page in pages[:2])
    width = PAPERS_MM["letter"][0] * mm
    middle = width / 2
    assert (fronts[0] < middle, backs[0] > middle) == (True, True)  # the first card changes its side
    assert round(backs[0] - fronts[0], 3) == round(3.75 * 72, 3)


def test_the_line_that_shows_the_scale_is_as_long_as_it_says():
    for key in SHEETS:
        level = [line for kind, line in alone(key) if kind == b"l" and line[1] == line[3] and line[0] > 0]
        assert [round((line[2] - line[0]) / mm, 1) for line in level] == [50.0], key


def test_edges_of_labels_are_drawn_on_a_trial_sheet_alone():
    def edges(**asked: bool) -> int:
        bars = [bar for kind, bar in drawn(printed("a4-8", 1, **asked).pages[0]) if kind == b"re"]
        return sum(abs(bar[2] - bar[0] - 99.1 * mm) < 0.01 for bar in bars)

    assert (edges(), edges(outlines=True)) == (0, 8)


def test_numbers_are_as_large_as_they_fit_and_whole():
    fonts.register()
    for label in [*LABELS, "W" * 20]:
        size, words = largest(label, 120, 60)
        assert size * len(words) <= 60.01
        assert all(fonts.width_of(word, size, fonts.BOLD) <= 120.01 for word in words)
        assert " ".join(words) == label
    assert largest("12", 120, 60)[0] > largest("Communal bed 12", 120, 60)[0] > 20


def test_a_label_says_number_garden_and_address_and_nobodys_name():
    text = printed("letter-10", 3, first=4).pages[0].extract_text()
    assert [word in text for word in ("Communal", "bed 12", "Linden Row", "garden.example/at/CDF34MR02")] == [
        True
    ] * 4
