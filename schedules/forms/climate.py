"""Forms that say where a garden's frost dates come from."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import PurePath
from typing import Any

from django import forms
from django.core.files.uploadedfile import UploadedFile
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from plots.forms.days import MonthDayField
from plots.forms.quantities import NumberField, QuantityField
from plots.models import Garden
from plots.quantities import Quantity
from plots.spelling import tidy
from schedules.bases import TableDate, typed_day_number
from schedules.frost import THRESHOLDS_C
from schedules.frost_tables import DEFAULT_SPREAD_DAYS, TablePoint, first_disorder
from schedules.models import GardenClimate, MeanFrost
from schedules.seasons import Hemisphere, Side
from schedules.stations import RefusedFileError, StationFile, read_station
from schedules.wording.climate import threshold_text
from schedules.wording.stations import finding_sentence

_TABLE_ROWS = (10, 30, 50, 70, 90)
_SAME_WORLD_DEGREES = 1.0  # a station may lie just across the equator


class StationFileForm(forms.Form):
    """A station's file. Valid means that it has been read to its end and can be trusted."""

    file = forms.FileField(
        label=gettext_lazy("The station's file"),
        help_text=gettext_lazy("CSV or .dly, compressed (.gz) or not, up to 64 MB."),
    )
    name = forms.CharField(
        label=gettext_lazy("Name of the station"),
        required=False,
        max_length=120,
        help_text=gettext_lazy(
            "Needed only where the file does not tell it; else the file's own name is taken."
        ),
    )
    plan_by_it = forms.BooleanField(
        label=gettext_lazy("Plan by this record from now on"), required=False, initial=True
    )

    def __init__(self, data: Any, files: Any, *, garden: Garden) -> None:
        super().__init__(data, files)
        self.garden = garden
        self.station: StationFile | None = None

    def clean_file(self) -> UploadedFile:
        """Read the whole file, because only the whole tells whether its units can be right."""
        upload = self.cleaned_data["file"]
        try:
            station = read_station(upload, today=self.garden.today(), latitude=self.garden.latitude)
        except RefusedFileError as error:
            raise forms.ValidationError(finding_sentence(error.finding)) from error
        here, there = self.garden.latitude, station.latitude
        if there is not None and here * there < 0 and abs(here - there) > _SAME_WORLD_DEGREES:
            raise forms.ValidationError(
                _("This station lies on the other side of the equator, where summer is winter.")
            )
        self.station = station
        return upload

    def station_name(self) -> str:
        """What the record will be called."""
        station = self.station
        told = (station.name or station.station_id) if station else ""
        return tidy(self.cleaned_data["name"] or told or PurePath(self.cleaned_data["file"].name).stem)[:120]


class FrostTableForm(forms.Form):
    """A published table: for up to three temperatures, dates of both sides at up to five chances each."""

    counts = forms.ChoiceField(
        label=gettext_lazy("What does the table's chance mean in spring?"),
        choices=[
            (
                "after",
                gettext_lazy("The chance of a freeze on or after the date: the 10 % date is the late one."),
            ),
            (
                "passed",
                gettext_lazy("The chance that the last freeze has passed: the 10 % date is the early one."),
            ),
        ],
        widget=forms.RadioSelect,
        help_text=gettext_lazy(
            "Published tables disagree on this. In autumn they agree: the chance of a freeze by the date."
        ),
    )
    source = forms.CharField(
        label=gettext_lazy("Where the table comes from"),
        required=False,
        max_length=200,
        help_text=gettext_lazy("Who published it and when, so that others can look it up."),
    )

    def __init__(self, data: Any = None, *, garden: Garden, chosen: GardenClimate | None = None) -> None:
        super().__init__(data, initial=_table_initial(garden, chosen))
        self.garden = garden
        for celsius in THRESHOLDS_C:
            for row in range(len(_TABLE_ROWS)):
                self._add_row(celsius, row)

    def _add_row(self, celsius: float, row: int) -> None:
        names = {"temperature": threshold_text(celsius, self.garden.units), "row": row + 1}
        labels = {
            "percent": _("Chance in percent, %(temperature)s, row %(row)s") % names,
            "last": _("Last freeze of spring, %(temperature)s, row %(row)s") % names,
            "first": _("First freeze of autumn, %(temperature)s, row %(row)s") % names,
        }
        for part, label in labels.items():
            field: forms.Field
            if part == "percent":
                field = NumberField(required=False, lowest=1, highest=99, label=label)
                field.initial = _TABLE_ROWS[row]
            else:
                field = MonthDayField(required=False, label=label)
            field.widget.attrs |= {"aria-label": label, "size": 9}
            self.fields[_cell(celsius, row, part)] = field

    def sections(self) -> list[dict[str, Any]]:
        """The temperatures with their rows of bound fields, for the page."""
        return [
            {
                "celsius": celsius,
                "rows": [
                    [self[_cell(celsius, row, part)] for part in ("percent", "last", "first")]
                    for row in range(len(_TABLE_ROWS))
                ],
            }
            for celsius in THRESHOLDS_C
        ]

    def clean(self) -> dict[str, Any]:
        """The dates of each temperature and side have to run the way their chances do."""
        cleaned = super().clean() or {}
        self.dates: list[TableDate] = []
        for celsius in THRESHOLDS_C:
            for side in Side:
                self._clean_column(celsius, side, cleaned)
        if not self.errors and not self.dates:
            raise forms.ValidationError(_("Type at least one date with its chance."))
        return cleaned

    def _clean_column(self, celsius: float, side: Side, cleaned: Mapping[str, Any]) -> None:
        passed = cleaned.get("counts") == "passed" and side is Side.LAST
        rows: list[tuple[str, TableDate]] = []
        for row in range(len(_TABLE_ROWS)):
            name = _cell(celsius, row, side.value)
            day, percent = cleaned.get(name), cleaned.get(_cell(celsius, row, "percent"))
            if day is not None and percent is None and _cell(celsius, row, "percent") not in self.errors:
                self.add_error(_cell(celsius, row, "percent"), _("Which chance does this date have?"))
            elif day is not None and percent is not None:
                chance = 100 - percent if passed else percent
                rows.append((name, TableDate(celsius, side, chance, *day)))
        self.dates += [date for _name, date in rows]
        if cleaned.get("counts"):
            self._check_order(side, rows)

    def _check_order(self, side: Side, rows: list[tuple[str, TableDate]]) -> None:
        hemisphere = Hemisphere.of_latitude(self.garden.latitude)
        points = {
            TablePoint(row.percent, typed_day_number(row.month, row.day, side, hemisphere)): name
            for name, row in rows
        }
        wrong = first_disorder(side, list(points))
        if wrong is not None:
            self.add_error(
                points[wrong[1]],
                _("Among the other rows this date and its chance are out of order: a rarer freeze comes later"
                  " in spring and earlier in autumn. Does the table count the other way round?"),
            )  # fmt: skip
        elif len(points) < len(rows):
            self.add_error(rows[-1][0], _("This chance and date stand twice."))


def _cell(celsius: float, row: int, part: str) -> str:
    return f"t{THRESHOLDS_C.index(celsius)}_{row}_{part}"


def _table_initial(garden: Garden, chosen: GardenClimate | None) -> dict[str, Any]:
    """What the stored table says, the way round in which it was typed."""
    passed = bool(chosen and chosen.table_counts_passed)
    initial: dict[str, Any] = {"source": chosen.table_source if chosen else ""}
    stored = [row for row in garden.frost_table.all() if row.celsius in THRESHOLDS_C]
    if not stored:
        return initial
    initial["counts"] = "passed" if passed else "after"
    for celsius in THRESHOLDS_C:
        initial |= {_cell(celsius, row, "percent"): None for row in range(len(_TABLE_ROWS))}
        typed: dict[float, dict[str, tuple[int, int]]] = {}
        for row in stored:
            if row.celsius == celsius:
                percent = 100 - row.percent if passed and row.side == Side.LAST else row.percent
                typed.setdefault(percent, {})[row.side] = (row.month, row.day)
        for index, percent in enumerate(sorted(typed)[: len(_TABLE_ROWS)]):
            initial[_cell(celsius, index, "percent")] = percent
            initial |= {_cell(celsius, index, side): day for side, day in typed[percent].items()}
    return initial


class MeanFrostForm(forms.Form):
    """A mean last and first freeze, and how far single years are taken to spread about them."""

    last = MonthDayField(label=gettext_lazy("Mean last freeze of spring"), required=False)
    first = MonthDayField(label=gettext_lazy("Mean first freeze of autumn"), required=False)
    spread_days = NumberField(
        label=gettext_lazy("Spread from year to year, in days"),
        lowest=1,
        highest=60,
        initial=DEFAULT_SPREAD_DAYS,
        help_text=gettext_lazy(
            "Standard deviation. Leave 12 unless your source states one: published ones run from 8 to 20 days"
            " (NC State Extension, seven stations)."
        ),
    )
    source = forms.CharField(label=gettext_lazy("Where the dates come from"), required=False, max_length=200)

    def __init__(self, data: Any = None, *, mean: MeanFrost | None = None) -> None:
        initial = {}
        if mean is not None:
            initial = {
                "last": mean.last,
                "first": mean.first,
                "spread_days": mean.spread_days,
                "source": mean.source,
            }
        super().__init__(data, initial=initial)

    def clean(self) -> dict[str, Any]:
        """One of the two dates is enough; none is not."""
        cleaned = super().clean() or {}
        if not self.errors and not (cleaned.get("last") or cleaned.get("first")):
            self.add_error("last", _("Type one of the two dates at least."))
        return cleaned


class OffsetForm(forms.Form):
    """How much colder or warmer the garden is than its station."""

    direction = forms.ChoiceField(
        label=gettext_lazy("Cold nights in the garden are"),
        choices=[
            ("same", gettext_lazy("as at the station")),
            ("colder", gettext_lazy("colder than at the station")),
            ("warmer", gettext_lazy("warmer than at the station")),
        ],
        widget=forms.RadioSelect,
    )

    def __init__(self, data: Any = None, *, garden: Garden, offset_c: float) -> None:
        direction = "same" if not offset_c else "colder" if offset_c < 0 else "warmer"
        super().__init__(data, initial={"direction": direction, "amount": abs(offset_c) or None})
        self.fields["amount"] = QuantityField(
            quantity=Quantity.WARMTH,
            units=garden.units,
            label=_("By how much"),
            required=False,
            lowest=0.0,
            highest=10.0,
        )

    def clean(self) -> dict[str, Any]:
        """A direction needs its amount."""
        cleaned = super().clean() or {}
        differs = cleaned.get("direction") in ("colder", "warmer")
        if differs and "amount" not in self.errors and not cleaned.get("amount"):
            self.add_error("amount", _("By how much? A thermometer beside the station's values tells."))
        if cleaned.get("direction") == "same" and "amount" in self.changed_data and cleaned.get("amount"):
            self.add_error("direction", _("Colder or warmer? A difference is typed below."))
        return cleaned

    def offset_c(self) -> float:
        """The offset in °C, below 0 for colder, rounded to the hundredth that freezes are compared at."""
        amount = round(self.cleaned_data.get("amount") or 0.0, 2)
        return {"same": 0.0, "colder": -amount, "warmer": amount}[self.cleaned_data["direction"]]
