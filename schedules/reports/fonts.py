"""The typefaces of drawings and paper, and text made fit to be set in them.

Fira Sans (SIL Open Font License) covers Latin, Vietnamese, Greek and Cyrillic, and is used wherever it can
be; runs of Hebrew, Arabic and East Asian writing take the faces in `_OTHERS`, which have one weight each.
Text is kept in the order it is read in until it is set: `runs` joins and turns round what is written from the
right, after UAX 9, line by line. What no typeface has is replaced by words in brackets rather than drawn as
empty boxes, and remembered, so that a sheet can say so.
"""

from __future__ import annotations

import importlib.util
import re
import unicodedata
from collections.abc import Iterator, MutableSet
from dataclasses import dataclass
from functools import cache, lru_cache
from itertools import groupby
from pathlib import Path
from typing import TYPE_CHECKING
from xml.sax.saxutils import escape

if TYPE_CHECKING:
    from reportlab.pdfgen.canvas import Canvas

BODY, BOLD, ITALIC, BOLD_ITALIC, LIGHT = "Fira", "Fira-Bold", "Fira-Italic", "Fira-BoldItalic", "Fira-Light"
_FILES = {BODY: "Regular", BOLD: "SemiBold", ITALIC: "Italic", BOLD_ITALIC: "SemiBoldItalic", LIGHT: "Light"}


@dataclass(frozen=True, slots=True)
class _Face:
    """A typeface for scripts that Fira Sans lacks, where its file lies, and the code points it is for."""

    name: str
    package: str
    file: str
    ranges: tuple[tuple[int, int], ...]


_OTHERS = (
    _Face("Varela", "fontpkg_varela_round", "files/VarelaRound-Regular.ttf", ((0x0590, 0x05FF),)),
    _Face(
        "NotoArabic",
        "fontpkg_noto_sans_arabic",
        "files/NotoSansArabic[wdth,wght].ttf",
        ((0x0600, 0x06FF), (0x0750, 0x077F), (0xFB50, 0xFDFF), (0xFE70, 0xFEFC)),
    ),
    _Face(
        "WenQuanYi",
        "paperang_p2_fonts_cjk",
        "fonts/wqy-microhei.ttc",
        ((0x2E80, 0x9FFF), (0xAC00, 0xD7A3), (0xF900, 0xFAFF), (0xFE30, 0xFE4F), (0xFF01, 0xFFEE)),
    ),
)
_MARK = "\u034f"  # a mark that shows nothing and goes wherever the letter before it goes
_NO_BREAK = "\u00a0"
_BREAKS = re.compile(r"[^\S\u00a0]+")  # every space but the one that is not to be broken at
_JOINERS = "\u200c\u200d"  # they show nothing, and say how Arabic letters are joined
# What a typist means by a character that the fonts lack.
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
    """Make the five styles of Fira Sans known to reportlab, once in a process."""
    from reportlab import rl_config
    from reportlab.graphics.shapes import STATE_DEFAULTS
    from reportlab.pdfbase import pdfmetrics
    from reportlab.pdfbase.ttfonts import TTFont

    # Pages need not be letters: spelling their bytes out takes longer than all else, and a quarter more room.
    rl_config.useA85 = 0
    folder = _folder("fontpkg_fira_sans") / "files"
    for name, style in _FILES.items():
        pdfmetrics.registerFont(TTFont(name, folder / f"FiraSans-{style}.ttf"))
    pdfmetrics.registerFontFamily(BODY, normal=BODY, bold=BOLD, italic=ITALIC, boldItalic=BOLD_ITALIC)
    # A drawing begins with reportlab's own font, which would then be named in the file and not embedded.
    STATE_DEFAULTS["fontName"] = BODY


def _folder(package: str) -> Path:
    spec = importlib.util.find_spec(package)
    if spec is None or spec.origin is None:
        raise ModuleNotFoundError(f"{package} is not installed: the sheets lack a typeface without it.")
    return Path(spec.origin).parent


@cache
def _common() -> frozenset[str]:
    """The characters that all styles of Fira Sans have."""
    from reportlab.pdfbase import pdfmetrics

    register()
    return frozenset(
        map(chr, set.intersection(*(set(pdfmetrics.getFont(name).face.charToGlyph) for name in _FILES)))
    )


@cache
def _plain() -> frozenset[str]:
    """Those of them that need no second look."""
    return frozenset(
        c
        for c in _common()
        if unicodedata.category(c)[0] not in "CM"
        and (c == " " or not c.isspace())
        and unicodedata.is_normalized("NFC", c)
    )


@cache
def _glyphs(face: _Face) -> frozenset[int]:
    """Registers the face, the first time that somebody's name wants it."""
    from reportlab.pdfbase import pdfmetrics
    from reportlab.pdfbase.ttfonts import TTFont

    pdfmetrics.registerFont(TTFont(face.name, _folder(face.package) / face.file))
    # The bold and the slanted of a face of one weight are the face itself.
    pdfmetrics.registerFontFamily(face.name, face.name, face.name, face.name, face.name)
    return frozenset(pdfmetrics.getFont(face.name).face.charToGlyph)


@cache
def _face_of(character: str) -> str | None:
    """The typeface for one character: "" for Fira Sans in whatever style, `None` where nothing has it."""
    if character in _common():
        return ""
    code = ord(character)
    for face in _OTHERS:
        if any(first <= code <= last for first, last in face.ranges) and code in _glyphs(face):
            return face.name
    return None


def is_plain(text: str) -> bool:
    """Whether Fira Sans alone sets it, just as it stands."""
    return _plain().issuperset(text)


def legible(text: str, missing: MutableSet[str] | None = None) -> str:
    """`text` composed (NFC), with every character that the fonts lack written out.

    Those go into `missing` too. Letters of other scripts become the script's name, once for a run of them,
    signs their own name. The order stays that of reading.
    """
    if is_plain(text):
        return text
    composed = unicodedata.normalize("NFC", text)
    keeps_joiners = any(_direction(character) == "AL" for character in composed)
    parts: list[str] = []
    for character in composed:
        if unicodedata.category(character) == "Cf":  # joiners and soft hyphens show nothing themselves
            if keeps_joiners and character in _JOINERS:
                parts.append(character)
        elif character.isspace():
            parts.append(" " if character != "\n" else "\n")
        elif unicodedata.category(character) == "Mn" and _is_point(character):
            continue  # vowel points: nothing here can place them, and they are read without
        elif _face_of(character) is not None:
            parts.append(character)
        else:
            words, lost = _written_out(character)
            if lost and missing is not None:
                missing.add(character)
            if lost and parts[-2:] == [words, " "]:  # a name of several words
                parts.pop()
            elif words and not (lost and parts and parts[-1] == words):
                parts.append(words)
    return "".join(parts)


def _written_out(character: str) -> tuple[str, bool]:
    """What stands for a character that the fonts lack, and whether the character itself is lost by it."""
    if character in _STAND_INS:
        return _STAND_INS[character], False
    plain = "".join(c for c in unicodedata.normalize("NFKD", character) if _face_of(c) is not None)
    if plain or unicodedata.category(character)[0] in "CM":
        return plain, False
    name = unicodedata.name(character, "sign").lower()
    if not character.isalpha():
        return f"[{name}]", True
    script = name.split()[0].split("-")[0]
    return f"[{_PLAINER.get(script, script.title())}]", True


def _is_point(mark: str) -> bool:
    return "\u0590" <= mark <= "\u06ff"


@cache
def _direction(character: str) -> str:
    return unicodedata.bidirectional(character)


def from_the_right(text: str) -> bool:
    """Whether a paragraph is read from the right: by its first letter of either direction (UAX 9, P2 and P3).

    >>> from_the_right("שלום, Ana"), from_the_right("Ana, שלום")
    (True, False)
    """
    if is_plain(text):
        return False
    return next((_direction(c) != "L" for c in text if _direction(c) in ("L", "R", "AL")), False)


def has_two_directions(text: str) -> bool:
    """Whether any of it is read from the right."""
    return not is_plain(text) and any(_direction(c) in ("R", "AL") for c in text)


@lru_cache(maxsize=4096)
def runs(text: str, font: str = BODY, from_right: bool | None = None) -> tuple[tuple[str, str], ...]:
    """One line of legible text as it is set, from left to right: pairs of a font's name and its characters.

    `from_right` is the direction of the paragraph that the line is of, where the line alone does not tell.
    """
    if is_plain(text):
        return ((font, text),)
    if has_two_directions(text):
        text = _turned(text, from_the_right(text) if from_right is None else from_right)
    pieces = ((_face_of(c), c) for c in text if c not in _JOINERS)
    return tuple(
        (name or font, "".join(c for _name, c in found))
        for name, found in groupby(pieces, key=lambda p: p[0])
    )


def _turned(text: str, from_right: bool) -> str:
    """The line in the order of seeing, its brackets mirrored where they are read from the right (rule L4)."""
    from arabic_reshaper import reshape
    from bidi import get_display

    joined = reshape(text) if any(_direction(c) == "AL" for c in text) else text
    # The package mirrors nothing. A mark put behind each bracket stands before it where the order is turned.
    marked = "".join(c + _MARK if unicodedata.mirrored(c) else c for c in joined.replace(_MARK, ""))
    seen = iter(str(get_display(marked, base_dir="R" if from_right else "L")))
    shown = []
    for character in seen:
        if character == _MARK:
            shown.append(_mirrored(next(seen)))
        else:
            shown.append(character)
            if unicodedata.mirrored(character):
                next(seen)
    return "".join(shown)


@cache
def _mirrored(bracket: str) -> str:
    """Its other one, by name: of “left parenthesis” the right one; itself where it has none."""
    name = unicodedata.name(bracket)
    for one, other in (("LEFT", "RIGHT"), ("RIGHT", "LEFT"), ("LESS", "GREATER"), ("GREATER", "LESS")):
        if one in name:
            try:
                return unicodedata.lookup(name.replace(one, other, 1))
            except KeyError:
                return bracket
    return bracket


def markup(text: str, missing: MutableSet[str] | None = None) -> str:
    """`text` made legible and escaped for reportlab's paragraphs, which would obey tags typed by people.

    Runs in other typefaces are marked. Text with a part that is read from the right must be one line of its
    paragraph already: see `broken`.
    """
    if is_plain(text):
        return escape(text)
    # `legible` makes spaces of all spaces; a paragraph keeps those that are not to be broken at.
    return _NO_BREAK.join(marked(legible(part, missing), None) for part in text.split(_NO_BREAK))


def marked(line: str, from_right: bool | None) -> str:
    """The same for a line that is legible already, of a paragraph read from the right or not."""
    return "".join(
        escape(part) if font == BODY else f'<font name="{font}">{escape(part)}</font>'
        for font, part in runs(line, BODY, from_right)
    )


def width_of(text: str, size: float, font: str = BODY) -> float:
    """How wide legible `text` runs in points at `size`, on one line."""
    from reportlab.pdfbase.pdfmetrics import stringWidth

    register()
    return sum(float(stringWidth(part, name, size)) for name, part in runs(text, font))


def draw(
    canvas: Canvas,
    x: float,
    y: float,
    text: str,
    size: float,
    font: str = BODY,
    *,
    anchor: str = "start",
    from_right: bool | None = None,
) -> None:
    """A line of legible text straight onto a page; `anchor` is start, middle or end."""
    if anchor != "start":
        x -= width_of(text, size, font) * (0.5 if anchor == "middle" else 1.0)
    for name, part in runs(text, font, from_right):
        canvas.setFont(name, size)
        canvas.drawString(x, y, part)
        x += canvas.stringWidth(part, name, size)


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


def broken(text: str, size: float, room: float, font: str = BODY) -> list[str]:
    """`text` in as many lines as it takes, no wider than `room` points, in the order of reading.

    Broken at spaces, but not at those that ask not to be, and within a word only where the word is wider
    than a line, behind a hyphen if it has one.
    """
    done: list[str] = []
    line = ""
    for word in _words(text, size, room, font):
        longer = f"{line} {word}" if line else word
        if line and width_of(longer, size, font) > room:
            done.append(line)
            line = word
        else:
            line = longer
    lines = [*done, line] if line or not done else done
    return [one.replace("\u00a0", " ") for one in lines]


def _words(text: str, size: float, room: float, font: str) -> Iterator[str]:
    for word in _BREAKS.split(text.strip()):
        while len(word) > 1 and width_of(word, size, font) > room:
            cut = next((n for n in range(len(word) - 1, 1, -1) if width_of(word[:n], size, font) <= room), 1)
            cut = word.rfind("-", 1, cut) + 1 or cut
            yield word[:cut]
            word = word[cut:]
        yield word
