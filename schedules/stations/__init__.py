"""Reads a weather station's daily record: `read_station` in, days and findings out.

Start in `reader`; `layouts` knows the four file layouts, `values` numbers and units, `checks` judges the
whole.
"""

from schedules.stations.findings import (
    Fault,
    Finding,
    Findings,
    RefusedFileError,
    Run,
    StationFile,
    StationFormat,
)
from schedules.stations.layouts import PLAIN_EXAMPLE
from schedules.stations.reader import read_station

__all__ = [
    "PLAIN_EXAMPLE",
    "Fault",
    "Finding",
    "Findings",
    "RefusedFileError",
    "Run",
    "StationFile",
    "StationFormat",
    "read_station",
]
