"""The garden's dates, gathered from its rules, seasons, workdays and the dates that people wrote down."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, datetime, timedelta

from django.db.models import Max, Q
from django.utils.translation import gettext as _

from plots.dates import Certainty, GardenDay, in_order
from plots.models import YEARLY_KINDS, Change, DateKind, Garden, GardenDate, RenewalRound, Workday
from plots.month_days import in_year, within

_OFF_AT_MOST = 182  # days


def dates_of(garden: Garden, first: date, last: date, *, public: bool = False) -> list[GardenDay]:
    """Every date of the garden between two days, in order; `public` for those anybody may read."""
    written = list(_written_in(garden, first, last))
    found = [
        *(_of_row(row) for row in written if row.day <= last and (row.last_day or row.day) >= first),
        *_of_rules(garden, first, last, {(row.kind, row.day.year) for row in written}),
        *_of_seasons(garden, first, last),
        *(
            day
            for workday in _workdays_in(garden, first, last)
            for day in _of_workday(workday, garden.today())
            if first <= day.day <= last
        ),
    ]
    return in_order(one for one in found if one.public or not public)


def water_off_since(garden: Garden, today: date) -> date | None:
    """The day on which the garden's water was turned off, as long as it is.

    Half a year at most: a garden need not say when it is turned on again.
    """
    first, kinds = today - timedelta(days=_OFF_AT_MOST), (DateKind.WATER_ON, DateKind.WATER_OFF)
    written = list(_written_in(garden, first, today))
    days = [(row.day, row.kind) for row in written if row.kind in kinds and first <= row.day <= today]
    replaced = {(row.kind, row.day.year) for row in written}
    days += [(one.day, one.kind) for one in _of_rules(garden, first, today, replaced) if one.kind in kinds]
    day, kind = max(days, default=(today, DateKind.WATER_ON))
    return day if kind == DateKind.WATER_OFF else None


def rules_changed_at(garden: Garden) -> datetime:
    """When the days that the rules give were last changed."""
    changes = Change.objects.filter(garden=garden, about_model="plots.gardenrules")
    return changes.aggregate(last=Max("at"))["last"] or garden.made_at


def _written_in(garden: Garden, first: date, last: date) -> Iterator[GardenDate]:
    """Also the rest of both years: a date takes the place of the rules' day of its year."""
    span = Q(day__range=(date(first.year, 1, 1), date(last.year, 12, 31)))
    yield from garden.dates.filter(span | Q(day__lt=first, last_day__gte=first), removed_at=None)


def _of_row(row: GardenDate) -> GardenDay:
    return GardenDay(
        key=f"date-{row.pk}",
        kind=row.kind,
        title=_sentence(str(row)),
        day=row.day,
        last_day=row.last_day,
        starts_at=row.starts_at,
        place=row.place,
        note=row.note,
        public=row.public,
        pk=row.pk,
        changed_at=row.changed_at,
    )


def _sentence(text: str) -> str:
    return text[:1].upper() + text[1:]


def _of_rules(garden: Garden, first: date, last: date, replaced: set[tuple[str, int]]) -> Iterator[GardenDay]:
    for kind in YEARLY_KINDS:
        for year in range(first.year, last.year + 1):
            day = in_year(getattr(garden.rules, kind), year)
            if day is not None and first <= day <= last and (kind, year) not in replaced:
                yield GardenDay(f"{kind}-{year}", kind, _sentence(str(DateKind(kind).label)), day)


def _of_seasons(garden: Garden, first: date, last: date) -> Iterator[GardenDay]:
    for season in garden.seasons.filter(starts_on__lte=last, ends_on__gte=first):
        begins = _("Season %(season)s begins") % {"season": season}
        ends = _("Season %(season)s ends") % {"season": season}
        due = within(garden.rules.hours_due, season.starts_on, season.ends_on)
        days = [
            GardenDay(f"season-{season.pk}-first", "season", begins, season.starts_on),
            GardenDay(f"season-{season.pk}-last", "season", ends, season.ends_on),
        ]
        if due is not None and garden.rules.hours_owed:
            days.append(GardenDay(f"hours-{season.pk}", "hours", _("Last day for the hours of work"), due))
        yield from (one for one in days if first <= one.day <= last)
    rounds = RenewalRound.objects.filter(season__garden=garden, answer_by__range=(first, last))
    for one in rounds.select_related("season"):
        title = _("Last day to answer whether you keep your plot (season %(season)s)") % {
            "season": one.season
        }
        yield GardenDay(f"renewals-{one.pk}", "renewal", title, one.answer_by)


def _workdays_in(garden: Garden, first: date, last: date) -> Iterator[Workday]:
    either = Q(day__range=(first, last)) | Q(rain_day__range=(first, last))
    yield from garden.workdays.filter(either)


def _of_workday(workday: Workday, today: date) -> Iterator[GardenDay]:
    """The day, and the rain date unless that has passed unneeded."""

    def made(suffix: str, title: str, day: date, certainty: Certainty) -> GardenDay:
        return GardenDay(
            key=f"workday-{workday.pk}{suffix}",
            kind="workday",
            title=title,
            day=day,
            starts_at=workday.starts_at,
            ends_at=workday.ends_at,
            place=workday.place,
            certainty=certainty,
            pk=workday.pk,
            changed_at=workday.changed_at,
        )

    title = _("Workday: %(name)s") % {"name": workday}
    gone = Certainty.FIRM if workday.held == "day" else Certainty.OFF
    yield made("", title, workday.day, gone)
    unneeded = workday.held == "day" and workday.rain_day is not None and workday.rain_day < today
    if workday.rain_day is not None and not unneeded:
        rain = {"day": Certainty.IF_RAIN, "rain": Certainty.FIRM, "off": Certainty.OFF}[workday.held]
        words = _("Rain date of the workday: %(name)s") if rain is not Certainty.FIRM else None
        yield made("-rain", words % {"name": workday} if words else title, workday.rain_day, rain)
