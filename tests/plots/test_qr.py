"""QR codes: the drawn runs are the encoder's matrix, on page and paper."""

import re
from xml.etree import ElementTree

from reportlab.graphics.barcode.qr import QrCodeWidget

from plots.qr import QUIET_ZONE, dark_runs, penalty, qr_svg
from schedules.reports.qr_paper import qr_drawing

LINK = "https://garden.example/link/Zx81kQ0Zx81kQ0Zx81kQ0Zx81kQ0Zx81kQ0Zx81kQ0Z/"


Matrix = list[list[bool]]


def matrices(*, unwritten: bool = False) -> list[Matrix]:
    """The encoder's matrix under each mask; `unwritten` without its number, as it is judged."""
    code = QrCodeWidget(LINK, barLevel="M").qr
    code.make()
    found = []
    for mask in range(8):
        code.makeImpl(unwritten, mask)
        found.append([[bool(cell) for cell in row] for row in code.modules])
    return found


def counted(matrix: Matrix) -> int:
    """The penalty of ISO/IEC 18004, 7.8.3 (table 11; value from memory), module by module."""
    side, points = len(matrix), 0
    for line in (*matrix, *map(list, zip(*matrix, strict=True))):
        text = "".join("#" if cell else "." for cell in line)
        points += sum(len(run) - 2 for run in re.findall(r"#{5,}|\.{5,}", text))
        points += 40 * sum(text[n : n + 11] in ("#.###.#....", "....#.###.#") for n in range(side))
    for r in range(side - 1):
        for c in range(side - 1):
            points += 3 * (len({matrix[r + y][c + x] for y in (0, 1) for x in (0, 1)}) == 1)
    share = 100 * sum(map(sum, matrix)) // side**2
    return points + 10 * (abs(share - 50) // 5)


def test_the_runs_cover_just_the_dark_modules_under_the_mask_of_the_lowest_penalty():
    side, runs = dark_runs(LINK)
    dark = {(row, column + n) for row, column, length in runs for n in range(length)}
    penalties = [counted(one) for one in matrices(unwritten=True)]
    expected = matrices()[penalties.index(min(penalties))]
    assert side == len(expected)
    assert dark == {(r, c) for r in range(side) for c in range(side) if expected[r][c]}


def test_penalties_are_those_counted_module_by_module():
    for one in matrices():
        number = sum(1 << r * len(one) + c for r, row in enumerate(one) for c, cell in enumerate(row) if cell)
        assert penalty(number, len(one)) == counted(one)


def test_the_page_draws_one_path_without_a_style():
    drawn = qr_svg(LINK, 'A "link" & more')
    root = ElementTree.fromstring(drawn)  # noqa: S314  our own
    assert root.get("aria-label") == 'A "link" & more'
    assert "style" not in drawn
    (path,) = root.findall("path")
    steps = re.findall(r"M(\d+) (\d+)h(\d+)v1h-\d+z", path.get("d"))
    runs = [(int(y) - QUIET_ZONE, int(x) - QUIET_ZONE, int(n)) for x, y, n in steps]
    assert tuple(runs) == dark_runs(LINK)[1]


def test_on_paper_the_code_keeps_its_quiet_zone():
    (path,) = qr_drawing(LINK, 100).contents
    zone = 100 / (dark_runs(LINK)[0] + 2 * QUIET_ZONE) * QUIET_ZONE
    xs, ys = path.points[::2], path.points[1::2]
    edges = [min(xs), min(ys), 100 - max(xs), 100 - max(ys)]
    assert [round(edge, 6) for edge in edges] == [round(zone, 6)] * 4
