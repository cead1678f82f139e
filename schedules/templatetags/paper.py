"""A document in a page: the same blocks that its paper is set from."""

from __future__ import annotations

from base64 import b64encode
from collections.abc import Iterator
from typing import TYPE_CHECKING, Any

from django import template

from schedules.reports import document as blocks
from schedules.templatetags.charts import drawn

if TYPE_CHECKING:
    from schedules.reports.document import Block, Document, Grid

register = template.Library()

_A_SPAN = 16  # letters of "Sept 14 – Oct 26"


@register.inclusion_tag("schedules/_document.html", takes_context=True)
def document(context: dict[str, Any], made: Document, sheets: int | None = None) -> dict[str, Any]:
    """The document as a part of a page; of one with many sheets the first `sheets`."""
    shown, left_out = _first(made.blocks, sheets)
    return {
        "language": made.head.language,
        "note": made.head.note,
        "parts": _parts(shown, made, context),
        "left_out": left_out,
    }


def _first(all_blocks: tuple[Block, ...], sheets: int | None) -> tuple[tuple[Block, ...], int]:
    """The blocks of the first sheets, and how many sheets are not among them."""
    begins = [n for n, block in enumerate(all_blocks) if isinstance(block, blocks.Title)]
    if sheets is None or len(begins) <= sheets:
        return all_blocks, 0
    return all_blocks[: begins[sheets]], len(begins) - sheets


def _parts(shown: tuple[Block, ...], made: Document, context: dict[str, Any]) -> list[dict[str, Any]]:
    """The blocks for the template; each table is named, for those who hear it, by what stands above it."""
    names = {id(grid): name for name, grid in made.tables}
    parts = [_part(block, context) for block in shown]
    for part in parts:
        if "grid" in part:
            part["name"] = names[id(part["grid"])]
    return parts


def _part(block: Block, context: dict[str, Any]) -> dict[str, Any]:
    part: dict[str, Any] = {"kind": type(block).__name__.lower(), "block": block}
    match block:
        case blocks.Text(text) | blocks.Quiet(text) | blocks.Loud(text) | blocks.Caution(text):
            part["lines"] = [line for line in text.splitlines() if line.strip()]
        case blocks.Grid():
            part |= _table(block)
        case blocks.Chart(draw, alt, table):
            part["drawings"] = drawn(context, draw, alt)
            if table is not None:
                part |= _table(table)
        case blocks.Key(entries):
            from schedules.reports import svg  # lazy: reportlab

            part["entries"] = [
                (svg.to_svg(drawing, title="", variant="mark"), words) for drawing, words in entries
            ]
        case blocks.Picture(jpeg):
            part["source"] = f"data:image/jpeg;base64,{b64encode(jpeg).decode()}"
        case blocks.Notes(_text, titles):
            part["columns"] = "; ".join(titles)
        case blocks.Lines(count):
            part["lines"] = range(count)
    return part


def _table(grid: Grid) -> dict[str, Any]:
    return {"grid": grid, "titles": _titles(grid), "rows": list(_rows(grid))}


def _titles(grid: Grid) -> list[tuple[str, bool]]:
    return [(title, n in grid.numbers) for n, title in enumerate(grid.titles)]


def _rows(grid: Grid) -> Iterator[list[tuple[str, str, bool]]]:
    """Each row's cells with their titles, and whether they are figures."""
    titles = grid.titles or ("",) * len(grid.shares)
    for row in grid.rows:
        yield [
            (title, cell, n in grid.numbers) for n, (title, cell) in enumerate(zip(titles, row, strict=True))
        ]


@register.filter
def unbroken(cell: str) -> bool:
    """Whether a cell of a table stays on one line, as days and spans of days do."""
    return len(cell) <= _A_SPAN and any(letter.isdecimal() for letter in cell)
