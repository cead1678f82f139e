"""What people of a time zone measure in and print on: a first guess, for a person to confirm."""

from __future__ import annotations

_US_PLACES = [
    "Adak",
    "Anchorage",
    "Boise",
    "Chicago",
    "Denver",
    "Detroit",
    "Juneau",
    "Los_Angeles",
    "Menominee",
    "Metlakatla",
    "New_York",
    "Nome",
    "Phoenix",
    "Puerto_Rico",
    "Sitka",
    "Yakutat",
]
_US = {f"America/{place}" for place in _US_PLACES} | {"Pacific/Honolulu", "Pacific/Guam"}
_US_REGIONS = ("US/", "America/Indiana/", "America/Kentucky/", "America/North_Dakota/")
_A4_IN_AMERICA = ("America/Argentina/", "America/Sao_Paulo", "America/Lima", "America/Montevideo")
_LETTER_ELSEWHERE = ("Canada/", "Mexico/", "Asia/Manila")


def customs_of(zone: str) -> tuple[str, str]:
    """Units (`"us"`, `"metric"`) and paper (`"letter"`, `"a4"`) that are usual in a time zone.

    >>> customs_of("America/Denver"), customs_of("America/Toronto"), customs_of("Europe/Oslo")
    (('us', 'letter'), ('metric', 'letter'), ('metric', 'a4'))
    """
    if zone in _US or zone.startswith(_US_REGIONS):
        return "us", "letter"
    american = zone.startswith("America/") and not zone.startswith(_A4_IN_AMERICA)
    return "metric", "letter" if american or zone.startswith(_LETTER_ELSEWHERE) else "a4"
