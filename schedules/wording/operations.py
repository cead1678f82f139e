"""What each operation is called, and what it asks a person to do."""

from __future__ import annotations

from django.utils.translation import pgettext

from schedules.windows.types import Edge, Operation


def operation_name(operation: Operation) -> str:
    """The operation as a heading: "Start indoors"."""
    return {
        Operation.START_INDOORS: pgettext("operation", "Start indoors"),
        Operation.HARDEN_OFF: pgettext("operation", "Harden off"),
        Operation.SOW: pgettext("operation", "Sow"),
        Operation.TRANSPLANT: pgettext("operation", "Transplant"),
        Operation.THIN: pgettext("operation", "Thin"),
        Operation.HARVEST: pgettext("operation", "Harvest"),
    }[operation]


def edge_name(edge: Edge) -> str:
    """The part of a window that reasons are listed under: "Not before"."""
    return {
        Edge.EARLIEST: pgettext("edge of a window", "Not before"),
        Edge.BEST: pgettext("edge of a window", "Best"),
        Edge.LATEST: pgettext("edge of a window", "Not after"),
        Edge.NONE: pgettext("edge of a window", "No window"),
        Edge.DONE: pgettext("edge of a window", "Done"),
    }[edge]
