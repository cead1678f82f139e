"""How this garden measures, and what that makes of an amount."""

from __future__ import annotations

from plots.models import Plot
from schedules.amounts import CAN_LITRES, Measured, Unit
from schedules.models import BunchWeight, HoseFlow, WateringCan, WorkLog


def measured_for(row: WorkLog) -> Measured:
    """What is known for working out a log's amount: its hose, the garden's can and bunches, the plot."""
    can = WateringCan.objects.filter(garden=row.garden).first()
    return Measured(
        can_litres=can.litres if can else CAN_LITRES[row.garden.units],
        flow_l_min=row.hose.litres_per_minute if row.hose else None,
        bunch_grams=_bunch_grams(row) if row.unit == Unit.BUNCHES else None,
        area_m2=area_of(row.plot),
    )


def area_of(plot: Plot | None) -> float | None:
    """Square metres of a plot whose sides are known."""
    return plot.width_m * plot.length_m if plot and plot.width_m and plot.length_m else None


def _bunch_grams(row: WorkLog) -> float | None:
    crop = row.crop_grown
    weighed = BunchWeight.objects.standing().filter(garden=row.garden, crop=crop).first() if crop else None
    return weighed.grams_each if weighed else None


def usual_hose(garden_pk: int) -> HoseFlow | None:
    """The hose that is meant where nobody names one: the one measured last."""
    return HoseFlow.objects.standing().filter(garden=garden_pk).order_by("-measured_on", "-pk").first()
