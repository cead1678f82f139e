"""Tables as CSV that every spreadsheet opens rightly and none takes for a formula."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable, Sequence
from datetime import datetime
from decimal import Decimal

BOM = "\ufeff"  # without it Excel reads names with accents wrongly
_FORMULA = ("=", "+", "-", "@", "\t", "\r")


def csv_text(titles: Sequence[str], rows: Iterable[Sequence[object]]) -> str:
    """One table, with its headings; dates ISO 8601, yes and no as 1 and 0, nothing as an empty cell.

    Text that a spreadsheet would calculate gets an apostrophe in front. Numbers are left as they are.

    >>> csv_text(["Plot"], [["=1+1"], [-2.5], [None]]).removeprefix(BOM).splitlines()
    ['Plot', "'=1+1", '-2.5', '""']
    """
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\r\n")
    writer.writerow([cell(title) for title in titles])
    writer.writerows([cell(value) for value in row] for row in rows)
    return BOM + out.getvalue()


def cell(value: object) -> str:
    if value is None:
        return ""
    if isinstance(value, bool):
        return "1" if value else "0"
    if isinstance(value, int | float | Decimal):
        return str(value)
    if isinstance(value, datetime):
        return value.isoformat(timespec="seconds")
    text = str(value)
    return f"'{text}" if text.startswith(_FORMULA) else text
