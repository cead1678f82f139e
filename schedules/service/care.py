"""What logs say beside care: when each plot was last worked. Only for those trusted with care."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date

from plots.models import Assignment, CareRound, FindingPhoto, Garden, Pause, Plot
from plots.queries import Stop, stops_of
from schedules.attended import Attended, Days, attended
from schedules.models import WorkLog
from schedules.queries import latest_work


@dataclass(frozen=True, slots=True)
class CareStop:
    """A plot of a round with its latest work, what that comes to, and the photos of how it was found."""

    stop: Stop
    worked: WorkLog | None
    attended: Attended
    photos: Sequence[FindingPhoto]


def care_stops(round: CareRound) -> list[CareStop]:
    """All plots of a round in the order of the walk, with what was known on its day."""
    return with_work(round, stops_of(round))


def with_work(round: CareRound, stops: Sequence[Stop], plots: Iterable[Plot] | None = None) -> list[CareStop]:
    """These stops with their work; `plots` where only some of the garden's are asked for."""
    garden = round.garden
    work = latest_work(garden, until=round.day, plots=plots)
    found = []
    for stop in stops:
        pauses = [(one.from_on, one.until_on) for one in stop.held.pauses.all()] if stop.held else []
        last = work.get(stop.plot.pk)
        known = _attended(garden, last, stop.held, pauses, round.day)
        found.append(CareStop(stop, last, known, stop.found.shown_photos if stop.found else []))
    return found


def care_of(garden: Garden, plots: Iterable[Plot], today: date) -> dict[int, tuple[WorkLog | None, Attended]]:
    """The latest work of plots that know their `current` assignments, by the plot's key."""
    work, pauses = latest_work(garden, until=today), _pauses(garden)
    found = {}
    for plot in plots:
        held = plot.current[0] if plot.current else None
        last = work.get(plot.pk)
        away = pauses.get(held.pk, []) if held else []
        found[plot.pk] = (last, _attended(garden, last, held, away, today))
    return found


def _attended(
    garden: Garden, last: WorkLog | None, held: Assignment | None, pauses: Iterable[Days], today: date
) -> Attended:
    rules = garden.rules
    return attended(
        last.day if last else None,
        held_since=held.began_on if held else None,
        pauses=pauses,
        season_opens=rules.round_from,
        limit=rules.unattended_days,
        today=today,
    )


def _pauses(garden: Garden) -> dict[int, list[Days]]:
    found: dict[int, list[Days]] = {}
    for pause in Pause.objects.filter(assignment__plot__garden=garden):
        found.setdefault(pause.assignment_id, []).append((pause.from_on, pause.until_on))
    return found
