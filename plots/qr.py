"""QR codes as one path, for page and paper alike: the matrix comes from reportlab's encoder."""

from __future__ import annotations

from functools import lru_cache
from xml.etree import ElementTree

from plots.markup import Svg

QUIET_ZONE = 4  # modules of paper around the code, as ISO/IEC 18004 asks

Run = tuple[int, int, int]


@lru_cache(maxsize=64)
def dark_runs(text: str) -> tuple[int, tuple[Run, ...]]:
    """The modules on a side, and the dark ones as runs: row from the top, first column, length.

    Error correction is level M: a fold or a drop of water on a card still reads.
    """
    from reportlab.graphics.barcode.qr import QrCodeWidget  # lazy: reportlab

    code = QrCodeWidget(text, barLevel="M").qr
    code.make()
    modules: list[list[bool]] = code.modules
    return len(modules), tuple(run for row, cells in enumerate(modules) for run in _runs(row, cells))


def _runs(row: int, cells: list[bool]) -> list[Run]:
    """
    >>> _runs(3, [True, True, False, True])
    [(3, 0, 2), (3, 3, 1)]
    """
    edges = [n for n in range(len(cells) + 1) if (n < len(cells) and cells[n]) != (n > 0 and cells[n - 1])]
    return [(row, start, end - start) for start, end in zip(edges[::2], edges[1::2], strict=True)]


def qr_svg(text: str, label: str) -> Svg:
    """The code as one path; its colours come from the stylesheet, dark on light in any theme."""
    side, runs = dark_runs(text)
    whole = side + 2 * QUIET_ZONE
    root = ElementTree.Element(
        "svg", {"class": "qr", "viewBox": f"0 0 {whole} {whole}", "role": "img", "aria-label": label}
    )
    ElementTree.SubElement(root, "rect", {"class": "light", "width": str(whole), "height": str(whole)})
    drawn = "".join(f"M{x + QUIET_ZONE} {row + QUIET_ZONE}h{n}v1h-{n}z" for row, x, n in runs)
    ElementTree.SubElement(root, "path", {"class": "dark", "d": drawn})
    return Svg(ElementTree.tostring(root, encoding="unicode"))
