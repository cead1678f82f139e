"""What handouts know of a garden, and of a guest's own place."""

from __future__ import annotations

from datetime import date

import pytest
from django.utils import timezone

from plots.models import Garden
from schedules.climate import Basis
from schedules.models import HoseFlow
from schedules.place import Bed
from schedules.seasons import Hemisphere
from schedules.service.place import guest_place, place_of
from schedules.windows import Operation
from tests.factories import GardenFactory, PlotFactory, UserFactory
from tests.schedules.samples import carrot, set_mean_frost, tomato

TODAY = date(2026, 3, 2)


@pytest.fixture
def garden(db) -> Garden:
    return GardenFactory(units="us")


def test_a_garden_brings_its_dates_hoses_and_commonest_plot(garden: Garden) -> None:
    set_mean_frost(garden)
    for width in (2.0, 3.0, 3.0):
        PlotFactory(garden=garden, width_m=width, length_m=4.0)
    HoseFlow.objects.create(
        garden=garden, name="north", litres=10, seconds=40, measured_on=TODAY, measured_by=UserFactory()
    )
    place = place_of(garden, crops=[tomato(), carrot()], today=TODAY)
    assert (place.name, place.guest, place.year, place.basis) == (garden.name, False, 2026, Basis.MEAN)
    assert (place.last_frost, place.first_frost) == (date(2026, 5, 10), date(2026, 10, 1))
    assert place.freeze[0].last[10] > place.freeze[0].last[30] > date(2026, 5, 10) > place.freeze[0].last[90]
    assert place.bed == Bed(3.0, 4.0)
    assert place.hoses == (("north", 15.0),)
    assert "Mean frost dates" in place.record
    assert (place.latitude, place.guidance) == (garden.latitude, ())
    garden.guidance.create(thing="aphids", tolerate="few")
    garden.guidance.create(thing="slugs", tolerate="few", removed_at=timezone.now())
    assert [one.thing for one in place_of(garden, today=TODAY).guidance] == ["aphids"]
    for crop in place.crops:
        rows = [(row.operation, row.earliest, row.best, row.latest) for row in crop.rows]
        windows = {(str(one.operation), one.earliest, one.best, one.latest) for one in crop.windows}
        assert set(rows) == windows  # the same dates in words
        assert all(row.reasons for row in crop.rows)


def test_without_frost_dates_a_garden_is_a_place_without_dates(garden: Garden) -> None:
    place = place_of(garden, crops=[tomato()], today=TODAY)
    assert (place.freeze, place.charts, place.crops[0].rows) == ((), (), ())
    assert place.last_frost is None
    assert place.bed == Bed(1.2192, 2.4384)


def test_a_guests_place_follows_published_practice_from_one_date(db) -> None:
    place = guest_place(
        "Ida’s yard", last=(4, 20), crops=[tomato()], units="us", hemisphere=Hemisphere.NORTH, today=TODAY
    )  # fmt: skip
    assert place.guest
    assert place.nerve_percent is None
    assert place.last_frost == date(2026, 4, 20)
    assert place.first_frost is None
    assert "April 20" in place.record
    # The crop's own published offset: one to four weeks after the mean last frost.
    out = next(one for one in place.crops[0].windows if one.operation is Operation.TRANSPLANT)
    assert (out.earliest, out.latest) == (date(2026, 4, 27), date(2026, 5, 18))
    with pytest.raises(ValueError, match="needs"):
        guest_place("x", units="us", hemisphere=Hemisphere.NORTH, today=TODAY)


def test_in_the_south_the_first_frost_comes_after_new_year(db) -> None:
    place = guest_place(
        "Dunedin", last=(9, 20), first=(5, 5), units="metric", hemisphere=Hemisphere.SOUTH, today=TODAY
    )  # fmt: skip
    assert (place.last_frost, place.first_frost) == (date(2026, 9, 20), date(2027, 5, 5))
