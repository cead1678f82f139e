"""How long a sheet of 24 stakes takes, each with a code of its own; the budget is 150 ms.

Run by hand: `python -m tests.benchmarks.stakes`. The ratio to one code alone compares between machines;
milliseconds do not.
"""

from __future__ import annotations

import os
from tempfile import TemporaryDirectory
from time import process_time

from plots.qr import dark_runs
from plots.stakes import new_code
from schedules.reports.label_sheets import SHEETS
from schedules.reports.stakes import Stake, StakePrint, stakes_pdf

LABELS, REPEATS, BUDGET_MS = 24, 5, 150


def _address() -> str:
    """New each time: codes that were drawn before are remembered."""
    return f"https://garden.example.org/at/{new_code()}/"


def _sheet() -> float:
    stakes = [Stake(f"Communal bed {number}", _address()) for number in range(LABELS)]
    start = process_time()
    stakes_pdf(StakePrint("Linden Row", "en", SHEETS["a4-24"], stakes))
    return (process_time() - start) * 1000


def _code() -> float:
    start = process_time()
    dark_runs(_address())
    return (process_time() - start) * 1000


def main() -> None:
    _sheet()  # loads the typeface
    sheet, code = (min(measure() for _ in range(REPEATS)) for measure in (_sheet, _code))
    print(f"a sheet of {LABELS}: {sheet:.0f} ms of {BUDGET_MS}, {sheet / code:.0f} times one code")


if __name__ == "__main__":
    with TemporaryDirectory() as folder:
        os.environ.update(DATA_DIR=folder, DJANGO_SETTINGS_MODULE="plots.settings")
        import django

        django.setup()
        main()
