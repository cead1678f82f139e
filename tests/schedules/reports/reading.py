"""Sheets read back as a reader of the file would: pages, text, and what stands where in which size."""

from dataclasses import dataclass
from io import BytesIO

from pypdf import PageObject, PdfReader

from schedules.reports import fonts

_FACES = {"Regular": fonts.BODY, "SemiBold": fonts.BOLD, "Italic": fonts.ITALIC, "Light": fonts.LIGHT}


@dataclass(frozen=True)
class Run:
    """A run of text as drawn: its left end, the line it stands on and its width, in points."""

    text: str
    left: float
    bottom: float
    width: float
    size: float


@dataclass(frozen=True)
class Sheet:
    """One page of a file: its size in points, its text with single spaces, every run of Fira Sans on it."""

    width: float
    height: float
    text: str
    runs: list[Run]


@dataclass(frozen=True)
class Printed:
    """A whole file."""

    reader: PdfReader
    pages: list[Sheet]

    @property
    def text(self) -> str:
        return " ".join(page.text for page in self.pages)

    @property
    def closed(self) -> str:
        """Without spaces, since a line may break anywhere between words."""
        return close(self.text)

    @property
    def smallest(self) -> float:
        """The size of the smallest letters."""
        return min(run.size for page in self.pages for run in page.runs)

    def faults(self, margin: float) -> list[str]:
        """What stands nearer than `margin` points to an edge of its page, or lies on other text."""
        return [fault for page in self.pages for fault in (*_outside(page, margin), *_crowded(page))]


def read(pdf: bytes) -> Printed:
    reader = PdfReader(BytesIO(pdf))
    return Printed(reader, [_sheet(page) for page in reader.pages])


def close(text: str) -> str:
    return "".join(text.split())


def _sheet(page: PageObject) -> Sheet:
    runs: list[Run] = []

    def visit(text, matrix, text_matrix, font, size):
        face = _FACES.get(str(font["/BaseFont"]).rpartition("-")[2]) if font else None
        if text.strip() and face:
            across, up = matrix[0], matrix[3]
            left = text_matrix[4] * across + matrix[4]
            bottom = text_matrix[5] * up + matrix[5]
            drawn = size * across
            width = fonts.width_of(text.strip("\n"), drawn, face)
            runs.append(Run(text.strip(), left, bottom, width, round(drawn, 2)))

    text = page.extract_text(visitor_text=visit)
    return Sheet(float(page.mediabox.width), float(page.mediabox.height), " ".join(text.split()), runs)


def _outside(page: Sheet, margin: float) -> list[str]:
    return [
        f"outside: {run.text}"
        for run in page.runs
        if run.left < margin - 0.5
        or run.left + run.width > page.width - margin + 0.5
        or not 14 <= run.bottom <= page.height - margin
    ]


def _crowded(page: Sheet) -> list[str]:
    wrong = []
    runs = sorted(page.runs, key=lambda run: run.bottom)
    for n, one in enumerate(runs):
        for other in runs[n + 1 :]:
            if other.bottom - one.bottom >= 0.6 * one.size:
                break
            apart = one.left + one.width <= other.left + 1.5 or other.left + other.width <= one.left + 1.5
            if not apart and other.bottom - one.bottom < 0.6 * other.size:
                wrong.append(f"crowded: {one.text} | {other.text}")
    return wrong
