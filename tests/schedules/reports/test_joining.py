"""Files put together, and made fit for both sides of the paper."""

from __future__ import annotations

from io import BytesIO

from pypdf import PdfReader
from reportlab.pdfgen.canvas import Canvas

from schedules.reports.joining import joined, on_both_sides


def file_of(**sheets: int) -> bytes:
    """A file with a bookmark for each sheet, of so many pages."""
    out = BytesIO()
    canvas = Canvas(out, pagesize=(300, 200))
    for name, pages in sheets.items():
        canvas.bookmarkPage(name)
        canvas.addOutlineEntry(name, name)
        for page in range(pages):
            if page:
                canvas.bookmarkPage(f"{name} {page}")
                canvas.addOutlineEntry(f"{name} {page}", f"{name} {page}", 1)
            canvas.drawString(20, 100, f"{name}{page}")
            canvas.showPage()
    canvas.save()
    return out.getvalue()


def pages_of(content: bytes) -> list[str]:
    return [page.extract_text().strip() for page in PdfReader(BytesIO(content)).pages]


def test_on_both_sides_each_sheet_begins_on_a_front():
    content = file_of(ana=1, bea=2, cleo=3, dora=1)
    turned = on_both_sides(content)
    assert pages_of(turned) == ["ana0", "", "bea0", "bea1", "cleo0", "cleo1", "cleo2", "", "dora0"]
    reader = PdfReader(BytesIO(turned))
    found = [mark for mark in reader.outline if not isinstance(mark, list)]
    assert [(mark.title, reader.get_destination_page_number(mark)) for mark in found] == [
        ("ana", 0), ("bea", 2), ("cleo", 4), ("dora", 8),
    ]  # fmt: skip
    assert [float(reader.pages[1].mediabox[n]) for n in (2, 3)] == [300, 200]


def test_files_put_together_keep_their_bookmarks_or_get_one():
    files = [(None, file_of(ana=1, bea=1)), ("Cleo", file_of(unnamed=2))]
    told = {"title": "All", "author": "Linden Row", "language": "de"}
    assert pages_of(joined(files, **told)) == ["ana0", "bea0", "unnamed0", "unnamed1"]
    reader = PdfReader(BytesIO(joined(files, **told, both_sides=True)))
    assert [page.extract_text().strip() for page in reader.pages] == [
        "ana0",
        "",
        "bea0",
        "",
        "unnamed0",
        "unnamed1",
    ]
    assert [mark.title for mark in reader.outline] == ["ana", "bea", "Cleo"]
    root = reader.trailer["/Root"]
    assert (reader.metadata.title, root["/Lang"], bool(root["/ViewerPreferences"]["/DisplayDocTitle"])) == (
        "All",
        "de",
        True,
    )
