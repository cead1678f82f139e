"""How long a record of a hundred years takes, as multiples of splitting its file with `csv.reader` alone.

Run by hand: `python -m tests.benchmarks.reading`. Ratios compare between machines; seconds do not.
"""

from __future__ import annotations

import csv
import io
from collections.abc import Callable
from datetime import date
from time import perf_counter

from schedules.bases import from_record
from schedules.frost import THRESHOLDS_C
from schedules.seasons import Hemisphere, Side
from schedules.stations import StationFile, read_station
from tests.schedules.stations.station_text import ghcn_csv, ghcn_dly, ghcn_long, mild_years, plain

YEARS = 100
TODAY = date(2026, 1, 1)
REPEATS = 3


def seconds(work: Callable[[], object]) -> float:
    """The shortest of a few runs: the others measure what else the machine did."""
    times = []
    for _ in range(REPEATS):
        start = perf_counter()
        work()
        times.append(perf_counter() - start)
    return min(times)


def read(text: str) -> StationFile:
    return read_station(io.BytesIO(text.encode()), today=TODAY)


def curves(station: StationFile) -> None:
    """All freeze dates by probability, with the normals of air and soil."""
    climate = from_record(station.days, Hemisphere.NORTH)
    for celsius in THRESHOLDS_C:
        for side in Side:
            curve = climate.risk(side, celsius)
            if curve is not None:
                for percent in range(10, 100, 10):
                    curve.day(percent)


def main() -> None:
    days = mild_years(YEARS, start=date(1925, 1, 1))
    base_text = ghcn_csv(days)
    base = seconds(lambda: sum(1 for _ in csv.reader(io.StringIO(base_text))))
    print(f"{YEARS} years, {len(days)} days; csv.reader over the GHCN-Daily CSV: {base:.3f} s = 1.0")
    for name, text in (
        ("GHCN-Daily CSV", base_text),
        ("GHCN-Daily long CSV", ghcn_long(days)),
        ("GHCN-Daily .dly", ghcn_dly(days)),
        ("plain CSV", plain(days)),
    ):
        took = seconds(lambda text=text: read(text))
        print(f"read {name:20} {took:6.3f} s   {took / base:5.1f}")
    station = read(base_text)
    took = seconds(lambda: curves(station))
    print(f"freezes, curves, normals  {took:6.3f} s   {took / base:5.1f}")


if __name__ == "__main__":
    main()
