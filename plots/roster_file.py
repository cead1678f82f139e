"""Reading a roster out of a spreadsheet: columns matched, every row checked before anything is kept.

Nothing here knows the database: what is there already comes in as `Known`.
"""

from __future__ import annotations

import csv
import io
import re
from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from enum import StrEnum

from plots.spelling import folded, tidy

MOST_ROWS, MOST_COLUMNS = 5000, 60


class Field(StrEnum):
    """What a column may hold."""

    NAME = "name"
    GIVEN = "given"
    FAMILY = "family"
    EMAIL = "email"
    PHONE = "phone"
    ADDRESS = "address"
    HOUSEHOLD = "household"
    PLOTS = "plots"
    ACCOUNT = "account"


LONGEST = {
    Field.NAME: 120,
    Field.EMAIL: 254,
    Field.PHONE: 40,
    Field.ADDRESS: 300,
    Field.HOUSEHOLD: 120,
    Field.ACCOUNT: 60,
}
# Headings as people write them, folded and without punctuation.
_HEADINGS: dict[Field, tuple[str, ...]] = {
    Field.NAME: ("name", "full name", "member", "member name", "gardener", "person"),
    Field.GIVEN: ("first name", "given name", "first", "given", "forename"),
    Field.FAMILY: ("last name", "family name", "surname", "last"),
    Field.EMAIL: ("email", "e mail", "email address", "mail", "e mail address"),
    Field.PHONE: ("telephone", "phone", "phone number", "mobile", "cell", "cell phone", "tel"),
    Field.ADDRESS: ("postal address", "address", "street address", "mailing address"),
    Field.HOUSEHOLD: ("household", "family"),
    Field.PLOTS: ("plots", "plot", "plot number", "plot no", "holds", "bed", "plot s"),
    Field.ACCOUNT: ("signs in as", "sign in name", "account"),
}
_EMAIL = re.compile(r"[^@\s]+@[^@\s]+\.[^@\s]+")


class TableError(ValueError):
    """The text is no table that can be read; `code` says why: unreadable, empty, too-long, too-wide."""

    def __init__(self, code: str) -> None:
        super().__init__(code)
        self.code = code


@dataclass(frozen=True, slots=True)
class Table:
    """Headings and rows as they stand in the file; each row has its line number there."""

    titles: tuple[str, ...]
    rows: tuple[tuple[int, tuple[str, ...]], ...]


def decoded(data: bytes) -> str:
    """The text of a file as spreadsheets write them: UTF-8, UTF-16 with its mark, else Windows 1252."""
    if data[:2] in (b"\xff\xfe", b"\xfe\xff"):
        return data.decode("utf-16", errors="replace")
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError:
        return data.decode("cp1252", errors="replace")


def read_table(text: str) -> Table:
    """The table in `text`, parted by comma, semicolon or tab, whichever its first line has most of.

    Empty rows are left out. Raises TableError.
    """
    text = text.removeprefix("\ufeff").replace("\0", "")
    first = next((line for line in text.splitlines() if line.strip()), "")
    parted_by = max(",;\t", key=first.count)
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=parted_by)
    titles: tuple[str, ...] = ()
    rows: list[tuple[int, tuple[str, ...]]] = []
    before = 0
    try:
        for cells in reader:
            line, before = before + 1, reader.line_num
            row = tuple(_cell(cell) for cell in cells)
            if not any(row):
                continue
            if not titles:
                titles = row
            else:
                rows.append((line, row))
    except csv.Error:
        raise TableError("unreadable") from None
    if not rows:
        raise TableError("empty")
    if len(rows) > MOST_ROWS:
        raise TableError("too-long")
    if len(titles) > MOST_COLUMNS:
        raise TableError("too-wide")
    return Table(titles, tuple(rows))


def _cell(text: str) -> str:
    """A cell tidied, and without the apostrophe that guards it against being taken for a formula."""
    tidied = tidy(text)
    return tidied[1:] if re.match(r"'[=+\-@]", tidied) else tidied


def guessed(titles: Sequence[str]) -> dict[int, Field]:
    """Which column holds what, by its heading; each field once.

    >>> guessed(["First name", "Surname", "E-mail", "Shoe size"]) == {
    ...     0: Field.GIVEN, 1: Field.FAMILY, 2: Field.EMAIL}
    True
    """
    words = [re.sub(r"[\W_]+", " ", folded(title)).strip() for title in titles]
    found: dict[int, Field] = {}
    for kind, known in _HEADINGS.items():
        places = [words.index(heading) for heading in known if heading in words]
        free = [place for place in places if place not in found]
        if free:
            found[free[0]] = kind
    if Field.NAME in found.values():
        found = {place: kind for place, kind in found.items() if kind not in (Field.GIVEN, Field.FAMILY)}
    return found


@dataclass(frozen=True, slots=True)
class Problem:
    """What is wrong with a row; `value` is what stands there, or what it clashes with."""

    code: str
    value: str = ""


class Outcome(StrEnum):
    """What importing makes of a row."""

    NEW = "new"
    JOINS = "joins"  # has an account of this installation already
    HERE = "here"  # is a member already, and is left as they are
    WRONG = "wrong"


@dataclass(frozen=True, slots=True)
class Line:
    """One person as a row of the file has them."""

    number: int
    name: str
    email: str = ""
    phone: str = ""
    address: str = ""
    household: str = ""
    account: str = ""
    plots: tuple[str, ...] = ()
    outcome: Outcome = Outcome.NEW
    problems: tuple[Problem, ...] = ()


@dataclass(frozen=True)
class Known:
    """What is there already; names, addresses and labels folded.

    `plots` gives the label as it is kept and whether the plot may be given: "free", "held" or "other".
    """

    emails_here: frozenset[str] = frozenset()
    names_here: Mapping[str, str] = field(default_factory=dict)  # folded name: email, or ""
    emails_elsewhere: frozenset[str] = frozenset()
    accounts: frozenset[str] = frozenset()
    plots: Mapping[str, tuple[str, str]] = field(default_factory=dict)


def read_people(table: Table, columns: Mapping[int, Field], known: Known) -> list[Line]:
    """Every row as a person, with what is wrong with it and what would become of it."""
    lines = [_line(number, cells, columns, known) for number, cells in table.rows]
    emails = Counter(folded(line.email) for line in lines if line.email)
    names = Counter(folded(line.name) for line in lines if line.name and not line.email)
    accounts = Counter(folded(line.account) for line in lines if line.account)
    checked = []
    for line in lines:
        problems = [*_problems(line, known)]
        if line.email and emails[folded(line.email)] > 1:
            problems.append(Problem("email-twice", line.email))
        if line.name and not line.email and names[folded(line.name)] > 1:
            problems.append(Problem("name-twice", line.name))
        if line.account and accounts[folded(line.account)] > 1:
            problems.append(Problem("account-twice", line.account))
        checked.append(replace(line, problems=tuple(problems), outcome=_outcome(line, problems, known)))
    return checked


def _line(number: int, cells: Sequence[str], columns: Mapping[int, Field], known: Known) -> Line:
    found: dict[Field, str] = {}
    for place, kind in columns.items():
        if place < len(cells) and cells[place]:
            found.setdefault(kind, cells[place])
    name = found.get(Field.NAME) or tidy(f"{found.get(Field.GIVEN, '')} {found.get(Field.FAMILY, '')}")
    return Line(
        number=number,
        name=name,
        email=found.get(Field.EMAIL, ""),
        phone=found.get(Field.PHONE, ""),
        address=found.get(Field.ADDRESS, ""),
        household=found.get(Field.HOUSEHOLD, ""),
        account=found.get(Field.ACCOUNT, ""),
        plots=_labels(found.get(Field.PLOTS, ""), known),
    )


def _labels(text: str, known: Known) -> tuple[str, ...]:
    """The labels in a cell: one whole label if there is such a plot, else parted by commas and the like."""
    if not text or folded(text) in known.plots:
        return (text,) if text else ()
    return tuple(dict.fromkeys(part.strip() for part in re.split(r"[,;/&+]", text) if part.strip()))


def _problems(line: Line, known: Known) -> Iterable[Problem]:
    if not line.name:
        yield Problem("no-name")
    for kind, most in LONGEST.items():
        value = getattr(line, kind.value)
        if len(value) > most:
            yield Problem("too-long", value[:40] + "…")
    if line.email and not _EMAIL.fullmatch(line.email):
        yield Problem("bad-email", line.email)
    if "@" in line.account:
        yield Problem("account-has-at", line.account)
    elif line.account and folded(line.account) in known.accounts and _is_new(line, known):
        yield Problem("account-taken", line.account)
    for label in line.plots if _is_new(line, known) else ():
        state = known.plots.get(folded(label), ("", "unknown"))[1]
        if state != "free":
            yield Problem(f"plot-{state}", label)


def _is_here(line: Line, known: Known) -> bool:
    """By email; by name alone when one of the two has no email to tell them apart."""
    if line.email and folded(line.email) in known.emails_here:
        return True
    theirs = known.names_here.get(folded(line.name))
    return theirs is not None and (not line.email or not theirs)


def _is_new(line: Line, known: Known) -> bool:
    return not _is_here(line, known)


def _outcome(line: Line, problems: Sequence[Problem], known: Known) -> Outcome:
    if problems:
        return Outcome.WRONG
    if _is_here(line, known):
        return Outcome.HERE
    return Outcome.JOINS if folded(line.email) in known.emails_elsewhere else Outcome.NEW
