"""Fira Sans for drawings and paper, and text made fit to be set in it.

Fira Sans (SIL Open Font License) covers Latin, Vietnamese, Greek and Cyrillic. What it lacks is replaced by
words in brackets rather than drawn as empty boxes, and remembered, so that a sheet can say so.
"""

from __future__ import annotations

import importlib.util
import unicodedata
from collections.abc import MutableSet
from functools import cache
from pathlib import Path
from xml.sax.saxutils import escape

BODY, BOLD, ITALIC, BOLD_ITALIC, LIGHT = "Fira", "Fira-Bold", "Fira-Italic", "Fira-BoldItalic", "Fira-Light"
_FILES = {BODY: "Regular", BOLD: "SemiBold", ITALIC: "Italic", BOLD_ITALIC: "SemiBoldItalic", LIGHT: "Light"}
# What a typist means by a character that the font lacks.
_STAND_INS = {
    "′": "'",
    "″": '"',
    "✗": "x",
    "☐": "[ ]",
    "☑": "[x]",
    "✓": "[x]",
}

# Unicode's names of scripts that few people know by them.
_PLAINER = {"cjk": "Chinese or Japanese", "hiragana": "Japanese", "katakana": "Japanese", "hangul": "Korean"}


@cache
def register() -> None:
    """Make the five styles known to reportlab, once in a process."""
    from reportlab.graphics.shapes import STATE_DEFAULTS
    from reportlab.pdfbase import pdfmetrics
    from reportlab.pdfbase.ttfonts import TTFont

    spec = importlib.util.find_spec("fontpkg_fira_sans")
    if spec is None or spec.origin is None:
        raise ModuleNotFoundError(
            "fontpkg-fira-sans is not installed: the sheets have no typeface without it."
        )
    folder = Path(spec.origin).parent / "files"
    for name, style in _FILES.items():
        pdfmetrics.registerFont(TTFont(name, folder / f"FiraSans-{style}.ttf"))
    pdfmetrics.registerFontFamily(BODY, normal=BODY, bold=BOLD, italic=ITALIC, boldItalic=BOLD_ITALIC)
    # A drawing begins with reportlab's own font, which would then be named in the file and not embedded.
    STATE_DEFAULTS["fontName"] = BODY


@cache
def _glyphs() -> frozenset[int]:
    from reportlab.pdfbase import pdfmetrics

    register()
    common = (set(pdfmetrics.getFont(name).face.charToGlyph) for name in _FILES)
    return frozenset(set.intersection(*common))


def legible(text: str, missing: MutableSet[str] | None = None) -> str:
    """`text` composed (NFC), with every character that the font lacks written out.

    Those go into `missing` too. Letters of other scripts become the script's name, once for a run of them,
    signs their own name.
    """
    composed = unicodedata.normalize("NFC", text)
    parts: list[str] = []
    for character in composed:
        if unicodedata.category(character) == "Cf":  # joiners and soft hyphens show nothing themselves
            continue
        if character.isspace():
            parts.append(" " if character != "\n" else "\n")
        elif ord(character) in _glyphs():
            parts.append(character)
        else:
            words, lost = _written_out(character)
            if lost and missing is not None:
                missing.add(character)
            if not (lost and parts and parts[-1] == words):
                parts.append(words)
    return "".join(parts)


def _written_out(character: str) -> tuple[str, bool]:
    """What stands for a character that the font lacks, and whether the character itself is lost by it."""
    if character in _STAND_INS:
        return _STAND_INS[character], False
    plain = "".join(c for c in unicodedata.normalize("NFKD", character) if ord(c) in _glyphs())
    if plain or unicodedata.category(character)[0] in "CM":
        return plain, False
    name = unicodedata.name(character, "sign").lower()
    if not character.isalpha():
        return f"[{name}]", True
    script = name.split()[0].split("-")[0]
    return f"[{_PLAINER.get(script, script.title())}]", True


def markup(text: str, missing: MutableSet[str] | None = None) -> str:
    """`text` made legible and escaped for reportlab's paragraphs, which would obey tags typed by people."""
    return escape(legible(text, missing))


def width_of(text: str, size: float, font: str = BODY) -> float:
    """How wide `text` runs in points at `size`."""
    from reportlab.pdfbase.pdfmetrics import stringWidth

    register()
    return float(stringWidth(text, font, size))


def shortened(text: str, size: float, room: float, font: str = BODY) -> str:
    """`text`, or as much of its beginning as fits into `room` points, ending in an ellipsis."""
    if width_of(text, size, font) <= room:
        return text
    low, high = 0, len(text)
    while low < high:
        middle = (low + high + 1) // 2
        if width_of(text[:middle].rstrip() + "…", size, font) <= room:
            low = middle
        else:
            high = middle - 1
    return text[:low].rstrip() + "…"


def wrapped(text: str, size: float, room: float, lines: int, font: str = BODY) -> list[str]:
    """`text` in at most `lines` lines no wider than `room` points, broken at spaces, the last shortened."""
    done: list[str] = []
    words = text.split()
    while words:
        if len(done) == lines - 1:
            return [*done, shortened(" ".join(words), size, room, font)]
        line = words.pop(0)
        while words and width_of(f"{line} {words[0]}", size, font) <= room:
            line = f"{line} {words.pop(0)}"
        done.append(shortened(line, size, room, font))
    return done or [""]
