"""Reading a sign-in sheet that is typed in from paper: a line for each person who came.

ha 2.5                      enough of a member's name to tell them from others, or how they sign in
Tom Beckwith 9-12           hours, or from when until when
rosalie                     as long as the workday took
+ Pat Ashby 2               somebody who is not a member
"""

from __future__ import annotations

import unicodedata
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from plots.hours import HoursError, parse_minutes
from plots.spelling import folded, tidy

# Letters that are not made of a plain one and an accent, as people without them type them.
_PLAIN = str.maketrans({"đ": "d", "ł": "l", "ø": "o", "æ": "ae", "œ": "oe", "ı": "i", "ð": "d", "þ": "th"})
_LONGEST_TIME = 4  # words: "2 h 30 min"


@dataclass(frozen=True, slots=True)
class Known:
    """Somebody who may stand on the sheet; `also` is what they sign in with."""

    person: int
    name: str
    also: str = ""


@dataclass(frozen=True, slots=True)
class Came:
    """A line read: a member (`person`) or a guest, and for how long."""

    line: int
    person: int | None
    guest: str
    minutes: int


@dataclass(frozen=True, slots=True)
class Fault:
    """A line that cannot be read: `code` says why; whom it may mean, or which line it repeats (0: above)."""

    line: int
    text: str
    code: str
    names: tuple[str, ...] = ()
    earlier: int = 0


def plain(text: str) -> str:
    """Text without case and accents, to compare names that are typed in a hurry.

    >>> plain("Żaneta Mączka"), plain("Đặng Thu Hà")
    ('zaneta maczka', 'dang thu ha')
    """
    apart = unicodedata.normalize("NFKD", folded(text).translate(_PLAIN))
    return "".join(letter for letter in apart if not unicodedata.combining(letter))


def read_lines(
    text: str, known: Sequence[Known], *, usual: int, taken: Iterable[int] = (), guests: Iterable[str] = ()
) -> tuple[list[Came], list[Fault]]:
    """Everybody on the lines, and the lines that say something else; `usual` minutes where none are given.

    Empty lines count for the number of a line and nothing else. People in `taken` and the named `guests`
    stand on the sheet already.
    """
    came: list[Came] = []
    faults: list[Fault] = []
    lines_of: dict[object, int] = dict.fromkeys([*taken, *(plain(guest) for guest in guests)], 0)
    for number, line in enumerate(text.splitlines(), start=1):
        words = tidy(line)
        if not words:
            continue
        read = _read_line(number, words, known, usual)
        if isinstance(read, Came):
            who: object = read.person if read.person is not None else plain(read.guest)
            if who in lines_of:
                read = Fault(number, words, "twice", earlier=lines_of[who])
            else:
                lines_of[who] = number
        if isinstance(read, Came):
            came.append(read)
        else:
            faults.append(read)
    return came, faults


def _read_line(number: int, words: str, known: Sequence[Known], usual: int) -> Came | Fault:
    is_guest = words.startswith("+")
    name, minutes = _name_and_time(words.removeprefix("+").strip())
    if not name:
        return Fault(number, words, "no-name")
    if minutes is None and any(letter.isdigit() for letter in name):
        return Fault(number, words, "no-time")
    if is_guest:
        return Came(number, None, name, minutes or usual)
    meant = find(name, known)
    if len(meant) == 1:
        return Came(number, meant[0].person, "", minutes or usual)
    code = "several" if meant else "nobody"
    return Fault(number, words, code, tuple(one.name for one in meant[:5]))


def _name_and_time(words: str) -> tuple[str, int | None]:
    """The name, and the time at the end of the line: as many of its words as can be read as one."""
    parts = words.replace(",", ", ").split() if ", " in words else words.split()
    for count in range(min(_LONGEST_TIME, len(parts) - 1), 0, -1):
        try:
            minutes = parse_minutes(" ".join(parts[-count:]))
        except HoursError:
            continue
        return " ".join(parts[:-count]).rstrip(",;:"), minutes
    return words.rstrip(",;:"), None


def find(typed: str, known: Sequence[Known]) -> list[Known]:
    """The people that `typed` may mean: those of just this name, else those whose names begin so.

    >>> people = [Known(1, "Tom Beckwith"), Known(2, "Tomás Beck"), Known(3, "Tom")]
    >>> [one.person for one in find("tom b", people)], [one.person for one in find("tom", people)]
    ([1, 2], [3])
    """
    wanted = plain(typed)
    exact = [one for one in known if wanted in (plain(one.name), plain(one.also))]
    return exact or [one for one in known if _begins(plain(one.name).split(), wanted.split())]


def _begins(words: list[str], wanted: list[str]) -> bool:
    """Whether each wanted word begins a word of its own."""
    rest = list(words)
    for beginning in wanted:
        word = next((word for word in rest if word.startswith(beginning)), None)
        if word is None:
            return False
        rest.remove(word)
    return bool(wanted)
