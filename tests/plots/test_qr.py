"""QR codes: the drawn runs are the encoder's matrix, on page and paper."""

import re
from xml.etree import ElementTree

from reportlab.graphics.barcode.qr import QrCodeWidget

from plots.qr import QUIET_ZONE, dark_runs, qr_svg
from schedules.reports.qr_paper import qr_drawing

LINK = "https://garden.example/link/Zx81kQ0Zx81kQ0Zx81kQ0Zx81kQ0Zx81kQ0Zx81kQ0Z/"


def matrix() -> list[list[bool]]:
    code = QrCodeWidget(LINK, barLevel="M").qr
    code.make()
    return code.modules


def test_the_runs_cover_just_the_dark_modules():
    side, runs = dark_runs(LINK)
    dark = {(row, column + n) for row, column, length in runs for n in range(length)}
    expected = matrix()
    assert side == len(expected)
    assert dark == {(r, c) for r in range(side) for c in range(side) if expected[r][c]}


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
    zone = 100 / (len(matrix()) + 2 * QUIET_ZONE) * QUIET_ZONE
    xs, ys = path.points[::2], path.points[1::2]
    edges = [min(xs), min(ys), 100 - max(xs), 100 - max(ys)]
    assert [round(edge, 6) for edge in edges] == [round(zone, 6)] * 4
