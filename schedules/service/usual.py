"""What a log most likely says, so that the commonest one is two taps: today, my plot, as last time."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any
from uuid import uuid4

from plots.models import Plot, Units
from schedules.models import AmountUnit, WorkLog
from schedules.queries.logs import LogChoices
from schedules.service.calendar import GardenDates, years_around
from schedules.windows import Operation
from schedules.work import Work, operation_of

_COUNTED = (Work.START_INDOORS, Work.SOW, Work.CAME_UP, Work.TRANSPLANT, Work.THIN)


def usual_log(
    choices: LogChoices,
    *,
    work: str = "",
    plots: Sequence[int] = (),
    planting: int | None = None,
    succession: int | None = None,
) -> dict[str, Any]:
    """What the form of a new log opens with: what the address says, the rest guessed from last time."""
    work = work if work in set(Work) else Work.WATER
    usual = choices.usual_plot()
    chosen = list(plots) or _plot_of(choices, planting) or ([usual.pk] if usual else [])
    if planting is None and len(chosen) == 1:
        planting, succession = _planting(choices, work, chosen[0])
    return {
        "key": uuid4(),
        "author": choices.user.pk,
        "work": work,
        "plots": chosen,
        "planting": planting,
        "succession": succession,
        "day": choices.garden.today(),
        **usual_amounts(choices).get(work, {}),
    }


def same_again(choices: LogChoices, log: WorkLog) -> dict[str, Any]:
    """The same work once more today: all of the log but its day, its photos and what was picked."""
    amount = {} if log.work == Work.PICK else {"amount": log.amount}
    return {
        "key": uuid4(),
        "author": choices.user.pk,
        "work": log.work,
        "plots": [log.plot_id] if log.plot_id else [],
        "planting": log.planting_id,
        "succession": log.succession,
        "crop": log.crop_id,
        "day": choices.garden.today(),
        "unit": log.unit or usual_amounts(choices).get(log.work, {}).get("unit", ""),
        "hose": log.hose_id,
        "minutes": log.minutes,
        "given_away": log.given_away,
        "given_to": log.given_to,
        "note": log.note if log.work == Work.NOTE else "",
        **amount,
    }


def usual_amounts(choices: LogChoices) -> dict[str, dict[str, Any]]:
    """By work the unit that was used last, for water with amount and hose; else the garden's own."""
    us, hose = choices.garden.units == Units.US, choices.hoses[0].pk if choices.hoses else None
    found: dict[str, dict[str, Any]] = {
        Work.WATER: {"unit": AmountUnit.MINUTES if hose else AmountUnit.CANS, "amount": None, "hose": hose},
        Work.PICK: {"unit": AmountUnit.POUNDS if us else AmountUnit.KILOGRAMS, "amount": None},
        Work.FEED: {"unit": AmountUnit.CANS, "amount": None},
        Work.MULCH: {"unit": AmountUnit.INCHES if us else AmountUnit.LITRES, "amount": None},
        **{work: {"unit": AmountUnit.PIECES, "amount": None} for work in _COUNTED},
    }
    for work, last in choices.last.items():
        if work in found and last.unit:
            found[work]["unit"] = last.unit
            if work == Work.WATER:
                found[work]["amount"] = last.amount
                found[work]["hose"] = last.hose_id or hose
    return found


def _plot_of(choices: LogChoices, planting: int | None) -> list[int]:
    return [one.plot_id for one in choices.plantings if one.pk == planting]


def _planting(choices: LogChoices, work: str, plot_pk: int) -> tuple[int | None, int | None]:
    """The planting in season for this work: by its dates, else the one last picked, else the only one.

    What is done once, like thinning, is not offered again where it was done last.
    """
    here = [one for one in choices.plantings if one.plot_id == plot_pk]
    operation = operation_of(work)
    if operation is None or not here:
        return None, None
    if found := _in_season(choices, operation, here[0].plot):
        return found
    last = choices.last.get(work) if work == Work.PICK else None
    if last is not None and last.planting_id in {one.pk for one in here}:
        return last.planting_id, None
    return (here[0].pk, None) if len(here) == 1 else (None, None)


def _in_season(choices: LogChoices, operation: Operation, plot: Plot) -> tuple[int, int | None] | None:
    """The planting whose window for this work is open today and closes first."""
    dates = GardenDates.of(choices.garden)
    if dates is None:
        return None
    today = choices.garden.today()
    plot.garden = choices.garden
    open_now = [
        row
        for row in dates.entries([plot], years_around(today))
        if row.operation is operation and row.done is None and row.earliest <= today <= row.latest
    ]
    first = min(open_now, key=lambda row: (row.latest, row.name), default=None)
    if first is None:
        return None
    return first.planting, first.succession if first.successions > 1 else None


def as_sent(amounts: Mapping[str, Mapping[str, Any]]) -> dict[str, dict[str, str]]:
    """The usual amounts as the form's fields hold them, for the script that changes them with the work."""
    return {
        work: {name: "" if value is None else f"{value:.10g}" if isinstance(value, float) else str(value)
               for name, value in values.items()}
        for work, values in amounts.items()
    }  # fmt: skip
