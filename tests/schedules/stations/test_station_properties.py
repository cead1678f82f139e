"""Whatever bytes come in: a record or a refusal with a sentence, never a crash, and never a day twice."""

from __future__ import annotations

import gzip
import io
from itertools import pairwise

from hypothesis import given, settings
from hypothesis import strategies as st

from schedules.stations import RefusedFileError, StationFile, read_station
from schedules.stations.summary import as_plain, from_plain, summary_of
from schedules.wording.stations import finding_sentence, run_sentence
from tests.schedules.records import TODAY
from tests.schedules.stations.station_text import ghcn_csv, ghcn_dly, ghcn_long, mild_years, plain

DAYS = mild_years(1)[:60]
TEXTS = [write(DAYS) for write in (plain, ghcn_csv, ghcn_long, ghcn_dly)]
CELLS = st.sampled_from(
    [
        "",
        "-9999",
        "NaN",
        "1e5",
        "12,5",
        "١٢",
        "x",
        '"',
        "2001-02-30",
        "99999999",
        "-0",
        "I",
        ";",
        "\t",
        "\x00",
        "é",
    ]
)


def read(data: bytes) -> StationFile | None:
    try:
        return read_station(io.BytesIO(data), today=TODAY)
    except RefusedFileError as error:
        finding_sentence(error.finding)  # every refusal has one
        return None


def assert_sound(found: StationFile) -> None:
    assert all(before.day < after.day for before, after in pairwise(found.days))
    assert all(day.day <= TODAY for day in found.days)
    summary = summary_of(found)
    assert from_plain(as_plain(summary)) == summary
    assert all(map(finding_sentence, (*summary.unused, *summary.doubtful)))
    assert all(map(run_sentence, summary.runs))


@given(st.binary(max_size=400), st.booleans())
@settings(max_examples=100, deadline=None)
def test_any_bytes(data, packed):
    found = read(gzip.compress(data) if packed else data)
    if found is not None:
        assert_sound(found)


@given(st.sampled_from(TEXTS), st.data())
@settings(max_examples=150, deadline=None)
def test_a_good_file_with_cells_lines_or_letters_spoiled(text, data):
    lines = text.splitlines()
    for _ in range(data.draw(st.integers(1, 6))):
        at = data.draw(st.integers(0, len(lines) - 1))
        start = data.draw(st.integers(0, len(lines[at])))
        width = data.draw(st.integers(0, 12))
        lines[at] = lines[at][:start] + data.draw(CELLS) + lines[at][start + width :]
        if data.draw(st.integers(0, 4)) == 0:
            lines[at] = lines[data.draw(st.integers(0, len(lines) - 1))]
    found = read("\n".join(lines).encode("utf-8", "surrogatepass"))
    if found is not None:
        assert_sound(found)


@given(st.permutations(range(60)))
@settings(max_examples=20, deadline=None)
def test_the_order_of_the_lines_does_not_matter(order):
    shuffled = [DAYS[index] for index in order]
    for write in (plain, ghcn_csv, ghcn_long):
        found = read(write(shuffled).encode())
        assert found is not None
        assert list(found.days) == DAYS
