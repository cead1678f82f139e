"""What reading a file found, as plain values that can be kept and read back."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import asdict, dataclass
from datetime import date
from typing import Any

from schedules.stations.findings import Fault, Finding, Run, StationFile


@dataclass(frozen=True, slots=True)
class Summary:
    """The findings of one reading: listed lines, how many there were in all, runs, dropped values."""

    unused: tuple[Finding, ...] = ()
    unused_count: int = 0
    doubtful: tuple[Finding, ...] = ()
    doubtful_count: int = 0
    runs: tuple[Run, ...] = ()
    flagged: int = 0
    flags_known: bool = True

    @property
    def unlisted(self) -> int:
        """Lines that were counted and not listed."""
        return self.unused_count + self.doubtful_count - len(self.unused) - len(self.doubtful)


def summary_of(station: StationFile) -> Summary:
    """The summary of a file just read."""
    findings = station.findings
    return Summary(
        unused=tuple(findings.unused),
        unused_count=findings.unused_count,
        doubtful=tuple(findings.doubtful),
        doubtful_count=findings.doubtful_count,
        runs=station.runs,
        flagged=findings.flagged,
        flags_known=station.flags_known,
    )


def as_plain(summary: Summary) -> dict[str, Any]:
    """The summary in strings, numbers, lists and dicts alone."""
    return {
        **asdict(summary),
        "unused": [_plain_finding(finding) for finding in summary.unused],
        "doubtful": [_plain_finding(finding) for finding in summary.doubtful],
        "runs": [[str(run.first_day), str(run.last_day), run.tmin_c, run.days] for run in summary.runs],
    }


def from_plain(plain: Mapping[str, Any]) -> Summary:
    """The summary that `as_plain` wrote; of nothing, an empty one."""
    if not plain:
        return Summary()
    return Summary(
        unused=tuple(_finding(item) for item in plain["unused"]),
        unused_count=plain["unused_count"],
        doubtful=tuple(_finding(item) for item in plain["doubtful"]),
        doubtful_count=plain["doubtful_count"],
        runs=tuple(
            Run(date.fromisoformat(first), date.fromisoformat(last), tmin, days)
            for first, last, tmin, days in plain["runs"]
        ),
        flagged=plain["flagged"],
        flags_known=plain["flags_known"],
    )


def _plain_finding(finding: Finding) -> list[Any]:
    values = {key: str(v) if isinstance(v, date) else v for key, v in finding.values.items()}
    return [finding.fault.value, finding.line, values]


def _finding(plain: list[Any]) -> Finding:
    fault, line, values = plain
    if "day" in values:
        values = {**values, "day": date.fromisoformat(values["day"])}
    return Finding(Fault(fault), line, values)
