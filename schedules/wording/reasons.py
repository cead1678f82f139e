"""The sentence a member reads for each reason of a window.

Every code that a rule in `schedules.windows` may give has a sentence, held by a test; they stand in modules
named as the rules are. A sentence names the fact, the number and the rule; temperatures and lengths come in
the garden's units.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from schedules.windows.types import Reason
from schedules.wording import anchored_reasons, autumn_reasons, course_reasons, fits_reasons, spring_reasons
from schedules.wording.operations import edge_name

_SENTENCES = (
    spring_reasons.SENTENCES
    | autumn_reasons.SENTENCES
    | course_reasons.SENTENCES
    | anchored_reasons.SENTENCES
    | fits_reasons.SENTENCES
)


def reason_sentence(reason: Reason, units: str) -> str:
    """The reason in words; `units` are the garden's, `"us"` or `"metric"`."""
    return _SENTENCES[reason.code](reason.values, units)


@dataclass(frozen=True, slots=True)
class Told:
    """One sentence for all the edges that it explains; `decisive` where it set them."""

    edges: tuple[str, ...]
    sentence: str
    decisive: bool

    @property
    def heading(self) -> str:
        """The edges in words: "Not before and not after"."""
        return ", ".join([self.edges[0], *(edge.lower() for edge in self.edges[1:])])


def tell(reasons: Iterable[Reason], units: str) -> list[Told]:
    """The reasons in words, each told once; those that set an edge before those only weighed."""
    edges: dict[tuple[str, bool], list[str]] = {}
    for reason in reasons:
        names = edges.setdefault((reason_sentence(reason, units), reason.decisive), [])
        name = edge_name(reason.edge)
        if name not in names:
            names.append(name)
    told = [Told(tuple(names), sentence, decisive) for (sentence, decisive), names in edges.items()]
    return sorted(told, key=lambda one: not one.decisive)


def known_codes() -> frozenset[str]:
    """The codes that have a sentence."""
    return frozenset(_SENTENCES)
