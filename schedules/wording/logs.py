"""Logs in sentences: what was kept, how much of it, and why something cannot be."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from django.utils.formats import date_format
from django.utils.functional import Promise
from django.utils.text import capfirst
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy, ngettext, pgettext

from crops.models import Planting
from crops.wording.names import crop_label
from plots.quantities import Quantity, Units
from plots.wording import NO_BREAK, number_text, quantity_text
from plots.wording.hours import hours_text
from schedules.amounts import GRAMS
from schedules.entries import Entry
from schedules.models import AmountUnit, WorkChoice, WorkLog
from schedules.plausible import Doubt
from schedules.queries.logs import SeveralPlots
from schedules.work import Work

_MOST_NAMED = 4


def amount_text(amount: float, unit: str) -> str:
    """An amount as it was typed: `10 min at the hose`, `2.5 kg`, `3 bunches`."""
    number, count = number_text(amount), 1 if amount == 1 else 2
    match unit:
        case AmountUnit.MINUTES:
            return _("%(n)s min at the hose") % {"n": number}
        case AmountUnit.CANS:
            return ngettext("%(n)s can", "%(n)s cans", count) % {"n": number}
        case AmountUnit.PIECES:
            return ngettext("%(n)s piece", "%(n)s pieces", count) % {"n": number}
        case AmountUnit.BUNCHES:
            return ngettext("%(n)s bunch", "%(n)s bunches", count) % {"n": number}
    return f"{number}{NO_BREAK}{unit_short(unit)}"


def unit_short(unit: str) -> str:
    """The abbreviation of a unit that is not counted in words."""
    return {
        "L": pgettext("unit", "L"), "gal": pgettext("unit", "gal"), "mm": pgettext("unit", "mm"),
        "in": pgettext("unit", "in"), "kg": pgettext("unit", "kg"), "g": pgettext("unit", "g"),
        "lb": pgettext("unit", "lb"), "oz": pgettext("unit", "oz"), "min": pgettext("unit", "min"),
    }[unit]  # fmt: skip


def weight_text(grams: float, units: str) -> str:
    """A weight in the garden's units: `2.5 lb`, `12 oz`, `1.2 kg`, `300 g`."""
    big, small = ("lb", "oz") if units == Units.US else ("kg", "g")
    unit = big if grams >= GRAMS[big] else small
    decimals = {"lb": 2, "oz": 1, "kg": 3 if grams < 10_000 else 1, "g": 0}[unit]
    return f"{number_text(round(grams / GRAMS[unit], decimals))}{NO_BREAK}{unit_short(unit)}"


def volume_text(litres: float, units: str) -> str:
    """A volume in the garden's units."""
    return quantity_text(litres, Quantity.VOLUME, units)


def plots_text(labels: Sequence[str]) -> str:
    """Which plots: `plot 12`, `plots 12, 13, 14`, `9 plots`."""
    if len(labels) > _MOST_NAMED:
        return _("%(n)d plots") % {"n": len(labels)}
    names = pgettext("between the items of a list", ", ").join(labels)
    return ngettext("plot %(plots)s", "plots %(plots)s", len(labels)) % {"plots": names}


def log_text(log: WorkLog, *, where: bool = True) -> str:
    """One log in a line: `Watered plot 12, 10 min at the hose`, `Picked chard, plot 12, 300 g`."""
    return logs_text([log], where=where)


def logs_text(logs: Sequence[WorkLog], *, where: bool = True) -> str:
    """Logs that came together in a line; they differ in their plots alone, which `where` says."""
    first = logs[0]
    work, crop = capfirst(str(first.get_work_display())), first.crop_grown
    labels = [str(log.plot) for log in logs if log.plot and where]
    plain = first.work in {Work.NOTE, Work.HOURS, Work.TREAT}
    named = grown_text(first)
    parts = [_work_on(first.work, named) if crop else work]
    if first.clears_all:
        whole = _("%(work)s all of %(plots)s") if labels else _("%(work)s the whole plot")
        parts = [whole % {"work": work, "plots": plots_text(labels)}]
    elif labels and not crop and not plain:
        parts = [_("%(work)s %(plots)s") % {"work": work, "plots": plots_text(labels)}]
    elif labels:
        parts.append(plots_text(labels))
    if first.planting and first.succession and first.succession + first.planting.successions > 2:
        parts.append(_("sowing %(n)d") % {"n": first.succession})
    if first.amount is not None:
        parts.append(amount_text(first.amount, first.unit))
    if first.minutes is not None:
        parts.append(hours_text(first.minutes))
    if first.given_away:
        parts.append(
            _("given away to %(whom)s") % {"whom": first.given_to} if first.given_to else _("given away")
        )
    return pgettext("between the items of a list", ", ").join(parts)


def kept_text(logs: Sequence[WorkLog], today: date) -> str:
    """That logs were kept, with their day where it is another than today."""
    words = {"log": logs_text(logs), "day": date_format(logs[0].day)}
    if logs[0].day == today:
        return _("Kept: %(log)s") % words
    return _("Kept: %(log)s, on %(day)s") % words


def _work_on(work: str, crop: str) -> str:
    """As in `Picked chard`, `Used a product on chard`, `Chard came up`."""
    words = {"work": work_word(work), "crop": crop}
    if work == Work.TREAT:
        return _("%(work)s on %(crop)s") % words
    if work == Work.CAME_UP:
        return _("%(crop)s came up") % words
    if work == Work.KILLED:
        return _("%(work)s: %(crop)s") % words
    return f"{words['work']} {crop}"


def doubt_sentence(doubt: Doubt, units: str) -> str:
    """Why a log is refused, in the garden's units."""
    values = {name: _shown(name, value, units) for name, value in doubt.values.items()}
    if "amount" in values:
        values["typed"] = amount_text(float(str(values["amount"])), str(values["unit"]))
    return str(_SENTENCES[doubt.code]) % values


def _shown(name: str, value: object, units: str) -> object:
    if isinstance(value, date):
        return date_format(value)
    if name == "work":
        return WorkChoice(value).label
    if name == "most_litres":
        return volume_text(round(float(str(value))), units)
    return value


_SENTENCES: dict[str, Promise] = {
    "not-yet": gettext_lazy("This day is still to come: today is %(today)s at the garden."),
    "too-old": gettext_lazy("%(day)s is very long ago. Is the year right?"),
    "given-up": gettext_lazy("This plot was given up on %(on)s."),
    "before-yours": gettext_lazy("You garden this plot from %(since)s on: this was before."),
    "after-yours": gettext_lazy("You gardened this plot until %(until)s: this was after."),
    "nothing": gettext_lazy("An amount is more than nothing; leave it empty if you do not know it."),
    "which-unit": gettext_lazy("Of what? Choose a unit."),
    "unit": gettext_lazy("Trugbook does not know this unit."),
    "unit-of-other-work": gettext_lazy("This unit does not go with “%(work)s”."),
    "no-amount": gettext_lazy("“%(work)s” has no amount here; say it in the note."),
    "no-area": gettext_lazy(
        "The size of this plot is not known, so a depth says no amount: give litres, gallons or cans."
    ),
    "part-of-a-piece": gettext_lazy("Pieces are counted whole."),
    "too-much-water": gettext_lazy(
        "%(typed)s at one plot in one watering cannot be; %(most_litres)s is the most that is taken down."
    ),
    "too-heavy": gettext_lazy("%(typed)s from one plot in one picking cannot be; is the unit right?"),
    "too-many": gettext_lazy("More than %(most)s pieces at once cannot be."),
    "how-long": gettext_lazy("How long did you work?"),
    "longer-than-a-day": gettext_lazy("A log is about one day: more than no time and at most 24 hours."),
    "only-harvest-is-given": gettext_lazy("Only what was picked can be given away."),
    "kept-not-given": gettext_lazy("To whom it went is for what was given away."),
    "which-planting": gettext_lazy("Which planting or crop was “%(work)s”?"),
    "succession-without-planting": gettext_lazy("Choose the planting of this sowing, too."),
    "no-such-sowing": gettext_lazy("A planting has at most %(of)s sowings."),
    "before-its-year": gettext_lazy("This planting is of %(year)s: that day was before it."),
    "long-after-its-year": gettext_lazy("This planting is of %(year)s: that day was long after it."),
    "cleared": gettext_lazy("This planting was cleared on %(on)s."),
    "worked-after-clearing": gettext_lazy("On %(on)s it was still “%(work)s”, so it was not cleared before."),
}  # fmt: skip


def grown_text(log: WorkLog) -> str:
    """The crop that a log is about, with its variety where a planting is named; empty without any."""
    crop = log.crop_grown
    return crop_label(crop, log.planting.variety if log.planting else None) if crop else ""


def planting_text(planting: Planting, this_year: int) -> str:
    """A planting among others of its plot: `Carrot, autumn`; of another year with its year."""
    name = crop_label(planting.crop, planting.variety)
    turn = planting.get_turn_display()
    words = {"crop": name, "turn": turn, "year": planting.year}
    if planting.year == this_year:
        return _("%(crop)s, %(turn)s") % words
    return _("%(crop)s, %(turn)s %(year)d") % words


def several_text(several: SeveralPlots) -> str:
    """Plots that are logged together: `Row 1: A1 to A6`, `All 24 plots`."""
    count = len(several.plots)
    if several.kind == "row":
        words = {"n": several.number, "first": several.plots[0], "last": several.plots[-1]}
        return _("Row %(n)d of the map: %(first)s to %(last)s") % words
    if several.kind == "communal":
        return _("All %(n)d plots that all garden") % {"n": count}
    return _("All %(n)d plots") % {"n": count}


def unit_choices(units: str) -> list[tuple[str, list[tuple[str, object]]]]:
    """Units to choose from, those of the garden first."""
    us = units == Units.US
    by_volume = ["min", "cans", *(["gal", "L", "in", "mm"] if us else ["L", "gal", "mm", "in"])]
    by_weight = [*(["lb", "oz", "kg", "g"] if us else ["kg", "g", "lb", "oz"]), "pcs", "bunches"]
    named = dict(AmountUnit.choices)
    if not us:
        named[AmountUnit.GALLONS] = _("US gallons")
    return [
        (_("water"), [(unit, named[unit]) for unit in by_volume]),
        (_("weight or number"), [(unit, named[unit]) for unit in by_weight]),
    ]


def amount_line(log: WorkLog) -> str:
    """An amount with what it comes to: `3 bunches: 450 g`, or why that is not known."""
    typed, units = amount_text(log.amount or 0, log.unit), log.garden.units
    if log.litres is not None and log.unit not in {"L", "gal"}:
        return f"{typed}: {volume_text(log.litres, units)}"
    if log.unit == AmountUnit.BUNCHES and log.grams is not None:
        return f"{typed}: {weight_text(log.grams, units)}"
    if log.unit == AmountUnit.MINUTES and log.litres is None:
        return _("%(typed)s: how much that is, is not known, since no hose was measured") % {"typed": typed}
    if log.unit == AmountUnit.BUNCHES:
        return _("%(typed)s: their weight is not known, since nobody weighed a bunch") % {"typed": typed}
    return typed


_COMMONEST = (Work.WATER, Work.PICK, Work.WEED)


def work_word(work: str) -> str:
    """A kind of work as a button says it: `Watered`, `Hours for the garden`."""
    return capfirst(str(WorkChoice(work).label))


def ways() -> list[tuple[str, str]]:
    """Every kind of work with its word, the commonest first."""
    rest = [work for work in Work if work not in _COMMONEST]
    return [(work.value, work_word(work)) for work in (*_COMMONEST, *rest)]


def tick_text(entry: Entry) -> str:
    """What a job becomes as a log when it is ticked off: `Thinned Carrot, plot 12`."""
    parts = [f"{work_word(entry.operation)} {entry.name}", plots_text([entry.plot_label])]
    return pgettext("between the items of a list", ", ").join(parts)
