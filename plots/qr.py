"""QR codes as one path, for page and paper alike: the matrix comes from reportlab's encoder.

Which of the eight masks is laid over it is chosen here, after the penalties of ISO/IEC 18004 (7.8.3): whole
matrices are compared as numbers of a bit for each module, in a tenth of the encoder's own time.
"""

from __future__ import annotations

from functools import cache, lru_cache
from xml.etree import ElementTree

from plots.markup import Svg

QUIET_ZONE = 4  # modules of paper around the code, as ISO/IEC 18004 asks

Run = tuple[int, int, int]
_MASKS = 8
# What looks like a finder: 1:1:3:1:1 with four light modules before or behind.
_FINDERS = ((1, 0, 1, 1, 1, 0, 1, 0, 0, 0, 0), (0, 0, 0, 0, 1, 0, 1, 1, 1, 0, 1))
_LONGEST = len(_FINDERS[0])


@lru_cache(maxsize=64)
def dark_runs(text: str) -> tuple[int, tuple[Run, ...]]:
    """The modules on a side, and the dark ones as runs: row from the top, first column, length.

    Error correction is level M: a fold or a drop of water on a card still reads.
    """
    from reportlab.graphics.barcode.qr import QrCodeWidget  # lazy: reportlab

    code = QrCodeWidget(text, barLevel="M").qr
    code.version = code.version or code.calculate_version()
    code.makeImpl(True, 0)
    places = frozenset(code.dataPosIterator())
    side, plain = len(code.modules), _bits(code.modules) ^ _mask(0, len(code.modules), places)
    best = min(range(_MASKS), key=lambda n: penalty(plain ^ _mask(n, side, places), side))
    code.makeImpl(False, best)
    modules: list[list[bool]] = code.modules
    return side, tuple(run for row, cells in enumerate(modules) for run in _runs(row, cells))


def _bits(modules: list[list[bool]]) -> int:
    """A matrix as a number: the module in column c of row r is bit r * side + c."""
    return int("".join("1" if cell else "0" for row in reversed(modules) for cell in reversed(row)), 2)


@lru_cache(maxsize=64)
def _mask(number: int, side: int, places: frozenset[tuple[int, int]]) -> int:
    """What a mask turns round: `places` are columns and rows of data."""
    from reportlab.graphics.barcode.qrencoder import QRUtil  # lazy: reportlab

    turns = QRUtil.getMask(number)
    return sum(1 << row * side + column for column, row in places if turns(row, column))


def penalty(matrix: int, side: int) -> int:
    """How hard a matrix is to read, after the standard: long runs, blocks, false finders, imbalance."""
    across, down = _rooms(side)
    points = 0
    for step, room in ((1, across), (side, down)):
        same = ~(matrix ^ matrix >> step) & room[1]
        five = same & same >> step & same >> 2 * step & same >> 3 * step
        points += five.bit_count() + 2 * (five & ~(five << step)).bit_count()
        for pattern in _FINDERS:
            found = room[len(pattern) - 1]
            for at, dark in enumerate(pattern):
                moved = matrix >> at * step
                found &= moved if dark else ~moved
            points += 40 * found.bit_count()
    beside = ~(matrix ^ matrix >> 1) & across[1]
    points += 3 * (beside & beside >> side & ~(matrix ^ matrix >> side)).bit_count()
    return points + 10 * (abs(100 * matrix.bit_count() // (side * side) - 50) // 5)


@cache
def _rooms(side: int) -> tuple[tuple[int, ...], tuple[int, ...]]:
    """Across and down: the modules that have as many others behind them as the place in the tuple says."""
    rows = range(0, side * side, side)
    across = tuple(sum((1 << side - n) - 1 << row for row in rows) for n in range(_LONGEST))
    return across, tuple((1 << side * (side - n)) - 1 for n in range(_LONGEST))


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
