"""The weeks of members as their job cards take them, a whole garden in a bounded number of queries."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Any

from django.utils import translation
from django.utils.translation import gettext as _

from plots.models import Garden, Plot
from plots.queries import dates_of
from schedules.entries import Entry
from schedules.jobs import Job, Task, jobs_in_week, monday_of, next_opening
from schedules.reports.job_card import JobCard, TaskLine
from schedules.service.calendar import (
    GardenDates,
    PlantingDates,
    dated_plantings,
    entries_in_order,
    years_around,
)
from schedules.service.member_plans import Holding, day_lines, no_frost_dates, plots_text
from schedules.service.sheet import Sentences
from schedules.service.water import water_jobs
from schedules.water import WaterJob
from schedules.wording import operation_name
from schedules.wording.calendar import day_text, moment_text, span_text, succession_text
from schedules.wording.climate import climate_source_text
from schedules.wording.intervals import hold_short
from schedules.wording.water import basis_text, owed_text

_AHEAD = timedelta(days=6)


@dataclass(frozen=True)
class Week:
    """A card in plain values, and the entries that its jobs are made of."""

    card: JobCard
    entries: tuple[Entry, ...]


def week_cards(
    garden: Garden, holdings: Sequence[Holding], *, day: date, today: date, paper: str, large: bool = False
) -> list[Week]:
    """The cards of the week of `day`, in the order of `holdings`; water is owed in this week alone."""
    dates = GardenDates.of(garden)
    found: dict[int, Week] = {}
    for language in dict.fromkeys(one.language for one in holdings):
        own = [(at, one) for at, one in enumerate(holdings) if one.language == language]
        with translation.override(language):
            make = _Maker(garden, [one for _at, one in own], dates, monday_of(day), today)
            common = {"paper": paper, "large": large, "printed_on": today, "language": language}
            found |= {at: make.week(one, common) for at, one in own}
    return [found[at] for at in range(len(holdings))]


class _Maker:
    """Makes cards of one garden and week in the language that is active."""

    def __init__(
        self,
        garden: Garden,
        holdings: Sequence[Holding],
        dates: GardenDates | None,
        monday: date,
        today: date,
    ) -> None:
        self.garden, self.monday, self.dated = garden, monday, dates is not None
        self.record, self.sentences = climate_source_text(garden), Sentences(garden.units)
        plots = list({plot.pk: plot for one in holdings for plot in one.plots}.values())
        known = dated_plantings(garden, plots, years_around(monday), dates)
        self.known: dict[int, list[PlantingDates]] = defaultdict(list)
        for dated in known:
            self.known[dated.planting.plot_id].append(dated)
        self.water = self._water(plots, known, dates, today) if monday == monday_of(today) else {}
        self.days = tuple(day_lines(dates_of(garden, monday, monday + _AHEAD), monday.year))

    def _water(
        self, plots: list[Plot], known: list[PlantingDates], dates: GardenDates | None, today: date
    ) -> dict[int, WaterJob]:
        owed = water_jobs(self.garden, plots, dates=dates, today=today, known=known)
        return {one.plot: one for one in owed}

    def week(self, holding: Holding, common: dict[str, Any]) -> Week:
        several = len(holding.plots) > 1
        entries = entries_in_order(dated for plot in holding.plots for dated in self.known[plot.pk])
        jobs = jobs_in_week(entries, self.monday)
        tasks = tuple(self._task(task, several) for job in jobs for task in job.tasks)
        owed = [self.water[plot.pk] for plot in holding.plots if plot.pk in self.water]
        card = JobCard(
            week=_("Week of %(days)s") % {"days": span_text(self.monday, self.monday + _AHEAD)},
            plots=plots_text(holding),
            people=holding.people,
            garden=self.garden.name,
            record=self.record,
            monday=self.monday,
            tasks=tasks,
            water=tuple(self._watering(one, several, told=not n) for n, one in enumerate(owed)),
            days=self.days,
            following="" if tasks else self._following(entries),
            **common,
        )
        return Week(card, tuple(_entries_of(jobs)))

    def _task(self, task: Task, several: bool) -> TaskLine:
        entry = task.entry
        which = succession_text(entry.succession, entry.successions)
        held = hold_short(entry.not_before) if entry.not_before else ""
        return TaskLine(
            what=_("%(what)s: %(crop)s") % {"what": operation_name(entry.operation), "crop": entry.name},
            plot=entry.plot_label if several else "",
            when=", ".join(part for part in (which, held, moment_text(task)) if part),
            why=" ".join(self.sentences.why(entry)[:1]),
            urgent=task.is_urgent,
            rank=task.moment,
        )

    def _watering(self, job: WaterJob, several: bool, *, told: bool) -> TaskLine:
        """What a plot is owed; how that is reckoned is told once."""
        units = self.garden.units
        return TaskLine(
            what=_("Water"),
            plot=job.plot_label if several else "",
            when=owed_text(job.owed_mm, job.litres, job.by, units),
            why=basis_text(job.basis, units) if told else "",
        )

    def _following(self, entries: Sequence[Entry]) -> str:
        """What a week without jobs says."""
        if not self.dated:
            return no_frost_dates()
        later = next_opening(entries, self.monday + timedelta(weeks=1))
        if later is None:
            return _(
                "Nothing is planned for this week. Choose crops under “Plan” in Trugbook, or tell a"
                " coordinator what you would like to grow."
            )
        words = {
            "what": operation_name(later.operation),
            "crop": later.name,
            "day": day_text(later.earliest, self.monday.year),
        }
        return _("Nothing is due this week. Next: %(what)s, %(crop)s, from %(day)s.") % words


def _entries_of(jobs: Sequence[Job]) -> list[Entry]:
    return [task.entry for job in jobs for task in job.tasks]
