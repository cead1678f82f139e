"""How long the windows of 5,000 plantings take, as multiples of deriving each crop of the catalogue once.

Run by hand: `python -m tests.benchmarks.windows`. It works in a database of its own that is gone afterwards.
Ratios compare between machines; seconds do not.
"""

from __future__ import annotations

import os
from collections.abc import Callable
from datetime import date
from tempfile import TemporaryDirectory
from time import perf_counter

PLANTINGS, PLOTS, YEAR = 5000, 500, 2026
STATION = "fixtures/stations/champion_daily.csv"
REPEATS = 3


def seconds(work: Callable[[], object]) -> float:
    """The shortest of a few runs: the others measure what else the machine did."""
    times = []
    for _ in range(REPEATS):
        start = perf_counter()
        work()
        times.append(perf_counter() - start)
    return min(times)


def fill() -> None:
    """A garden with a daily record and its plots full of every crop that may be planted in spring."""
    from crops.models import Crop, Method, Planting
    from crops.service import update_catalogue
    from plots.models import Garden, Plot
    from schedules.service import import_station
    from schedules.stations import read_station

    update_catalogue()
    garden = Garden.objects.create(name="Measured", slug="measured", latitude=40.4)
    with open(STATION, "rb") as file:
        import_station(garden=garden, station=read_station(file, today=date(YEAR, 1, 1)), name="Station")
    plots = Plot.objects.bulk_create(Plot(garden=garden, label=f"{number}") for number in range(PLOTS))
    crops = list(Crop.objects.all())
    Planting.objects.bulk_create(
        Planting(
            plot=plots[number % PLOTS],
            crop=(crop := crops[number % len(crops)]),
            year=YEAR,
            start="transplant" if crop.method == Method.TRANSPLANT else "sow",
            successions=1 + number % 3,
        )
        for number in range(PLANTINGS)
    )


def measure() -> None:
    from crops.queries import crops_for
    from plots.models import Garden
    from schedules.jobs import jobs_in_week
    from schedules.queries import plantings_of
    from schedules.service import GardenDates

    garden = Garden.objects.get()
    facts = [crop.facts() for crop in crops_for(garden)]
    plots = garden.plots.all()

    def dates() -> GardenDates:
        found = GardenDates.of(garden)
        assert found is not None
        return found

    base = seconds(lambda: [dates().windows(one, YEAR) for one in facts])
    print(f"Each of {len(facts)} crops derived once: {base:.3f} s = 1.0")
    entries = dates().entries(plots, (YEAR,))
    for name, work in (
        (f"{PLANTINGS} plantings read from the database", lambda: list(plantings_of(garden, plots, (YEAR,)))),
        (f"their {len(entries)} windows, reading included", lambda: dates().entries(plots, (YEAR,))),
        ("one week's jobs out of these", lambda: jobs_in_week(entries, date(YEAR, 5, 4))),
    ):
        took = seconds(work)
        print(f"{name}: {took:.3f} s = {took / base:.1f}")


def main() -> None:
    with TemporaryDirectory() as folder:
        os.environ.update(DATA_DIR=folder, DJANGO_SETTINGS_MODULE="plots.settings")
        os.environ.pop("DATABASE_URL", None)
        import django
        from django.core.management import call_command

        django.setup()
        call_command("migrate", verbosity=0)
        fill()
        measure()


if __name__ == "__main__":
    main()
