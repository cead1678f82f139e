"""Care rounds and private matters with all that their pages show; only for those trusted with care."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from django.db.models import Count, Prefetch, Q, QuerySet

from plots.care import Proposal, Reason, Rules, Step, next_round, propose, rubric_lines
from plots.models import (
    Assignment,
    CareRound,
    Finding,
    FindingPhoto,
    Garden,
    GardenRules,
    Matter,
    MatterStep,
    Pause,
    Plot,
    PlotKind,
    User,
)
from plots.queries.site import gardened_plots, plots_in_walk_order


@dataclass(frozen=True, slots=True)
class Stop:
    """A plot on a round: who holds it, how it was found, how it was last time, and what is known besides."""

    plot: Plot
    held: Assignment | None
    found: Finding | None
    last: Finding | None
    pause: Pause | None
    matter: Matter | None
    asks: bool  # for a word with the holder, by the garden's rubric


@dataclass(frozen=True, slots=True)
class MatterRow:
    """A matter with the steps that stand, the pause that runs, and what is next."""

    matter: Matter
    steps: Sequence[MatterStep]
    pause: Pause | None
    proposal: Proposal
    is_ripe: bool

    @property
    def assignment(self) -> Assignment:
        return self.matter.assignment


def care_rules(rules: GardenRules) -> Rules:
    return Rules(
        contact_tries=rules.contact_tries,
        cure_days=rules.cure_days,
        recheck_days=rules.recheck_days,
        notices_before_decision=rules.notices_before_decision,
        appeal_days=rules.appeal_days,
    )


def rounds_of(garden: Garden) -> QuerySet[CareRound]:
    # Counting drops the model's own order.
    noted = Count("findings", filter=Q(findings__note__gt=""))
    return garden.care_rounds.annotate(seen=Count("findings"), noted=noted).order_by("-day", "-pk")


def round_due(garden: Garden, today: date) -> date | None:
    """When the garden's next round is due."""
    rules, last = garden.rules, garden.care_rounds.first()
    return next_round(
        last.day if last else None, every_days=rules.round_days, first=rules.round_from,
        until=rules.round_until, today=today,
    )  # fmt: skip


def stops_of(round: CareRound) -> list[Stop]:
    """Every plot as one walks past it on this round."""
    garden = round.garden
    plots = plots_in_walk_order(gardened_plots(garden), garden)
    held = {
        assignment.plot_id: assignment
        for assignment in Assignment.objects.on(round.day)
        .filter(plot__garden=garden)
        .select_related("holder")
        .prefetch_related("pauses", Prefetch("matters", Matter.objects.filter(closed_on=None)))
    }
    found, last = _findings(round)
    worse = min(garden.rules.matter_from, len(rubric_lines(garden.rules.rubric)))
    stops = []
    for plot in plots:
        plot.garden = garden
        assignment, finding = held.get(plot.pk), found.get(plot.pk)
        matter = next(iter(assignment.matters.all()), None) if assignment else None
        pause = pause_on(assignment, round.day) if assignment else None
        asks = finding is not None and finding.line >= worse and assignment is not None
        stops.append(
            Stop(
                plot, assignment, finding, last.get(plot.pk), pause, matter, asks and not matter and not pause
            )
        )
    return stops


def _findings(round: CareRound) -> tuple[dict[int, Finding], dict[int, Finding]]:
    """The findings of a round by plot, and the latest before it."""
    photos = Prefetch("photos", FindingPhoto.objects.standing(), to_attr="shown_photos")
    seen = round.findings.select_related("made_by").prefetch_related(photos)
    found = {one.plot_id: one for one in seen}
    before = Finding.objects.filter(round__garden=round.garden_id, round__day__lt=round.day)
    # Of some hundred plots and a round a fortnight these are few thousand rows; only the last year is read.
    earlier = before.filter(round__day__gt=date(round.day.year - 1, 1, 1)).order_by("round__day")
    return found, {one.plot_id: one for one in earlier.select_related("round")}


def pause_on(assignment: Assignment, day: date) -> Pause | None:
    return next((pause for pause in assignment.pauses.all() if pause.covers(day)), None)


def matters_of(garden: Garden, *, today: date) -> list[MatterRow]:
    """Every matter, those that wait for a person first."""
    rows = Matter.objects.filter(assignment__plot__garden=garden).select_related(
        "assignment__plot", "assignment__holder", "finding__round"
    )
    known = rows.prefetch_related("steps", "assignment__pauses")
    rules = care_rules(garden.rules)
    made = [matter_row(matter, rules, today=today) for matter in known]
    return sorted(made, key=lambda row: (not row.is_ripe, row.matter.closed_on is not None, -row.matter.pk))


def matter_row(matter: Matter, rules: Rules, *, today: date) -> MatterRow:
    steps = [step for step in matter.steps.all() if step.taken_back_at is None]
    taken = [Step(step.kind, step.day, done=step.done, due_on=step.due_on) for step in steps]
    pause = pause_on(matter.assignment, today)
    proposal = propose(
        taken, rules, today=today, paused=pause is not None, paused_until=pause.until_on if pause else None
    )
    return MatterRow(matter, steps, pause, proposal, proposal.is_ripe(today))


@dataclass(frozen=True, slots=True)
class Deadline:
    """Until when the holder of a plot was given time, to put it in order or to appeal."""

    plot: Plot
    until: date
    appeal: bool
    is_over: bool


def deadlines_of(holder: User, garden: Garden, today: date) -> list[Deadline]:
    """What the person was given time for at plots that they hold themself; for nobody else's eyes."""
    open_now = Matter.objects.filter(
        assignment__in=Assignment.objects.on(today).filter(plot__garden=garden, holder=holder), closed_on=None
    )
    known = open_now.select_related("assignment__plot").prefetch_related("steps", "assignment__pauses")
    rules, found = care_rules(garden.rules), []
    for matter in known:
        proposal = matter_row(matter, rules, today=today).proposal
        until, appeal = proposal.time_until, proposal.reason is Reason.MAY_APPEAL
        if until is not None:
            found.append(Deadline(matter.assignment.plot, until, appeal, until < today))
    return sorted(found, key=lambda one: one.until)


def held_personal(garden: Garden, today: date) -> QuerySet[Assignment]:
    """Who holds what today, for choosing with whom there is a matter."""
    held = Assignment.objects.on(today).filter(plot__garden=garden, plot__kind=PlotKind.PERSONAL)
    return held.select_related("plot", "holder")


def pauses_of(garden: Garden) -> QuerySet[Pause]:
    """Every pause, the latest first."""
    rows = Pause.objects.filter(assignment__plot__garden=garden)
    return rows.select_related("assignment__plot", "assignment__holder")


def pauses_running(garden: Garden, today: date) -> list[Pause]:
    return [pause for pause in pauses_of(garden).order_by("from_on") if pause.covers(today)]
