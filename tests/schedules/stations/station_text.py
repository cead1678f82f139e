"""Small station files in every layout, written from the same days."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date, timedelta
from math import cos, pi

from schedules.days import DayWeather

STATION = "USC00251415"


def mild_years(count: int = 2, *, start: date = date(2001, 1, 1), warmest_day: int = 200) -> list[DayWeather]:
    """Days of a temperate place in whole tenths of °C."""
    days = []
    for n in range(365 * count):
        day = start + timedelta(days=n)
        mean = 9 + 14 * cos(2 * pi * (day.timetuple().tm_yday - warmest_day) / 365) + n % 5 / 2
        days.append(DayWeather(day, round(mean - 6, 1), round(mean + 6, 1), float(n % 3)))
    return days


def tenths(value: float | None) -> str:
    return "" if value is None else str(round(value * 10))


def plain(
    days: Iterable[DayWeather], units: str = ",C,C,mm", *, separator: str = ",", comma: bool = False
) -> str:
    lines = ["date,tmin,tmax,precip", units]
    for day in days:
        cells = ["" if value is None else str(value) for value in (day.tmin_c, day.tmax_c, day.precip_mm)]
        lines.append(",".join([day.day.isoformat(), *cells]))
    text = "\n".join(lines) + "\n"
    if separator != ",":
        text = text.replace(",", separator)
    return text.replace(".", ",") if comma else text


def ghcn_csv(
    days: Iterable[DayWeather], *, latitude: float = 40.4, flags: dict[date, str] | None = None
) -> str:
    header = (
        "STATION,DATE,LATITUDE,LONGITUDE,ELEVATION,NAME,PRCP,PRCP_ATTRIBUTES,SNOW,SNOW_ATTRIBUTES,"
        "TMAX,TMAX_ATTRIBUTES,TMIN,TMIN_ATTRIBUTES"
    )
    lines = [",".join(f'"{name}"' for name in header.split(","))]
    for day in days:
        flag = (flags or {}).get(day.day, ",,7")
        cells = [
            *(STATION, day.day.isoformat(), str(latitude), "-101.73", "1072.0", "CHAMPION, NE US"),
            *(tenths(day.precip_mm), ",,7,0700", "", "", tenths(day.tmax_c), ",,7", tenths(day.tmin_c), flag),
        ]
        lines.append(",".join(f'"{cell}"' for cell in cells))
    return "\n".join(lines) + "\n"


def ghcn_long(days: Iterable[DayWeather], *, flags: dict[date, str] | None = None) -> str:
    lines = []
    for day in days:
        for element, value in (("TMAX", day.tmax_c), ("TMIN", day.tmin_c), ("PRCP", day.precip_mm)):
            flag = (flags or {}).get(day.day, "") if element == "TMIN" else ""
            if value is not None:
                lines.append(f"{STATION},{day.day:%Y%m%d},{element},{tenths(value)},,{flag},7,0700")
        lines.append(f"{STATION},{day.day:%Y%m%d},SNWD,0,,,7,")
    return "\n".join(lines) + "\n"


def ghcn_dly(days: Iterable[DayWeather], *, flags: dict[date, str] | None = None) -> str:
    months: dict[tuple[int, int], dict[int, DayWeather]] = {}
    for day in days:
        months.setdefault((day.day.year, day.day.month), {})[day.day.day] = day
    lines = []
    for (year, month), found in months.items():
        for element in ("TMAX", "TMIN", "PRCP"):
            fields = []
            for number in range(1, 32):
                day = found.get(number)
                value = None
                if day is not None:
                    value = {"TMAX": day.tmax_c, "TMIN": day.tmin_c, "PRCP": day.precip_mm}[element]
                flag = " "
                if day is not None and element == "TMIN":
                    flag = (flags or {}).get(day.day, " ")
                fields.append(f"{-9999 if value is None else round(value * 10):5} {flag}7")
            lines.append(f"{STATION}{year}{month:02}{element}{''.join(fields)}")
    return "\n".join(lines) + "\n"
