"""Several PDF files put into one, and files made fit to be printed on both sides of the paper."""

from __future__ import annotations

from collections.abc import Iterable
from io import BytesIO

from pypdf import PdfReader, PdfWriter
from pypdf.generic import BooleanObject, DictionaryObject, NameObject, TextStringObject


def joined(
    files: Iterable[tuple[str | None, bytes]],
    *,
    title: str,
    author: str,
    language: str,
    both_sides: bool = False,
) -> bytes:
    """The files one behind the other; a named one under a bookmark of its name, the others' own are kept.

    With `both_sides`, what each outermost bookmark leads to begins on the front of a sheet of paper.
    """
    writer = PdfWriter()
    for name, content in files:
        writer.append(PdfReader(BytesIO(content)), outline_item=name, import_outline=name is None)
    writer.add_metadata({"/Title": title, "/Author": author, "/Creator": "Trugbook"})
    root = writer.root_object
    root[NameObject("/Lang")] = TextStringObject(language)
    shown = DictionaryObject({NameObject("/DisplayDocTitle"): BooleanObject(True)})
    root[NameObject("/ViewerPreferences")] = shown
    writer.compress_identical_objects()
    if both_sides:
        _begin_on_fronts(writer)
    return _written(writer)


def on_both_sides(content: bytes) -> bytes:
    """The same file, in which each sheet that its outline names begins on the front of a sheet of paper."""
    writer = PdfWriter(clone_from=BytesIO(content))
    _begin_on_fronts(writer)
    return _written(writer)


def _begin_on_fronts(writer: PdfWriter) -> None:
    """An empty page before whatever would begin on a back."""
    outermost = (one for one in writer.outline if not isinstance(one, list))
    found = (writer.get_destination_page_number(one) for one in outermost)
    added = 0
    for at in sorted({page for page in found if page is not None}):
        if (at + added) % 2:
            writer.insert_blank_page(index=at + added)
            added += 1


def _written(writer: PdfWriter) -> bytes:
    out = BytesIO()
    writer.write(out)
    return out.getvalue()
