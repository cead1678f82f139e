"""Reading logs that are typed in from paper: short words, and much that is as on the line above.

plot  day   work  on what   how much  who  note
12    5/4   w               10 min    ha
            p     toma      2.5 lb    "            the same plot, day and person
14          so    car au                           carrot of the autumn; who: the holder of plot 14
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, fields, replace
from datetime import date

from plots.hours import HoursError, parse_minutes
from plots.quantities import QuantityError, parse_number
from plots.sign_in_sheet import Known, find, plain
from schedules.plausible import UNITS
from schedules.work import OF_A_PLANTING, Work

DITTO = frozenset({'"', "''", ",,", "″", "〃", "“", "”", "„", '-"-'})
# What one letter means where several kinds of work begin with it: the commonest.
COMMONEST = (
    Work.WATER, Work.PICK, Work.SOW, Work.TRANSPLANT, Work.FEED, Work.MULCH, Work.HOURS, Work.CLEAR,
    Work.NOTE,
)  # fmt: skip
WITH_A_CROP = OF_A_PLANTING | {Work.SCOUT, Work.CLEAR, Work.NOTE}
WITH_A_PLANTING = WITH_A_CROP | {Work.FEED, Work.MULCH, Work.SUPPORT}
WITHOUT_A_PLOT = frozenset({Work.HOURS, Work.NOTE})
_NAMED = 5  # possibilities that a fault names


@dataclass(frozen=True, slots=True)
class Line:
    """A line as it is typed; `number` counts from 1."""

    number: int
    plot: str = ""
    day: str = ""
    work: str = ""
    what: str = ""
    amount: str = ""
    person: str = ""
    note: str = ""

    @property
    def is_empty(self) -> bool:
        return not any(getattr(self, name) for name in TYPED)


TYPED = tuple(one.name for one in fields(Line) if one.name != "number")


@dataclass(frozen=True, slots=True)
class Book:
    """What typed words may mean. `holders` gives by plot who usually fills its sheet; of plantings, those
    of `earlier` are meant only where none that stands or is planned now is called so.

    Works and units are code and word, the likelier first; a unit may have several words.
    """

    today: date
    month_first: bool
    months: Sequence[str]
    plots: Sequence[Known]
    people: Sequence[Known]
    works: Sequence[tuple[str, str]]
    units: Sequence[tuple[str, Sequence[str]]]
    crops: Sequence[Known]
    plantings: Mapping[int, Sequence[Known]] = field(default_factory=dict)
    earlier: Mapping[int, Sequence[Known]] = field(default_factory=dict)
    holders: Mapping[int, int] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Fault:
    """Why a field of a line cannot be read: a code, what was typed, and what it may have meant."""

    where: str
    code: str
    typed: str = ""
    names: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Read:
    """A line as it is meant, with keys of plot, planting, crop and person; `faults` where it is not clear."""

    number: int
    faults: tuple[Fault, ...] = ()
    plot: int | None = None
    day: date | None = None
    work: str = ""
    planting: int | None = None
    succession: int | None = None
    crop: int | None = None
    amount: float | None = None
    unit: str = ""
    minutes: int | None = None
    person: int | None = None
    note: str = ""
    clear: bool = True


def read_lines(lines: Sequence[Line], book: Book) -> list[Read]:
    """Every line that is not empty. A slip that lines below only repeat is told once, where it was typed.

    `clear` is false for a line that cannot be kept as it stands, by its own fault or by one above.
    """
    found: list[Read] = []
    above: Line | None = None
    faulty: frozenset[str] = frozenset()  # fields of the line above
    for line in lines:
        if line.is_empty:
            continue
        whole = carried_on(line, above)
        read = _read(whole, book)
        repeated = {name for name in faulty if getattr(line, name) != getattr(whole, name)}
        told = tuple(fault for fault in read.faults if fault.where not in repeated)
        found.append(replace(read, faults=told, clear=not read.faults))
        above, faulty = whole, frozenset(fault.where for fault in read.faults)
    return found


def carried_on(line: Line, above: Line | None) -> Line:
    """The line with what it repeats from the one above: by a ditto anything, left empty plot and day.

    Who did it is repeated as long as the plot is the same: at another one it is that plot's holder.
    """
    if above is None:
        return line
    whole = replace(line, **{name: getattr(above, name) for name in TYPED if getattr(line, name) in DITTO})
    whole = replace(whole, plot=whole.plot or above.plot, day=whole.day or above.day)
    if not whole.person and plain(whole.plot) == plain(above.plot):
        whole = replace(whole, person=above.person)
    return whole


class _Reader:
    """One line on its way: gathers its faults."""

    def __init__(self, line: Line, book: Book) -> None:
        self.line, self.book = line, book
        self.faults: list[Fault] = []

    def refuse(self, where: str, code: str, names: Sequence[str] = ()) -> None:
        self.faults.append(Fault(where, code, getattr(self.line, where), tuple(names[:_NAMED])))

    def one_of(self, where: str, known: Sequence[Known], unknown: str) -> int | None:
        """The key of what the field means, if it is one."""
        meant = find(getattr(self.line, where), known)
        if len(meant) == 1:
            return meant[0].person
        self.refuse(where, "several" if meant else unknown, [one.name for one in meant])
        return None


def _read(line: Line, book: Book) -> Read:
    reader = _Reader(line, book)
    work = _work(reader)
    plot = reader.one_of("plot", book.plots, "no-plot") if line.plot else None
    if not line.plot and work and work not in WITHOUT_A_PLOT:
        reader.refuse("plot", "which-plot")
    day = parse_day(line.day, book.today, month_first=book.month_first, months=book.months)
    if day is None:
        reader.refuse("day", "no-day" if line.day else "which-day")
    planting, succession, crop = _what(reader, work, plot)
    amount, unit, minutes = _amount(reader, work)
    person = _person(reader, plot)
    if work in {Work.NOTE, Work.SCOUT} and not line.note:
        reader.refuse("note", "what-note" if work == Work.NOTE else "what-seen")
    return Read(
        line.number, tuple(reader.faults), plot, day, work, planting, succession, crop, amount, unit,
        minutes, person, line.note,
    )  # fmt: skip


def _work(reader: _Reader) -> str:
    typed = plain(reader.line.work)
    if not typed:
        reader.refuse("work", "which-work")
        return ""
    begin = [(code, word) for code, word in reader.book.works if plain(word).startswith(typed)]
    exact = [(code, word) for code, word in begin if plain(word) == typed]
    if len(typed) == 1 and len(begin) > 1:
        codes = {code for code, _word in begin}
        usual = next((work.value for work in COMMONEST if work in codes), None)
        exact = [(code, word) for code, word in begin if code == usual]
    meant = exact or begin
    if len(meant) != 1:
        reader.refuse("work", "several" if meant else "no-work", [word for _code, word in meant])
        return ""
    return meant[0][0]


def _person(reader: _Reader, plot: int | None) -> int | None:
    if reader.line.person:
        return reader.one_of("person", reader.book.people, "no-person")
    holder = reader.book.holders.get(plot) if plot is not None else None
    if holder is None and not any(fault.where == "plot" for fault in reader.faults):
        reader.refuse("person", "which-person")
    return holder


def _what(reader: _Reader, work: str, plot: int | None) -> tuple[int | None, int | None, int | None]:
    """Planting, number of its sowing, and crop; a planting of the plot comes before any other crop."""
    typed = reader.line.what
    if not typed or not work:
        return None, None, None
    if work not in WITH_A_PLANTING:
        reader.refuse("what", "whole-plot")
        return None, None, None
    name, number = _numbered(typed)
    meant: list[Known] = []
    if plot is not None:
        book = reader.book
        meant = find(name, book.plantings.get(plot, ())) or find(name, book.earlier.get(plot, ()))
    if len(meant) == 1:
        return meant[0].person, number, None
    crops = find(name, reader.book.crops) if work in WITH_A_CROP and not meant and number is None else []
    if len(crops) == 1:
        return None, None, crops[0].person
    if not any(fault.where == "plot" for fault in reader.faults):
        several = [one.name for one in meant or crops]
        reader.refuse("what", "several" if several else "no-planting", several)
    return None, None, None


def _numbered(typed: str) -> tuple[str, int | None]:
    """A name, and the number of the sowing behind it.

    >>> _numbered("carrot 2"), _numbered("carrot")
    (('carrot', 2), ('carrot', None))
    """
    name, _space, last = typed.rpartition(" ")
    return (
        (name, int(last)) if name and last.isascii() and last.isdecimal() and len(last) < 3 else (typed, None)
    )


_NUMBER_AND_UNIT = re.compile(r"\s*(?P<number>[^A-Za-z]*\d[^A-Za-z]*|[¼½¾⅓⅔⅛⅜⅝⅞])\s*(?P<unit>[^\d]*)$")


def _amount(reader: _Reader, work: str) -> tuple[float | None, str, int | None]:
    """Amount and unit; for hours the minutes."""
    typed = reader.line.amount
    if not work or (not typed and work != Work.HOURS):
        return None, "", None
    if work == Work.HOURS:
        try:
            return None, "", parse_minutes(typed)
        except HoursError:
            reader.refuse("amount", "no-time" if typed else "how-long")
            return None, "", None
    parts = _NUMBER_AND_UNIT.match(typed)
    try:
        amount = parse_number(parts["number"].strip() if parts else typed)
    except QuantityError:
        reader.refuse("amount", "no-amount")
        return None, "", None
    return amount, _unit(reader, work, parts["unit"] if parts else ""), None


def _unit(reader: _Reader, work: str, typed: str) -> str:
    wanted = plain(typed).strip(" .")
    fitting = UNITS.get(work, frozenset())
    known = [(code, names) for code, names in reader.book.units if code in fitting or not fitting]
    if not wanted:
        reader.refuse("amount", "which-unit", [names[0] for _code, names in known])
        return ""
    for same in (str.__eq__, str.startswith):
        for asked in (wanted, wanted.removesuffix("s")):
            codes = [(code, names[0]) for code, names in known if any(same(plain(n), asked) for n in names)]
            if len(codes) == 1:
                return codes[0][0]
            if codes and asked == wanted:
                reader.refuse("amount", "several", [name for _code, name in codes])
                return ""
    reader.refuse("amount", "no-unit", [names[0] for _code, names in known])
    return ""


_WORDS = re.compile(r"[^\W\d_]+|\d+")


def parse_day(typed: str, today: date, *, month_first: bool, months: Sequence[str] = ()) -> date | None:
    """A day as people write it on paper, without a year the last such day; `None` where it is none.

    With full stops the day stands first, as it does where `month_first` is false.

    >>> today = date(2024, 5, 20)
    >>> [str(parse_day(text, today, month_first=True)) for text in ("18", "25", "5/4", "4.5.", "12/30/23")]
    ['2024-05-18', '2024-04-25', '2024-05-04', '2024-05-04', '2023-12-30']
    >>> str(parse_day("4 may", today, month_first=True, months=["Jan", "Feb", "Mar", "Apr", "May"]))
    '2024-05-04'
    """
    parts = _WORDS.findall(typed)
    named = [part for part in parts if not part.isdecimal()]
    numbers = [int(part) for part in parts if part.isdecimal() and len(part) <= 4]
    if len(numbers) + len(named) != len(parts) or len(named) > 1 or not 1 <= len(numbers) <= 3:
        return None
    if named:
        month = _month(named[0], months)
        return _dated(numbers[1:], month, numbers[0], today) if month else None
    if len(parts[0]) == 4:
        return _made(*numbers) if len(numbers) == 3 else None
    if len(numbers) == 1:
        return _last_of_number(numbers[0], today)
    first, second, *year = numbers
    month, day = (first, second) if month_first and "." not in typed else (second, first)
    return _dated(year, month, day, today)


def _month(typed: str, months: Sequence[str]) -> int | None:
    """The month whose name begins so, by three letters or more."""
    meant = [n for n, name in enumerate(months, start=1) if plain(name).startswith(plain(typed))]
    return meant[0] if len(meant) == 1 and len(typed) >= 3 else None


def _dated(year: Sequence[int], month: int, day: int, today: date) -> date | None:
    if year:
        return _made(year[0] + (2000 if year[0] < 100 else 0), month, day)
    years = (today.year, today.year - 1)
    found = [made for made in (_made(year, month, day) for year in years) if made and made <= today]
    return found[0] if found else None


def _last_of_number(number: int, today: date) -> date | None:
    """The last day with this number in its month."""
    for back in range(12):
        year, month = divmod(today.year * 12 + today.month - 1 - back, 12)
        made = _made(year, month + 1, number)
        if made and made <= today:
            return made
    return None


def _made(year: int, month: int, day: int) -> date | None:
    try:
        return date(year, month, day)
    except ValueError:
        return None
