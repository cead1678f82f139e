"""The demonstration's care rounds with one matter and one pause, two notices, and a letter asked for."""

from __future__ import annotations

from datetime import date, timedelta

from plots.models import Assignment, Garden, MatterStep, Membership, Notice, PauseWhy, StepKind, User
from plots.queries import gardened_plots, plots_in_walk_order
from plots.service import (
    begin_round,
    give_out,
    keep_finding,
    keep_notice,
    mark_delivery,
    open_matter,
    pause,
    take_step,
)
from schedules.service.letters import choose_letter

# What is found, plot by plot along the path, on the round two weeks ago and on the last one.
BEFORE = [1, 2, 1, 1, 3, 1, 2]
LATELY = [1, 2, 1, 2, 3, 1, 1]
NOTES = {2: "Bindweed in the path.", 3: "Thistles about to flower."}


def look_after(garden: Garden, people: list[User], today: date) -> None:
    """Everything goes through the services that the pages use; `people` begin with the coordinator."""
    coordinator = people[0]
    _walk(garden, coordinator, today - timedelta(days=16), BEFORE)
    _walk(garden, coordinator, today - timedelta(days=2), LATELY)
    held = list(Assignment.objects.on(today).filter(plot__garden=garden).order_by("plot__label"))
    _talk(garden, coordinator, today)
    yesterday, back = today - timedelta(days=1), today + timedelta(days=12)
    pause(assignment=held[2], why=PauseWhy.TRAVEL, until=back, on=yesterday, by=held[2].holder)
    _tell(garden, coordinator)
    choose_letter(membership=Membership.objects.get(garden=garden, user=people[1]), wanted=True)


def _walk(garden: Garden, by: User, day: date, lines: list[int]) -> None:
    made = begin_round(garden=garden, on=day, by=by)
    for number, plot in enumerate(plots_in_walk_order(gardened_plots(garden), garden)):
        line = lines[number % len(lines)]
        keep_finding(round=made, plot=plot, line=line, note=NOTES.get(line, ""), by=by)


def _talk(garden: Garden, by: User, today: date) -> None:
    """One matter from the last round: called twice, reached the second time."""
    worst = garden.care_rounds.first().findings.filter(line=3).order_by("pk")
    held = Assignment.objects.on(today).filter(plot__in=worst.values("plot")).order_by("plot__label").first()
    if held is None:
        return
    begun = today - timedelta(days=2)
    found = worst.get(plot=held.plot_id)
    matter = open_matter(assignment=held, finding=found, on=begun, by=by)
    for days, done, text in ((0, False, ""), (1, True, "Comes on Saturday, would like a hand.")):
        step = MatterStep(
            matter=matter, kind=StepKind.CONTACT, day=begun + timedelta(days=days), how="phone", done=done,
            text=text,
        )  # fmt: skip
        take_step(step=step, by=by)


def _tell(garden: Garden, by: User) -> None:
    water = Notice(
        garden=garden,
        subject="The water is turned off soon",
        body="Please empty and take home your hoses.\n\nThe rain barrels stay until the first hard frost.",
    )
    keep_notice(notice=water, picked=[], by=by)
    give_out(notice=water, by=by)
    first = water.deliveries.filter(way="phone").first()
    if first is not None:
        mark_delivery(delivery=first, state="reached")
    barrow = Notice(garden=garden, subject="A new wheelbarrow", body="It stands in the shed, for everybody.")
    keep_notice(notice=barrow, picked=[], by=by)
