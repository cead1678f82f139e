"""The marks of the season strip, one for each operation, told apart by shape alone.

Start indoors is a row of dots under a frame, sow a row of dots, harden off a broken line, transplant carets,
thin slashes, harvest a solid thick bar. An upright stroke stands at the best day, a hook
where it was done.
"""

from __future__ import annotations

from collections.abc import Callable

from reportlab.graphics.shapes import Shape

from schedules.reports import ink

# The height that a mark and its best-day stroke need, and the shortest a mark is drawn.
LANE = 15.0
SHORTEST = 3.5
_CUT = 8.0


def dots(x1: float, x2: float, y: float) -> list[Shape]:
    """A row of dots from x1 to x2: one broken line with round ends, so that a long row is one shape."""
    start, length = x1 + 1.6, max(x2 - x1 - 3.2, 0.02)
    gap = length / max(1, round(length / 5.2))
    return [
        ink.line((start, y), (start + length + 0.02, y), width=3.2, dash=(0.02, gap - 0.02), round_ends=True)
    ]


def framed_dots(x1: float, x2: float, y: float) -> list[Shape]:
    """A row of dots under a frame's light."""
    frame = [(x1, y - 3.2), (x1, y + 4.4), (x2, y + 4.4), (x2, y - 3.2)]
    return [ink.polyline(frame, width=1.1), *dots(x1 + 2, x2 - 2, y - 0.6)]


def broken_line(x1: float, x2: float, y: float) -> list[Shape]:
    """A broken line that begins and ends with a dash."""
    length = x2 - x1
    pairs = max(0, round((length - 6) / 9.5))
    piece = length / (pairs * 1.6 + 1)
    return [ink.line((x1, y), (x2, y), width=2.2, dash=(piece, piece * 0.6) if pairs else None)]


def carets(x1: float, x2: float, y: float) -> list[Shape]:
    """A row of carets."""
    half = 3.2
    return [
        ink.strokes(
            [[(x - half, y - 3), (x, y + 3.4), (x + half, y - 3)] for x in _spread(x1, x2, half, 9.5)]
        )
    ]


def slashes(x1: float, x2: float, y: float) -> list[Shape]:
    """A row of slashes."""
    return [ink.strokes([[(x - 1.8, y - 4), (x + 1.8, y + 4)] for x in _spread(x1, x2, 1.8, 5.5)], width=1.3)]


def bar(x1: float, x2: float, y: float) -> list[Shape]:
    """A solid thick bar."""
    return [ink.line((x1, y), (x2, y), width=6.5)]


def best_day(operation: str, x: float, y: float) -> list[Shape]:
    """The upright stroke; on a harvest's bar it has paper either side, to show."""
    stroke = ink.line((x, y - LANE / 2 + 0.6), (x, y + LANE / 2 - 0.6), width=1.9)
    return [ink.line((x, y - 4), (x, y + 4), ink.PAPER, 4.4), stroke] if operation == "harvest" else [stroke]


def done_day(x: float, y: float) -> list[Shape]:
    """The hook at the day on which something was done, with paper behind it."""
    hook = [(x - 3.6, y + 0.4), (x - 1.0, y - 3.2), (x + 4.4, y + 5.2)]
    return [ink.polyline(hook, ink.PAPER, 5.0), ink.polyline(hook, width=1.9)]


MARKS: dict[str, Callable[[float, float, float], list[Shape]]] = {
    "start-indoors": framed_dots,
    "sow": dots,
    "harden-off": broken_line,
    "transplant": carets,
    "thin": slashes,
    "harvest": bar,
}


def draw(operation: str, x1: float, x2: float, y: float) -> list[Shape]:
    """The mark of `operation` from x1 to x2 on the line y, never shorter than can be seen."""
    middle, half = (x1 + x2) / 2, max(x2 - x1, SHORTEST) / 2
    return MARKS[operation](middle - half, middle + half, y)


def window(
    operation: str, x1: float, x2: float, y: float, *, before: bool = False, after: bool = False
) -> list[Shape]:
    """The mark from x1 to x2, with an angle where the window began `before` x1 or goes on `after` x2."""
    angles: list[Shape] = []
    if before:
        x1 += _CUT
        angles.append(ink.strokes([[(x1 - 2, y + 5), (x1 - _CUT + 1, y), (x1 - 2, y - 5)]]))
    if after:
        x2 -= _CUT
        angles.append(ink.strokes([[(x2 + 2, y + 5), (x2 + _CUT - 1, y), (x2 + 2, y - 5)]]))
    return [*angles, *draw(operation, x1, x2, y)]


def _spread(x1: float, x2: float, half: float, pitch: float) -> list[float]:
    """Middles of signs `half` wide to either side, edge to edge about `pitch` apart; a lone one if short."""
    room = x2 - x1 - 2 * half
    if room < pitch / 2:
        return [(x1 + x2) / 2]
    count = max(1, round(room / pitch))
    return [x1 + half + room * n / count for n in range(count + 1)]
