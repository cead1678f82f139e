"""Keeping logs typed in from paper: all lines or none.

Nothing is kept until every line is right. Who types a sheet looks at one page and one pile: with half of it
kept, nobody would know which half to type again, and a log may only make sense after the one above it (sowed,
then thinned). What is right already says how it will read, so that nothing has to be looked at twice. Each
line has its own key: a page sent twice, or gone back to, keeps every line once.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any
from uuid import UUID

from django.core.exceptions import ValidationError
from django.db import transaction
from django.utils.translation import gettext as _

from plots.access import may_run
from plots.models import Garden, Plot, User
from plots.powers import Power
from schedules.models import AmountUnit, Sighting
from schedules.paper_lines import Line, Read, read_lines
from schedules.queries.paper_lines import PaperBook
from schedules.scouting import Seen
from schedules.service.logs import keep_logs, kept_before
from schedules.service.measures import usual_hose
from schedules.wording.logs import logs_text
from schedules.wording.paper_lines import fault_text
from schedules.work import Work

# Where a refusal stands on a line.
_PLACES = {
    "planting": "what", "succession": "what", "crop": "what", "unit": "amount", "hose": "amount",
    "minutes": "amount", "seen": "note", "plots": "plot",
}  # fmt: skip
_LONGEST_SEEN = Sighting._meta.get_field("seen").max_length


@dataclass
class Outcome:
    """What became of a line: how it reads as a log, or why it cannot be, by field.

    With `known`, the line's key stands for another log already: it needs a new one. With `waits`, it repeats
    what cannot be read on a line above.
    """

    number: int
    text: str = ""
    faults: dict[str, list[str]] = field(default_factory=dict)
    known: bool = False
    waits: bool = False


@dataclass(frozen=True)
class Typed:
    """All lines of a page; `kept` where every one of them was."""

    lines: Sequence[Outcome]
    kept: bool


def type_logs(
    *, garden: Garden, by: User, paper: PaperBook, lines: Sequence[Line], keys: Mapping[int, UUID], keep: bool
) -> Typed:
    """Reads the lines and keeps them as logs from paper, written down by `by`; without `keep` only reads.

    The caller has asked `plots.access` whether `by` writes logs of the whole garden. `keys` has one for each
    number of a line.
    """
    typist = _Typist(garden, by, paper)
    outcomes = []
    with transaction.atomic():
        for read in read_lines(lines, paper.book):
            outcome = Outcome(read.number)
            for fault in read.faults:
                outcome.faults.setdefault(fault.where, []).append(fault_text(fault))
            if not read.clear and not read.faults:
                outcome.waits = True
            elif read.clear:
                typist.keep(read, keys[read.number], outcome)
            outcomes.append(outcome)
        kept = keep and bool(outcomes) and all(outcome.text for outcome in outcomes)
        if not kept:
            transaction.set_rollback(True)
    return Typed(outcomes, kept)


class _Typist:
    """Who types, with what the lines of one page have in common."""

    def __init__(self, garden: Garden, by: User, paper: PaperBook) -> None:
        self.garden, self.by, self.paper = garden, by, paper
        self.hose = usual_hose(garden.pk)
        self.counts_hours = may_run(by, garden, Power.WORKDAYS)

    def keep(self, read: Read, key: UUID, outcome: Outcome) -> None:
        """Keeps one line within the transaction of all, or says on its outcome why it cannot be."""
        if read.work == Work.HOURS and read.person != self.by.pk and not self.counts_hours:
            words = _("Hours of others are written down by who is trusted with workdays.")
            outcome.faults["person"] = [words]
            return
        plots, told = self._told(read)
        before = kept_before(key=key, by=self.by)
        if before and not before.same_as(plots=plots, **told):
            outcome.known = True
            words = _("This line was kept before as: %(log)s. Keep it once more for a second log.")
            outcome.faults["work"] = [words % {"log": logs_text(before.rows)}]
            return
        try:
            kept = keep_logs(garden=self.garden, plots=plots, by=self.by, key=key, from_paper=True, **told)
        except ValidationError as refusal:
            for name, sentences in _by_field(refusal).items():
                outcome.faults.setdefault(_PLACES.get(name, name), []).extend(sentences)
        else:
            outcome.text = logs_text(kept.rows)

    def _told(self, read: Read) -> tuple[list[Plot], dict[str, Any]]:
        paper = self.paper
        told: dict[str, Any] = {
            "work": read.work,
            "day": read.day,
            "person": paper.people[read.person or 0],
            "planting": paper.plantings[read.planting] if read.planting else None,
            "succession": read.succession,
            "crop": paper.crops[read.crop] if read.crop else None,
            "amount": read.amount,
            "unit": read.unit,
            "hose": self.hose if read.unit == AmountUnit.MINUTES else None,
            "minutes": read.minutes,
            "note": read.note,
        }
        if read.work == Work.SCOUT:
            told["seen"] = Seen(read.note[:_LONGEST_SEEN])
            told["note"] = read.note[_LONGEST_SEEN:] and read.note
        return [paper.plots[read.plot]] if read.plot else [], told


def _by_field(refusal: ValidationError) -> dict[str, list[str]]:
    if hasattr(refusal, "error_dict"):
        return {name if name in _KNOWN else "work": told for name, told in refusal.message_dict.items()}
    return {"work": refusal.messages}


_KNOWN = {*_PLACES, "plot", "day", "work", "amount", "person", "note"}
