"""Keeping what was printed: one file, or everyone's made some members at a time and put together at the end.

A file is written before the transaction that keeps its row and deleted when that fails: neither a row without
its file nor, but for a crash just between, a file without a row.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from hashlib import sha256
from typing import Any

from django.core.files.base import ContentFile
from django.core.files.storage import default_storage
from django.db import IntegrityError, transaction
from django.db.models import Q
from django.utils.translation import gettext as _
from django.utils.translation import override

from plots.models import Garden, User
from plots.spelling import folded
from schedules.models import Printing, PrintingPart
from schedules.models.printing import random_name
from schedules.service.print_table.table import Asked, Kind, Made

TOGETHER, ONE_BY_ONE = 50, 5  # members in a step of some seconds; even, for two cards to a page
SHORTEST = 3  # letters of a name, an address or a number that is looked for


class NoRoomError(Exception):
    """A file could not be written: the disk is full or the folder closed. Nothing of it is kept."""


def made(kind: Kind, asked: Asked) -> Made:
    """The sheet, in the language that is asked for."""
    with override(asked.language):
        return kind.make(asked)


def pdf_of(sheet: Made, *, both_sides: bool = False) -> bytes:
    """The sheet on paper; for both sides of it, if it is to be."""
    from schedules.reports.joining import on_both_sides  # lazy: pypdf
    from schedules.reports.setting import to_pdf  # lazy: reportlab

    with override(sheet.document.head.language):
        content = to_pdf(sheet.document) if sheet.laid_out is None else sheet.laid_out()
    return on_both_sides(content) if both_sides else content


def keep(*, kind: Kind, asked: Asked, by: User, filled_in: Mapping[str, Sequence[str]]) -> Printing:
    """Makes a sheet and keeps its file; the same file that the same person printed before is kept once.

    Raises `NoRoomError` where nothing can be stored.
    """
    sheet = made(kind, asked)
    content = pdf_of(sheet, both_sides=asked.both_sides)
    digest = sha256(content).hexdigest()
    garden = asked.garden
    known = garden.printings.filter(kind=kind.code, sha256=digest, made_by=by).first()
    if known is not None:
        return known
    row = Printing(
        garden=garden,
        kind=kind.code,
        title=sheet.document.head.title[:200],
        asked=dict(filled_in),
        made_by=by,
        sha256=digest,
        size=len(content),
    )
    people = people_told(sheet, garden)

    def insert(name: str) -> Printing:
        row.file = name
        row.save(force_insert=True)
        row.people.set(people)
        return row

    return _with_file(row, content, insert)


def begin_everyone(
    *, kind: Kind, garden: Garden, members: Sequence[User], by: User, filled_in: Mapping[str, Sequence[str]]
) -> Printing:
    """Notes down everyone's sheets in one file, of which nothing is made yet."""
    return Printing.objects.create(
        garden=garden,
        kind=kind.code,
        title=everyones_title(kind)[:200],
        asked=dict(filled_in),
        members=[one.pk for one in members],
        at_once=_at_once(kind),
        made_by=by,
    )


def everyone_of(kind: Kind, asked: Asked, members: Sequence[User]) -> bytes:
    """Everyone's sheets in one file, at once and without keeping anything."""
    files: list[tuple[str | None, bytes]] = []
    for first in range(0, len(members), TOGETHER):
        files.append((None, _sheets_of(kind, asked, members[first : first + TOGETHER])[0]))
    return _joined(files, asked, title=everyones_title(kind), both_sides=asked.both_sides)


def _at_once(kind: Kind) -> int:
    return ONE_BY_ONE if kind.together is None else TOGETHER


def everyones_title(kind: Kind) -> str:
    return _("%(sheet)s for everyone") % {"sheet": kind.name}


def next_step(*, printing: Printing, kind: Kind, asked: Asked) -> None:
    """Makes the sheets of the next members, or puts all of them into one file.

    Two pages that ask for the same step at once do its work twice and keep it once. Raises
    `Printing.DoesNotExist` where somebody threw it away meanwhile, `NoRoomError` where nothing can be stored.
    """
    printing.refresh_from_db()
    if printing.is_ready:
        return
    found = set(printing.parts.values_list("number", flat=True))
    missing = next((number for number in range(printing.steps) if number not in found), None)
    if missing is None:
        _put_together(printing, kind, asked)
    else:
        _make_part(printing, missing, kind, asked)


def throw_away(*, printing: Printing) -> None:
    """The sheet and its file are gone."""
    with transaction.atomic():
        printing.delete()


def _make_part(printing: Printing, number: int, kind: Kind, asked: Asked) -> None:
    keys = printing.members_of(number)
    by_key = User.objects.filter(memberships__garden=printing.garden).in_bulk(keys)
    members = [by_key[key] for key in keys if key in by_key]
    content, people = _sheets_of(kind, asked, members)
    part = PrintingPart(printing=printing, number=number)

    def insert(name: str) -> PrintingPart:
        part.file = name
        part.save(force_insert=True)
        printing.people.add(*people)
        return part

    try:
        _with_file(part, content, insert)
    except IntegrityError:
        printing.refresh_from_db()
        if not printing.parts.filter(number=number).exists():
            raise


def _sheets_of(kind: Kind, asked: Asked, members: Sequence[User]) -> tuple[bytes, set[int]]:
    """One file with the sheets of these members, and whom they tell of."""
    if not members:
        return _joined([], asked), set()
    if kind.together is not None:
        with override(asked.language):
            sheet = kind.together(asked, members)
        content = pdf_of(sheet)
        if len(members) == 1:  # the last of all: alone in a file its sheet is not marked with whose it is
            content = _joined([(f"{members[0].name}, {sheet.document.head.title}", content)], asked)
        return content, people_told(sheet, asked.garden) | {one.pk for one in members}
    files, people = [], {one.pk for one in members}
    for one in members:
        choices = {**asked.choices, "member": one}
        sheet = made(kind, replace(asked, choices=choices, language=one.language or asked.language))
        people |= people_told(sheet, asked.garden)
        files.append((one.name, pdf_of(sheet)))
    return _joined(files, asked), people


def _put_together(printing: Printing, kind: Kind, asked: Asked) -> None:
    parts = list(printing.parts.all())
    files: list[tuple[str | None, bytes]] = []
    try:
        for part in parts:
            with part.file.open("rb") as stored:
                files.append((None, stored.read()))
    except FileNotFoundError:
        printing.refresh_from_db()
        if printing.is_ready:  # another page was faster
            return
        raise
    content = _joined(files, asked, title=printing.title, both_sides=asked.both_sides)
    size, digest = len(content), sha256(content).hexdigest()

    def finish(name: str) -> None:
        first = Printing.objects.filter(pk=printing.pk, file="").update(file=name, size=size, sha256=digest)
        if not first:  # another page was faster
            default_storage.delete(name)
        for part in parts:
            part.delete()

    _with_file(printing, content, finish)
    printing.refresh_from_db()


def _with_file(row: Any, content: bytes, insert: Callable[[str], Any]) -> Any:
    name = random_name(row, "")
    try:
        name = default_storage.save(name, ContentFile(content))
    except OSError as error:
        default_storage.delete(name)  # what of it was written before the disk was full
        raise NoRoomError from error
    try:
        with transaction.atomic():
            return insert(name)
    except BaseException:
        default_storage.delete(name)
        raise


def _joined(
    files: Iterable[tuple[str | None, bytes]], asked: Asked, *, title: str = "", both_sides: bool = False
) -> bytes:
    from schedules.reports.joining import joined  # lazy: pypdf

    return joined(
        files, title=title, author=asked.garden.name, language=asked.language, both_sides=both_sides
    )


def people_told(sheet: Made, garden: Garden) -> set[int]:
    """The keys of the garden's people, of now and before, who stand in the sheet by name or address."""
    text = folded(" ".join(sheet.document.words()))
    mine = Q(memberships__garden=garden) | Q(assignments__plot__garden=garden)
    shared = Q(shared_assignments__plot__garden=garden)
    people = User.objects.filter(mine | shared).distinct()
    return sheet.people | {one.pk for one in people if _stands_in(one, text)}


def _stands_in(person: User, text: str) -> bool:
    return any(
        word in text and re.search(rf"(?<!\w){re.escape(word)}(?!\w)", text) for word in _told_by(person)
    )


def _told_by(person: User) -> Iterator[str]:
    for word in (person.name, person.email, person.phone):
        if word and len(word) >= SHORTEST:
            yield folded(word)
