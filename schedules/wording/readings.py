"""Readings of the garden's thermometers in words."""

from __future__ import annotations

from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy, ngettext

from schedules.models import GardenReading
from schedules.service.readings import Imported
from schedules.stations.loggers import LoggerFile
from schedules.wording.stations import finding_sentence

READERS = [("logger", gettext_lazy("a logger")), ("eye", gettext_lazy("somebody"))]
_UNUSED_SHOWN = 3


def reader_text(reading: GardenReading) -> str:
    """Who read the thermometer, or that a logger did; nothing of somebody who was forgotten."""
    if reading.from_logger:
        return _("a logger")
    return "" if reading.made_by is None else str(reading.made_by)


def imported_text(done: Imported, logger: LoggerFile) -> str:
    """What became of a logger's file: days kept and left out, and the first lines that could not be used."""
    return " ".join([*_kept_texts(done), *_left_out_texts(logger), *_unused_texts(logger)])


def _kept_texts(done: Imported) -> list[str]:
    new = ngettext("%(count)s day is new or changed.", "%(count)s days are new or changed.", done.new)
    known = ngettext("%(count)s was there already.", "%(count)s were there already.", done.unchanged)
    typed = ngettext(
        "%(count)s typed by hand stays as it was.", "%(count)s typed by hand stay as they were.", done.typed
    )
    others = ((known, done.unchanged), (typed, done.typed))
    return [new % {"count": done.new}, *(text % {"count": count} for text, count in others if count)]


def _left_out_texts(logger: LoggerFile) -> list[str]:
    gaps = ngettext(
        "%(count)s has a gap of more than three hours and is left out.",
        "%(count)s have a gap of more than three hours and are left out.",
        logger.incomplete,
    )
    unlikely = ngettext(
        "%(count)s cannot be right and is left out: the lowest lies above the highest, or out of reach.",
        "%(count)s cannot be right and are left out: the lowest lies above the highest, or out of reach.",
        logger.unlikely,
    )
    found = ((gaps, logger.incomplete), (unlikely, logger.unlikely))
    return [text % {"count": count} for text, count in found if count]


def _unused_texts(logger: LoggerFile) -> list[str]:
    """How many lines could not be used, and the first of them."""
    count = logger.findings.unused_count
    if not count:
        return []
    text = ngettext("%(count)s line could not be used.", "%(count)s lines could not be used.", count)
    return [text % {"count": count}, *map(finding_sentence, logger.findings.unused[:_UNUSED_SHOWN])]
