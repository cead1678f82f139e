"""The steps of setting a garden up, in words."""

from __future__ import annotations

from dataclasses import dataclass

from django.utils.functional import Promise
from django.utils.translation import gettext_lazy as _

from plots.models import SetUp
from plots.set_up import State, Step, state_of

TITLES: dict[Step, Promise] = {
    Step.PLACE: _("Where the garden lies"),
    Step.UNITS: _("Units, paper and language"),
    Step.FROST: _("Frost dates"),
    Step.PLOTS: _("Plots"),
    Step.SEASON: _("The season"),
    Step.RULES: _("Rules"),
}
WHY: dict[Step, Promise] = {
    Step.PLACE: _("for the length of its days, and what “today” means there"),
    Step.UNITS: _("for every size and temperature shown, and every sheet printed"),
    Step.FROST: _("for every planting date"),
    Step.PLOTS: _("in rows, or one by one"),
    Step.SEASON: _("from when until when plots are given out"),
    Step.RULES: _("days, hours and caps; other gardens' values to begin with"),
}
STATES: dict[State, Promise] = {
    State.OPEN: _("not yet"),
    State.SKIPPED: _("left for later"),
    State.DONE: _("done"),
}


def address_of(step: Step) -> str:
    """The name of the step's page; that of the frost dates belongs to who keeps them."""
    return f"{'schedules' if step == Step.FROST else 'plots'}:set_up_{step}"


@dataclass(frozen=True)
class StepText:
    step: str
    number: int
    title: str
    why: str
    state: str
    state_text: str
    address: str


def steps_in_words(set_up: SetUp) -> list[StepText]:
    found = []
    for number, step in enumerate(Step, start=1):
        state = state_of(step, set_up.done, set_up.skipped)
        found.append(
            StepText(
                step.value,
                number,
                str(TITLES[step]),
                str(WHY[step]),
                state.value,
                str(STATES[state]),
                address_of(step),
            )
        )
    return found
