"""Nerve, chances and what still fits, in words."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from django.utils.text import get_text_list
from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from crops.facts import Method
from plots.models import Garden, NerveChoice
from plots.models.ground import LIGHT_ROW_COVER_C
from plots.quantities import Quantity
from plots.wording import number_text, quantity_text
from schedules.chance import Chance, NoChance
from schedules.fits import Fit
from schedules.nerve import Choice, Chooser, Cost, Move, Risk
from schedules.reports.season import FrostChart, FrostCurve, FrostPoint
from schedules.service.choosing import ChanceOfSowing, SeasonOfChances
from schedules.windows import Nerve, Start, Turn
from schedules.windows.ripening import Pace
from schedules.wording.phrases import days, month_day, temperature

_NOISE_C = 0.005  # of typing degrees in one scale and keeping them in another


def nerve_name(nerve: Nerve) -> str:
    """A nerve with the risk that it accepts."""
    if nerve.percent is None:
        return _("as published calendars have it")
    names = {10: _("careful"), 30: _("middling"), 50: _("bold")}
    words = {"name": names.get(round(nerve.percent), ""), "percent": number_text(nerve.percent)}
    return (_("%(name)s (%(percent)s %%)") % words).strip()


def choice_text(choice: Choice) -> str:
    """Which nerve the dates follow, and whose choice it is."""
    text = {
        Chooser.PLANTING: _("The dates follow this planting's own nerve: %(nerve)s."),
        Chooser.HOLDER: _("The dates follow the nerve of who holds the plot: %(nerve)s."),
        Chooser.GARDEN: _("The dates follow the garden's nerve: %(nerve)s."),
        Chooser.DATES: _("Nobody chose a nerve, so the dates follow what is usual here: %(nerve)s."),
    }[choice.chooser]
    return text % {"nerve": nerve_name(choice.nerve)}


def asked_text(choice: Choice) -> str:
    """Which nerve an answer follows: what was asked for, or whose choice it is."""
    if choice.chooser is Chooser.PLANTING:
        return _("Nerve: %(nerve)s.") % {"nerve": nerve_name(choice.nerve)}
    return choice_text(choice)


def as_garden(nerve: Nerve | None) -> str:
    """What it means for a member to choose none."""
    if nerve is None:
        return _("as the garden has it")
    return _("as the garden has it: %(nerve)s") % {"nerve": nerve_name(nerve)}


def nerve_choices(unset: str) -> list[tuple[str, str]]:
    """The nerves to choose from, and none, under the words of `unset`."""
    return [("", unset), *((value, str(label)) for value, label in NerveChoice.choices)]


def cover_text(garden: Garden) -> str:
    """How much frost a row cover is counted to keep off, and who says so."""
    warmth = quantity_text(garden.row_cover_c, Quantity.WARMTH, garden.units)
    if garden.row_cover_source:
        words = {"warmth": warmth, "source": garden.row_cover_source}
        return _("A row cover is counted as keeping off %(warmth)s of frost (%(source)s).") % words
    if abs(garden.row_cover_c - LIGHT_ROW_COVER_C) < _NOISE_C:
        return _(
            "A row cover is counted as keeping off %(warmth)s of frost: the low end of what light ones do "
            "(2 to 5 °F, harvesttotable.com)."
        ) % {"warmth": warmth}
    return _(
        "A row cover is counted as keeping off %(warmth)s of frost, as the garden says, without a source."
    ) % {"warmth": warmth}


def share_text(risk: Risk) -> str:
    """How often, in years of the record where there is one."""
    if risk.count is None:
        return _("about %(percent)s %%") % {"percent": risk.percent}
    words = {"count": risk.count, "used": risk.used, "percent": risk.percent}
    return _("%(percent)s %%, %(count)s of %(used)s years") % words


def gain_text(cost: Cost, turn: Turn) -> str:
    """The days that a nerve gives more than the careful one."""
    if cost.gained_days == 0:
        return _("no day gained")
    if turn is Turn.SPRING:
        text = ngettext("%(count)s day earlier", "%(count)s days earlier", cost.gained_days)
    else:
        text = ngettext("%(count)s day longer", "%(count)s days longer", cost.gained_days)
    return text % {"count": cost.gained_days}


def cost_heading(turn: Turn) -> tuple[str, str]:
    """What the columns of the costs hold: the day, and the chance."""
    if turn is Turn.SPRING:
        return _("earliest day"), _("a killing freeze still comes after it")
    return _("latest day"), _("a freeze ends it before it is ripe")


def move_text(move: Move, turn: Turn) -> str:
    """What beginning a week earlier or later costs, and what it saves."""
    words = {
        "day": month_day(move.then.day),
        "before": move.now.percent,
        "after": move.then.percent,
        "days": days(abs(move.days)),
    }
    if turn is Turn.SPRING:
        if move.days < 0:
            text = _("A week earlier, on %(day)s, the chance of a killing freeze after it goes from"
                     " %(before)s %% to %(after)s %%, and %(days)s are saved.")  # fmt: skip
        else:
            text = _("A week later, on %(day)s, the chance of a killing freeze after it goes from"
                     " %(before)s %% to %(after)s %%, and %(days)s are lost.")  # fmt: skip
    elif move.days < 0:
        text = _("A week earlier, on %(day)s, the chance that a freeze ends it before it is ripe goes from"
                 " %(before)s %% to %(after)s %%.")  # fmt: skip
    else:
        text = _("A week later, on %(day)s, the chance that a freeze ends it before it is ripe goes from"
                 " %(before)s %% to %(after)s %%, and %(days)s are gained.")  # fmt: skip
    return text % words


def chance_text(chance: Chance | NoChance, pace: Pace, units: str) -> str:
    """How likely a crop is to ripen, and what stands in its way; or why that cannot be told."""
    if isinstance(chance, NoChance):
        return _NONE[chance]()
    words = {
        "begun": month_day(chance.begun),
        "ripe": month_day(chance.ripe),
        "percent": chance.percent,
        "count": chance.count,
        "used": chance.used,
    }
    if chance.count is None:
        text = (
            _("Begun on %(begun)s, a slow variety is ripe about %(ripe)s, in about %(percent)s of 100 years"
              " before a killing freeze.")
            if pace is Pace.SLOW
            else _("Begun on %(begun)s, a quick variety is ripe about %(ripe)s, in about %(percent)s of 100"
                   " years before a killing freeze.")
        )  # fmt: skip
    else:
        text = (
            _("Begun on %(begun)s, a slow variety is ripe about %(ripe)s: before a killing freeze in"
              " %(count)s of %(used)s years, %(percent)s %%.")
            if pace is Pace.SLOW
            else _("Begun on %(begun)s, a quick variety is ripe about %(ripe)s: before a killing freeze in"
                   " %(count)s of %(used)s years, %(percent)s %%.")
        )  # fmt: skip
    return text % words


def losses_text(chance: Chance, units: str) -> list[str]:
    """Which freezes take it in the other years; nothing of one that hardly ever does."""
    texts = []
    if round(100 * chance.killed_young) and chance.young_c is not None:
        texts.append(
            _("In %(years)s a freeze of %(celsius)s comes on or after %(day)s, when the young plants are"
              " exposed, and kills them.")
            % {
                "years": _years(chance.killed_young, chance.young_count, chance.used),
                "celsius": temperature(chance.young_c, units),
                "day": month_day(chance.exposed),
            }
        )  # fmt: skip
    if round(100 * chance.killed_late):
        texts.append(
            _("In %(years)s the freeze of %(celsius)s that ends it comes by %(day)s.")
            % {
                "years": _years(chance.killed_late, chance.late_count, chance.used),
                "celsius": temperature(chance.grown_c, units),
                "day": month_day(chance.ripe),
            }
        )
    return texts


def _years(share: float, count: int | None, used: int | None) -> str:
    """How many years of the record, or of a hundred where none is known."""
    if count is None:
        return _("about %(percent)s of 100 years") % {"percent": round(100 * share)}
    return _("%(count)s of %(used)s years") % {"count": count, "used": used}


def likely_text(season: SeasonOfChances, nerve: Nerve) -> str:
    """On which days of the year a quick variety has the chance that the nerve asks for; empty without one."""
    if season.likely is None or nerve.percent is None:
        return ""
    words = {"percent": number_text(100 - nerve.percent)}
    if not season.likely:
        return _("On no day of the year is the chance of a quick variety %(percent)s %% or more.") % words
    spans = [
        _("%(first)s to %(last)s") % {"first": month_day(first), "last": month_day(last)}
        for first, last in season.likely
    ]
    words["spans"] = get_text_list(spans, _("and"))
    return _("The chance of a quick variety is %(percent)s %% or more from %(spans)s.") % words


def sowing_text(one: ChanceOfSowing) -> str:
    """In how many years what stands in a plan ripens before a killing freeze, slow varieties to quick."""
    told = [chance for chance in (one.quick, one.slow) if isinstance(chance, Chance)]
    used = told[0].used
    counts = sorted({chance.percent if chance.count is None else chance.count for chance in told})
    years = _("%(counts)s of %(used)s years") if used else _("about %(counts)s of 100 years")
    counted = {"counts": "–".join(number_text(count) for count in counts), "used": used}
    words = {"day": month_day(one.begins), "years": years % counted, "number": number_text(one.succession)}
    if one.start is Start.SOW:
        text = (
            _("Sowing %(number)s, sown or set on %(day)s, ripens before a killing freeze in %(years)s.")
            if one.succession > 1
            else _("Sown or set on %(day)s, it ripens before a killing freeze in %(years)s.")
        )
    else:
        text = (
            _("Sowing %(number)s, set out on %(day)s, ripens before a killing freeze in %(years)s.")
            if one.succession > 1
            else _("Set out on %(day)s, it ripens before a killing freeze in %(years)s.")
        )
    return text % words


_NONE = {
    NoChance.NO_DAYS: lambda: _("No source gives its days to the first harvest, so no chance can be told."),
    NoChance.LATER_YEAR: lambda: _("It is picked in a later year; winter is part of its life."),
    NoChance.TOO_LITTLE_WARMTH: lambda: _("A whole year has too little warmth here to ripen it."),
    NoChance.NOT_UP: lambda: _("The soil is then too cold or too hot for its seed to come up."),
    NoChance.FREEZES_UNKNOWN: lambda: _(
        "The garden's frost dates do not tell how often a freeze as cold as the one that ends it comes."
    ),
}


def fit_way(fit: Fit, method: Method) -> str:
    """How a crop that still fits is begun."""
    if fit.start is Start.TRANSPLANT:
        return _("seedlings")
    return _("sets, tubers or slips") if method is Method.VEGETATIVE else _("seed")


def raised_text(fit: Fit) -> str:
    """Whether there is still time to raise the seedlings."""
    if fit.start is Start.SOW:
        return ""
    if fit.raised is None or fit.raised_ripe is None:
        return _("too late to raise them from seed")
    words = {"day": month_day(fit.raised), "ripe": month_day(fit.raised_ripe)}
    return _("sown under cover on the day, set out about %(day)s and ripe about %(ripe)s") % words


def chart_of_chances(
    quick: Sequence[tuple[date, float]], slow: Sequence[tuple[date, float]], start: Start, asked: date
) -> FrostChart | None:
    """The chances of a quick and of a slow variety through the season, as a chart takes them."""
    curves = [(_("quick variety"), quick), (_("slow variety"), slow)]
    if quick == slow:
        curves = [(_("this variety"), quick)]
    drawn = tuple(
        FrostCurve(name, tuple(FrostPoint(day, share) for day, share in points))
        for name, points in curves
        if any(share for _day, share in points)
    )
    if not drawn:
        return None
    inside = quick[0][0] <= asked <= quick[-1][0]
    return FrostChart(
        heading=_("Years in 100 in which it ripens before a killing freeze, by the day on which it is sown")
        if start is Start.SOW
        else _("Years in 100 in which it ripens before a killing freeze, by the day it is set out"),
        curves=drawn,
        falling=True,
        marker=asked if inside else None,
        marker_text=month_day(asked),
        named_late=True,
    )


def percent_text(chance: Chance | NoChance) -> str:
    """The chance in a table; a dash where none can be told."""
    return _("%(percent)s %%") % {"percent": chance.percent} if isinstance(chance, Chance) else "–"


def start_name(start: Start) -> str:
    """A way to begin a crop, whenever it is."""
    return _("Sown or set in its place") if start is Start.SOW else _("Set out as seedlings")
