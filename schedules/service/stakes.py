"""Stakes and log sheets as they are printed, from plots in the order of the walk."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from django.conf import settings
from django.urls import reverse
from django.utils.translation import get_language
from django.utils.translation import gettext as _

from plots.models import Garden, Plot
from schedules.models import WorkChoice
from schedules.queries.logs import plantings_to_log
from schedules.reports.label_sheets import Labels
from schedules.wording.logs import planting_text, unit_choices
from schedules.work import Work

if TYPE_CHECKING:
    from schedules.reports.log_sheet import LogKey, LogSheet

_NOT_ON_PAPER = frozenset({Work.TREAT})  # wants the label's own interval: see the form


def stake_address(plot: Plot) -> str:
    """What the code of a stake says, in full."""
    return settings.SITE.origin + reverse("schedules:at_plot", args=[plot.stake_code])


def stakes_on_paper(
    garden: Garden, plots: Sequence[Plot], labels: Labels, *, first: int, backs: bool, outlines: bool
) -> bytes:
    """The stakes of these plots as a PDF."""
    from schedules.reports.stakes import Stake, StakePrint, stakes_pdf  # lazy: reportlab

    return stakes_pdf(
        StakePrint(
            garden=garden.name,
            language=get_language() or "en",
            labels=labels,
            stakes=[Stake(plot.label, stake_address(plot)) for plot in plots],
            first=first,
            backs=backs,
            outlines=outlines,
        )
    )


def log_sheets(garden: Garden, plots: Sequence[Plot]) -> list[LogSheet]:
    """A sheet for each plot, with what stands there or is planned; two queries for all of them."""
    from schedules.reports.log_sheet import LogSheet  # lazy: reportlab

    growing: dict[int, list[str]] = {plot.pk: [] for plot in plots}
    this_year = garden.today().year
    for planting in plantings_to_log(garden, growing):
        growing[planting.plot_id].append(planting_text(planting, this_year))
    return [LogSheet(plot.label, stake_address(plot), growing[plot.pk]) for plot in plots]


def log_key(garden: Garden) -> LogKey:
    """What may be written on a sheet, in the garden's units first."""
    from schedules.reports.log_sheet import LogKey  # lazy: reportlab

    works = [str(WorkChoice(work).label) for work in Work if work not in _NOT_ON_PAPER]
    units = [(name, [str(label) for _unit, label in choices]) for name, choices in unit_choices(garden.units)]
    return LogKey([*works, _("or in your own words")], units)
