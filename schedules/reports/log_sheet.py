"""Blank sheets to write logs on by hand, one for each plot, for people who log without a phone."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from django.utils.translation import gettext

from schedules.reports.document import Document, Head, Page

LINE, LARGE_LINE = 24.0, 36.0  # points between lines
_SHARES = (11, 17, 25, 15, 14, 18)


@dataclass(frozen=True, slots=True)
class LogSheet:
    """A plot's sheet: what grows there in words, and the address that its code opens."""

    label: str
    address: str
    growing: Sequence[str]


@dataclass(frozen=True, slots=True)
class LogKey:
    """What may be written: kinds of work, and units by what they count."""

    works: Sequence[str]
    units: Sequence[tuple[str, Sequence[str]]]


def log_sheets(head: Head, sheets: Sequence[LogSheet], key: LogKey) -> Document:
    """A page for each plot, in the given order, ruled as far as it reaches."""
    page = Page(head, titled=False)
    for one in sheets:
        page.next_sheet(gettext("Plot {label}").format(label=one.label), head.garden, one.address)
        growing = "; ".join(one.growing) or gettext("nothing planned")
        page.text(gettext("Growing or planned here: {plantings}.").format(plantings=growing))
        page.quiet(gettext("What was done: {works}.").format(works=", ".join(key.works)))
        for what, units in key.units:
            page.quiet(gettext("How much {what}: {units}.").format(what=what, units=", ".join(units)))
        page.table(
            (),
            titles=_titles(),
            shares=_SHARES,
            row_height=LARGE_LINE if head.large else LINE,
            grid=True,
            to_the_end=True,
        )
    return page.document()


def _titles() -> tuple[str, ...]:
    return (
        gettext("Day"), gettext("What was done"), gettext("On what"), gettext("How much"), gettext("Who"),
        gettext("Note"),
    )  # fmt: skip
