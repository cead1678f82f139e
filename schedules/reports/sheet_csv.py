"""The tables of a document as CSV."""

from __future__ import annotations

from plots.csv_out import BOM, csv_text
from schedules.reports.document import Document


def to_csv(document: Document) -> str:
    """The document's tables for a spreadsheet, each under its name where there are several."""
    tables = document.tables
    texts = []
    for name, grid in tables:
        text = csv_text(grid.titles, grid.rows).removeprefix(BOM)
        if not grid.titles:
            text = text.partition("\r\n")[2]
        if len(tables) > 1 and name:
            text = csv_text([name], []).removeprefix(BOM) + text
        texts.append(text)
    return BOM + "\r\n".join(texts)
