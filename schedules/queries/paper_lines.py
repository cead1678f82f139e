"""What words typed from paper may mean in a garden: its plots, people, plantings, crops and units."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date

from django.db.models import Q
from django.utils.dates import MONTHS

from crops.models import Crop, Planting
from crops.wording.names import crop_name
from plots.access import plots_to_log
from plots.models import Assignment, Garden, Plot, Units, User
from plots.sign_in_sheet import Known
from plots.spelling import natural_key
from schedules.models import WorkLog
from schedules.paper_lines import COMMONEST, Book
from schedules.wording.logs import planting_text, unit_choices, unit_short, ways
from schedules.work import Work

_QUOTES = str.maketrans(dict.fromkeys("‘’“”'\"„,()", " "))
BY_FORM_ALONE = frozenset({Work.TREAT})  # the form asks what the product's own label says


@dataclass(frozen=True)
class PaperBook:
    """The words, and the rows that they stand for by key."""

    book: Book
    plots: Mapping[int, Plot]
    people: Mapping[int, User]
    plantings: Mapping[int, Planting]
    crops: Mapping[int, Crop]

    @property
    def letters(self) -> list[tuple[str, str]]:
        """One letter and the work it means."""
        words = dict(self.book.works)
        return [(words[work][:1].lower(), words[work]) for work in COMMONEST]

    @property
    def growing(self) -> list[str]:
        """Names of crops to choose from: those that are planted somewhere."""
        return sorted({crop_name(planting.crop.name) for planting in self.plantings.values()})


def paper_book(user: User, garden: Garden) -> PaperBook:
    """Everything that a line may name, for somebody who writes logs for the whole garden; 6 queries."""
    today = garden.today()
    plots = {plot.pk: plot for plot in plots_to_log(user, garden, late=True).select_related("garden")}
    people = {one.pk: one for one in User.objects.filter(memberships__garden=garden).order_by("name")}
    crops = {crop.pk: crop for crop in Crop.objects.filter(Q(garden=None) | Q(garden=garden))}
    plantings = {one.pk: one for one in _plantings(garden, today)}
    cleared = set(
        WorkLog.objects.standing()
        .filter(planting__in=plantings, work=Work.CLEAR, succession=None)
        .values_list("planting", flat=True)
    )
    now = [one for one in plantings.values() if one.pk not in cleared and _is_now(one, today)]
    held = Assignment.objects.on(today).filter(plot__in=plots).values_list("plot", "holder")
    book = Book(
        today=today,
        month_first=garden.units == Units.US,
        months=[str(name) for _number, name in sorted(MONTHS.items())],
        plots=sorted(
            (Known(pk, plot.label) for pk, plot in plots.items()), key=lambda one: natural_key(one.name)
        ),
        people=[Known(pk, one.name, one.sign_in_name) for pk, one in people.items()],
        works=[(work, word) for work, word in ways() if work not in BY_FORM_ALONE],
        units=_units(garden),
        crops=[Known(pk, crop_name(crop.name)) for pk, crop in crops.items()],
        plantings=_by_plot(now, today),
        earlier=_by_plot(plantings.values(), today),
        holders=dict(held),
    )
    return PaperBook(book, plots, people, plantings, crops)


def typed_lately(user: User, garden: Garden, count: int = 20) -> list[WorkLog]:
    """What the person typed in from paper last, to look over or take back."""
    rows = WorkLog.objects.standing().filter(garden=garden, made_by=user, from_paper=True)
    told = rows.select_related("garden", "plot", "planting__crop", "planting__variety", "crop", "person")
    return list(told.order_by("-made_at", "pk")[:count])


def _plantings(garden: Garden, today: date) -> Iterable[Planting]:
    """Those of last year, this and the next; cleared ones too, since paper comes late."""
    near = Q(year__gte=today.year - 1, year__lte=today.year + 1) | Q(crop__perennial=True)
    rows = Planting.objects.filter(near, plot__garden=garden, removed_at=None)
    return rows.select_related("crop", "variety", "plot").order_by("crop__name", "year", "pk")


def _is_now(planting: Planting, today: date) -> bool:
    return planting.year >= today.year or planting.crop.perennial


def _by_plot(plantings: Iterable[Planting], today: date) -> dict[int, list[Known]]:
    found: dict[int, list[Known]] = {}
    for one in plantings:
        name = " ".join(planting_text(one, today.year).translate(_QUOTES).split())
        found.setdefault(one.plot_id, []).append(Known(one.pk, name))
    return found


def _units(garden: Garden) -> list[tuple[str, list[str]]]:
    found: dict[str, list[str]] = {}
    for _what, choices in unit_choices(garden.units):
        for unit, label in choices:
            short = [] if unit in {"cans", "pcs", "bunches"} else [unit_short(unit)]
            found[unit] = [str(label), *short, unit]
    return list(found.items())
