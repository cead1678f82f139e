"""The columns in which a crop or a variety keeps its facts: SI units, named as in `crops.facts`."""

from __future__ import annotations

from functools import reduce
from itertools import starmap
from operator import and_

from django.db import models
from django.db.models import F, Q
from django.utils.translation import gettext_lazy as _

from crops import facts as plain
from crops.sheet import FACT_FIELDS, LINES, NUMBERS, ORDER
from plots.models.fields import TidyField


class Hardiness(models.TextChoices):
    HARDY = plain.Hardiness.HARDY.value, _("hardy")
    HALF_HARDY = plain.Hardiness.HALF_HARDY.value, _("half-hardy")
    TENDER = plain.Hardiness.TENDER.value, _("tender")
    VERY_TENDER = plain.Hardiness.VERY_TENDER.value, _("very tender")


class Method(models.TextChoices):
    DIRECT = plain.Method.DIRECT.value, _("sown where it grows")
    TRANSPLANT = plain.Method.TRANSPLANT.value, _("raised under cover and transplanted")
    EITHER = plain.Method.EITHER.value, _("either sown or transplanted")
    VEGETATIVE = plain.Method.VEGETATIVE.value, _("from sets, tubers, crowns or slips")


class CountedFrom(models.TextChoices):
    SOW = plain.CountedFrom.SOW.value, _("from sowing or setting")
    TRANSPLANT = plain.CountedFrom.TRANSPLANT.value, _("from transplanting")


class Support(models.TextChoices):
    NONE = "none", _("none")
    STAKE = "stake", _("a stake")
    CAGE = "cage", _("a cage")
    TRELLIS = "trellis", _("a trellis")
    OPTIONAL_TRELLIS = "optional-trellis", _("a trellis, if you like")


class Demand(models.TextChoices):
    LIGHT = "light", _("light")
    MEDIUM = "medium", _("medium")
    HEAVY = "heavy", _("heavy")


class Rooting(models.TextChoices):
    SHALLOW = "shallow", _("shallow")
    MEDIUM = "medium", _("medium")
    DEEP = "deep", _("deep")


def _number(label: str, help_text: str = "") -> models.FloatField:
    return models.FloatField(label, null=True, blank=True, help_text=help_text)


def _whole(label: str, help_text: str = "") -> models.IntegerField:
    return models.IntegerField(label, null=True, blank=True, help_text=help_text)


def _choice(label: str, choices: type[models.TextChoices]) -> models.CharField:
    return models.CharField(label, max_length=20, choices=choices.choices, blank=True)


def _possible(name: str) -> Q:
    line = LINES[name]
    return Q(**{f"{name}__isnull": True}) | Q(**{f"{name}__gte": line.lowest, f"{name}__lte": line.highest})


def _in_order(low: str, high: str) -> Q:
    return Q(**{f"{low}__isnull": True}) | Q(**{f"{high}__isnull": True}) | Q(**{f"{low}__lte": F(high)})


_FROM_LAST_FROST = _("Weeks after the mean last frost; before it with a minus.")
_FROM_FIRST_FROST = _("Weeks after the mean first frost; before it with a minus.")
_NUMBERS = [name for name, line in LINES.items() if line.measure in NUMBERS]


class FactColumns(models.Model):
    """Facts in SI units; null or empty means unknown, and for a variety that it is as its crop."""

    botanical_name = TidyField(_("botanical name"), max_length=120, blank=True)
    hardiness = _choice(_("hardiness of the young plant"), Hardiness)
    method = _choice(_("how it is started"), Method)
    perennial = models.BooleanField(_("stays for several years"), null=True, blank=True)
    first_harvest_year = _whole(_("year of the first harvest, that of planting being 1"))

    sow_depth_m = _number(_("sowing depth"))
    soil_min_c = _number(_("lowest soil temperature for germination"))
    soil_optimum_low_c = _number(_("best soil temperature, from"))
    soil_optimum_high_c = _number(_("best soil temperature, to"))
    soil_max_c = _number(_("highest soil temperature for germination"))
    emergence_days_optimum = _number(_("days to come up in soil at its best"))

    seedling_spacing_m = _number(_("distance when sown"))
    thin_when = TidyField(_("thin when"), max_length=80, blank=True)
    spacing_m = _number(_("distance between plants"))
    row_spacing_m = _number(_("distance between rows"))

    indoor_weeks_low = _number(_("weeks under cover, at least"))
    indoor_weeks_high = _number(_("weeks under cover, at most"))
    sow_weeks_early = _number(_("sow outdoors, from"), _FROM_LAST_FROST)
    sow_weeks_late = _number(_("sow outdoors, to"), _FROM_LAST_FROST)
    transplant_weeks_early = _number(_("transplant, from"), _FROM_LAST_FROST)
    transplant_weeks_late = _number(_("transplant, to"), _FROM_LAST_FROST)
    autumn_weeks_early = _number(_("set in autumn, from"), _FROM_FIRST_FROST)
    autumn_weeks_late = _number(_("set in autumn, to"), _FROM_FIRST_FROST)

    maturity_days_low = _whole(_("days to maturity, at least"))
    maturity_days_high = _whole(_("days to maturity, at most"))
    maturity_from = _choice(_("days to maturity are counted"), CountedFrom)
    harvest_days_low = _whole(_("days of picking, at least"))
    harvest_days_high = _whole(_("days of picking, at most"))
    succession_days = _whole(_("days between sowings"))

    fall_crop = models.BooleanField(_("usual as an autumn crop"), null=True, blank=True)
    fall_margin_days = _whole(
        _("ripe this many days before the mean first frost"), _("With a minus: that many days after it.")
    )

    growth_min_c = _number(_("grows from a monthly mean of"))
    growth_optimum_low_c = _number(_("grows best from a monthly mean of"))
    growth_optimum_high_c = _number(_("grows best up to a monthly mean of"))
    growth_max_c = _number(_("grows up to a monthly mean of"))
    kill_c = _number(_("cold that kills or spoils the grown plant"))

    sun_hours_min = _number(_("hours of direct sun, at least"))
    support = _choice(_("support"), Support)
    height_m = _number(_("height"))
    container_litres = _number(_("smallest container"))
    nitrogen_demand = _choice(_("need of nitrogen"), Demand)
    rooting_depth_class = _choice(_("roots"), Rooting)

    class Meta:
        abstract = True
        # One constraint for all numbers: SQLite rebuilds the table for each. The form names the field.
        constraints = [
            models.CheckConstraint(
                condition=reduce(and_, map(_possible, _NUMBERS)), name="%(class)s_numbers_possible"
            ),
            models.CheckConstraint(
                condition=reduce(and_, starmap(_in_order, ORDER)), name="%(class)s_ranges_in_order"
            ),
        ]

    def stated(self) -> dict[str, object]:
        """The facts that are given here, by their names in `CropFacts`."""
        values = {name: getattr(self, name) for name in ("botanical_name", *FACT_FIELDS)}
        given = {name: value for name, value in values.items() if value is not None and value != ""}
        enums = {
            "hardiness": plain.Hardiness,
            "method": plain.Method,
            "maturity_from": plain.CountedFrom,
        }
        return {name: enums[name](value) if name in enums else value for name, value in given.items()}
