"""What several topics say of a place: its frosts in a line, its windows in short, questions of dates."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from datetime import date, timedelta

from django.utils.formats import date_format
from django.utils.translation import gettext as _

from crops.facts import CropFacts
from crops.manure import latest_manure
from plots.quantities import Quantity
from plots.wording import NO_BREAK, range_text
from schedules.climate import Basis
from schedules.entries import BEGINNINGS, is_dated
from schedules.place import Place, PlaceCrop
from schedules.reports.days import short_day
from schedules.seasons import DAYS_IN_YEAR, Hemisphere
from schedules.windows import Operation, Turn, Window
from schedules.windows.growth import needs_thinning
from schedules.wording.climate import threshold_text
from schedules.wording.topics.topic import Question

FREEZING_C = 0.0
_NO_YEAR = 0  # of any day, so that its own is written
_MIDWINTER = 7  # the month in which a season of the south begins
_STEP = timedelta(weeks=3)
BEFORE = "*"  # after a day of the season before, where its year takes too much room
ROOMY_ROWS = 16  # of a topic's table; with more of them the lines stand close, lest it take a second sheet

CROP_SOURCES = (
    "University of Missouri Extension, Vegetable planting calendar (G6201); Colorado State University"
    " Extension, Vegetable planting guide (GardenNotes 720); University of Florida IFAS Extension, Florida"
    " vegetable gardening guide (SP103). The sources of each crop’s figures stand on its page in Trugbook.",
)


def day(value: date) -> str:
    """A day without its year."""
    return date_format(value, "MONTH_DAY_FORMAT")


def first_windows(crop: PlaceCrop, operation: Operation, turn: Turn | None = None) -> Iterator[Window]:
    """The dated windows of the first sowing, of one half of the year or of both."""
    for window in crop.windows:
        first = window.operation is operation and window.succession == 1 and is_dated(window)
        if first and turn in (None, window.turn):
            yield window


def first_window(crop: PlaceCrop, operation: Operation, turn: Turn | None = None) -> Window | None:
    """The earliest of these."""
    return min(first_windows(crop, operation, turn), key=lambda one: one.earliest or date.max, default=None)


def sown_apart(facts: CropFacts, place: Place) -> str:
    """How far apart seed is sown; where nothing is thinned, from that to the distance in the end."""
    sown, final = facts.seedling_spacing_m, facts.spacing_m
    if not sown:
        return ""
    if final is None or needs_thinning(facts):
        final = sown
    return range_text(sown, final, Quantity.SHORT_LENGTH, place.units)


def first_picked(crop: PlaceCrop) -> date | None:
    """The first day of its first harvest."""
    window = first_window(crop, Operation.HARVEST)
    return None if window is None else window.earliest


def last_manure(crop: PlaceCrop) -> date | None:
    """The last day for raw manure before its first harvest, by the longer interval, which fits any crop.

    Manure is dug in, which cannot be done any more where the crop stands: so it is the day before that at
    the latest.
    """
    window = first_window(crop, Operation.HARVEST)
    if window is None or window.earliest is None:
        return None
    begun = [
        day - timedelta(days=1)
        for operation in BEGINNINGS
        for one in first_windows(crop, operation, window.turn)
        if (day := one.earliest) is not None and day < window.earliest
    ]
    return min([latest_manure(window.earliest, touches_soil=True), *begun])


def span(window: Window | None, place: Place, mark: str = "") -> str:
    """From its earliest to its latest day, as `days`; nothing where there is none."""
    if window is None or window.earliest is None or window.latest is None:
        return ""
    return days(window.earliest, window.latest, place, mark)


def days(earliest: date, latest: date, place: Place, mark: str = "") -> str:
    """From one day to another, short; see `short`."""
    near = _in_season(earliest, place) and (latest - earliest).days < DAYS_IN_YEAR
    last = _unbroken(short_day(latest)) if near else short(latest, place, mark)
    if earliest == latest:
        return last
    first = _unbroken(short_day(earliest)) if earliest.year == latest.year else short(earliest, place, mark)
    return f"{first} – {last}"


def short(value: date, place: Place, mark: str = "") -> str:
    """A day without its year, unless it is outside of the season that the place's dates are of.

    A `mark` takes the place of the year where it is of the season before.
    """
    if mark and _season(value, place) < place.year:
        return _unbroken(short_day(value)) + mark
    return _unbroken(short_day(value, None if _in_season(value, place) else _NO_YEAR))


def _unbroken(text: str) -> str:
    return text.replace(" ", NO_BREAK)


def _in_season(value: date, place: Place) -> bool:
    return _season(value, place) == place.year


def _season(value: date, place: Place) -> int:
    """The year in whose spring the season of this day begins."""
    return value.year - (place.hemisphere is Hemisphere.SOUTH and value.month < _MIDWINTER)


def frost_sentences(place: Place) -> list[str]:
    """The frosts of the place, side by side: the middle date, and the one for the careful."""
    return [one for one in _frosts(place) if one]


def autumn_frost(place: Place) -> str:
    """The first frost alone; empty where it is not known."""
    return _frosts(place)[1]


def _frosts(place: Place) -> tuple[str, str]:
    """Of spring and of autumn."""
    spring = autumn = ""
    freezing = next((one for one in place.freeze if one.celsius == FREEZING_C), None)
    if freezing is None:
        return spring, autumn
    words = {"temperature": threshold_text(FREEZING_C, place.units)}
    estimated = place.basis is Basis.MEAN
    half, rare = freezing.last.get(50), freezing.last.get(10)
    if half is not None and rare is not None:
        words |= {"half": day(half), "rare": day(rare)}
        spring = (
            _("Mean last frost of spring: %(half)s. Our estimate: in 1 year of 10 on %(rare)s or later.")
            if estimated
            else _("Last frost of spring (%(temperature)s): on %(half)s or later in half of the years, on"
                   " %(rare)s or later in 1 year of 10.")
        ) % words  # fmt: skip
    half, rare = freezing.first.get(50), freezing.first.get(10)
    if half is not None and rare is not None:
        words |= {"half": day(half), "rare": day(rare)}
        autumn = (
            _("Mean first frost of autumn: %(half)s. Our estimate: in 1 year of 10 by %(rare)s.")
            if estimated
            else _("First frost of autumn: by %(half)s in half of the years, by %(rare)s in 1 year of 10.")
        ) % words
    return spring, autumn


def star_told(rows: Iterable[Sequence[str]]) -> str:
    """What the star means that stands in any of these rows; empty where none does."""
    marked = any(BEFORE in cell for row in rows for cell in row[1:])
    return _("A star (*) stands after dates of the season before.") if marked else ""


def is_rare(place: Place) -> bool:
    """Whether something is known of freezes, and it is that they hardly come."""
    freezing = next((one for one in place.freeze if one.celsius == FREEZING_C), None)
    return freezing is not None and place.last_frost is None and place.first_frost is None


def unknown_frost(place: Place) -> str:
    """What to do where the frost dates of a side are not known; empty where both are."""
    if is_rare(place):
        return _(
            "Freezes are so rare here that no date can be named for them. Go by warmth in spring and by heat"
            " in summer."
        )
    if place.last_frost is None and place.first_frost is None:
        return _(
            "No frost dates are known for this place yet. Ask the nearest extension office or weather service"
            " for the mean last and first frost, write them here, and count the weeks from them."
        )
    if place.first_frost is None:
        return _(
            "The first frost of autumn is not known for this place. So dates for autumn are missing, and no"
            " frost ends the picking. Ask the nearest extension office or weather service for it."
        )
    if place.last_frost is None:
        return _(
            "The last frost of spring is not known for this place. So dates for spring are missing. Ask the"
            " nearest extension office or weather service for it."
        )
    return ""


def no_crops() -> str:
    """Instead of a table of no crops."""
    return _("No crops are chosen for this sheet. Write your own here, with the dates from their packets:")


def date_question(text: str, right: date, why: str) -> Question:
    """Three dates, three weeks apart; which of them is right differs with the date itself."""
    at = right.toordinal() % 3
    days = [right + (n - at) * _STEP for n in range(3)]
    return Question(text, tuple(day(one) for one in days), at, why)
