"""How this garden measures, and what that makes of an amount."""

from __future__ import annotations

from datetime import date

from django.core.exceptions import ValidationError
from django.db import IntegrityError, transaction
from django.utils import timezone
from django.utils.translation import gettext as _

from crops.models import Crop
from plots.models import Garden, Plot, User
from plots.service.history import record
from plots.spelling import folded
from schedules.amounts import CAN_LITRES, Measured, Unit
from schedules.models import BunchWeight, HoseFlow, WateringCan, WorkLog


def measured_for(row: WorkLog) -> Measured:
    """What is known for working out a log's amount: its hose, the garden's can and bunches, the plot."""
    return Measured(
        can_litres=can_litres(row.garden),
        flow_l_min=row.hose.litres_per_minute if row.hose else None,
        bunch_grams=_bunch_grams(row) if row.unit == Unit.BUNCHES else None,
        area_m2=area_of(row.plot),
    )


def area_of(plot: Plot | None) -> float | None:
    """Square metres of a plot whose sides are known."""
    return plot.width_m * plot.length_m if plot and plot.width_m and plot.length_m else None


def can_litres(garden: Garden) -> float:
    """What a can holds: as the garden says, else the usual one."""
    can = WateringCan.objects.filter(garden=garden).first()
    return can.litres if can else CAN_LITRES[garden.units]


def _bunch_grams(row: WorkLog) -> float | None:
    crop = row.crop_grown
    weighed = BunchWeight.objects.standing().filter(garden=row.garden, crop=crop).first() if crop else None
    return weighed.grams_each if weighed else None


def usual_hose(garden_pk: int) -> HoseFlow | None:
    """The hose that is meant where nobody names one: the one measured last."""
    return HoseFlow.objects.standing().filter(garden=garden_pk).order_by("-measured_on", "-pk").first()


@transaction.atomic
def measure_hose(
    *, garden: Garden, by: User, name: str, litres: float, seconds: float, measured_on: date
) -> HoseFlow:
    """Keeps how long a bucket took; the measurement before under this name counts no more."""
    _hold(garden)
    former = HoseFlow.objects.standing().filter(garden=garden, name_folded=folded(name))
    former.update(removed_at=timezone.now())
    row = HoseFlow.objects.create(
        garden=garden, name=name, litres=litres, seconds=seconds, measured_on=measured_on, measured_by=by
    )
    record(
        garden=garden, by=by, about=row, what="hose-measured", after={"litres": litres, "seconds": seconds}
    )
    return row


@transaction.atomic
def measure_bunch(
    *, garden: Garden, by: User, crop: Crop, bunches: int, grams: float, measured_on: date
) -> BunchWeight:
    """Keeps what bunches weighed; the weighing before of this crop counts no more."""
    _hold(garden)
    former = BunchWeight.objects.standing().filter(garden=garden, crop=crop)
    former.update(removed_at=timezone.now())
    row = BunchWeight.objects.create(
        garden=garden, crop=crop, bunches=bunches, grams=grams, measured_on=measured_on, measured_by=by
    )
    record(garden=garden, by=by, about=row, what="bunch-weighed", after={"grams": grams, "bunches": bunches})
    return row


@transaction.atomic
def keep_can(*, garden: Garden, by: User, litres: float) -> None:
    """Keeps what the garden's can holds; what was logged in cans before stays as it was worked out."""
    before = can_litres(garden)
    row, _made = WateringCan.objects.update_or_create(garden=garden, defaults={"litres": litres})
    if before != litres:
        record(
            garden=garden, by=by, about=row, what="can-changed",
            before={"litres": before}, after={"litres": litres},
        )  # fmt: skip


@transaction.atomic
def remove_measure(*, row: HoseFlow | BunchWeight, by: User) -> None:
    """Takes a measurement off the list. Twice is harmless."""
    if type(row).objects.standing().filter(pk=row.pk).update(removed_at=timezone.now()):
        record(garden=row.garden, by=by, about=row, what="measure-removed")


def restore_measure(*, row: HoseFlow | BunchWeight, by: User) -> None:
    """Puts a measurement back, unless a newer one stands in its place. Twice is harmless."""
    try:
        with transaction.atomic():
            gone = type(row).objects.filter(pk=row.pk, removed_at__isnull=False)
            if gone.update(removed_at=None):
                record(garden=row.garden, by=by, about=row, what="measure-restored")
    except IntegrityError:
        raise ValidationError(_("It was measured anew meanwhile.")) from None


def _hold(garden: Garden) -> None:
    """Two who measure at once wait here for each other."""
    Garden.objects.select_for_update().get(pk=garden.pk)
