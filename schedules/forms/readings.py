"""What the garden's thermometers show: typed day by day, or as a logger saved it."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from typing import Any

from django import forms
from django.core.files.uploadedfile import UploadedFile
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from plots.forms.days import day_input
from plots.forms.quantities import NumberField, QuantityField
from plots.models import Garden
from plots.quantities import Quantity
from schedules.days import DayWeather
from schedules.models.readings import COLDEST_C, COLDEST_SOIL_C, WARMEST_C, WARMEST_SOIL_C
from schedules.service.stations import Compared
from schedules.stations import Fault, RefusedFileError, read_station
from schedules.stations.loggers import DateOrder, LoggerFile, read_logger
from schedules.wording.stations import finding_sentence


class ReadingForm(forms.Form):
    """A day's lowest and highest temperature, and the soil's; any of them alone will do."""

    day = forms.DateField(
        label=gettext_lazy("Morning of"),
        widget=day_input(),
        help_text=gettext_lazy("The lowest is that of the night before this morning."),
    )

    def __init__(self, data: Any = None, *, garden: Garden) -> None:
        super().__init__(data, initial={"day": garden.today()})
        self.garden = garden
        air, soil = (COLDEST_C, WARMEST_C), (COLDEST_SOIL_C, WARMEST_SOIL_C)
        for name, label, (lowest, highest) in (
            ("tmin_c", _("Lowest of the night"), air),
            ("tmax_c", _("Highest of the day"), air),
            ("soil_c", _("Soil, as deep as seed"), soil),
        ):
            self.fields[name] = QuantityField(
                quantity=Quantity.TEMPERATURE,
                units=garden.units,
                label=label,
                required=False,
                lowest=lowest,
                highest=highest,
            )
        self.order_fields(["tmin_c", "tmax_c", "soil_c", "day"])

    def clean_day(self) -> date:
        """Nothing is read ahead of time."""
        day: date = self.cleaned_data["day"]
        if day > self.garden.today():
            raise forms.ValidationError(_("This day is still to come."))
        return day

    def clean(self) -> dict[str, Any]:
        """One value at least, and the highest not below the lowest."""
        cleaned = super().clean() or {}
        low, high = cleaned.get("tmin_c"), cleaned.get("tmax_c")
        if not self.errors and all(cleaned.get(name) is None for name in ("tmin_c", "tmax_c", "soil_c")):
            self.add_error("tmin_c", _("Type what at least one thermometer showed."))
        former = self.garden.readings.filter(day=cleaned.get("day")).first()
        low = former.tmin_c if low is None and former else low
        high = former.tmax_c if high is None and former else high
        if low is not None and high is not None and high < low:
            field = "tmax_c" if cleaned.get("tmax_c") is not None else "tmin_c"
            self.add_error(field, _("The highest of this day lies below its lowest."))
        return cleaned


class LoggerForm(forms.Form):
    """A logger's file. Valid means that it has been read to its end."""

    file = forms.FileField(
        label=gettext_lazy("The logger's file"),
        help_text=gettext_lazy(
            "CSV with a line for each reading, or for each day (date,tmin,tmax and a row of units under it)."
        ),
    )
    order = forms.ChoiceField(
        label=gettext_lazy("How the file writes its dates"),
        choices=[
            ("", gettext_lazy("year first: 2024-05-09")),
            (DateOrder.MONTH_FIRST.value, gettext_lazy("month first: 05/09/2024")),
            (DateOrder.DAY_FIRST.value, gettext_lazy("day first: 09.05.2024")),
        ],
        required=False,
        initial="",
        widget=forms.RadioSelect,
    )

    field_order = ("file", "order")

    def __init__(self, data: Any = None, files: Any = None, *, garden: Garden) -> None:
        super().__init__(data, files)
        self.garden = garden
        self.logger: LoggerFile | None = None

    def clean(self) -> dict[str, Any]:
        """Reads the whole file."""
        cleaned = super().clean() or {}
        upload: UploadedFile | None = cleaned.get("file")
        if upload is None or "order" in self.errors:
            return cleaned
        order = DateOrder(cleaned["order"]) if cleaned.get("order") else None
        try:
            self.logger = _likely(self._by_day(upload) or self._by_moment(upload, order))
        except RefusedFileError as error:
            self.add_error("file", finding_sentence(error.finding))
            return cleaned
        if not self.logger.days:
            self.add_error("file", _nothing_left(self.logger))
        return cleaned

    def _by_moment(self, upload: UploadedFile, order: DateOrder | None) -> LoggerFile:
        """A line for each reading, as loggers save them."""
        upload.seek(0)
        return read_logger(upload, today=self.garden.today(), zone=self.garden.zone, order=order)

    def _by_day(self, upload: UploadedFile) -> LoggerFile | None:
        """A line for each day, as a station's plain record has them; `None` where it is something else."""
        try:
            days = read_station(upload, today=self.garden.today(), latitude=self.garden.latitude)
        except RefusedFileError as error:
            if error.finding.fault in (Fault.UNKNOWN_LAYOUT, Fault.NO_MINIMUM_COLUMN):
                return None
            raise
        return LoggerFile(tuple(day for day in days.days if day.tmin_c is not None), 0, days.findings)


class LoggerDaysForm(forms.Form):
    """The first and the last day of what a logger told wrongly."""

    first = forms.DateField(label=gettext_lazy("From"), widget=day_input())
    last = forms.DateField(label=gettext_lazy("To"), widget=day_input())

    def clean(self) -> dict[str, Any]:
        """In their order."""
        cleaned = super().clean() or {}
        first, last = cleaned.get("first"), cleaned.get("last")
        if first is not None and last is not None and last < first:
            self.add_error("last", _("This day comes before the first one."))
        return cleaned


def _likely(logger: LoggerFile) -> LoggerFile:
    """Without the days that no thermometer in a garden shows."""
    days = tuple(day for day in logger.days if _is_likely(day))
    return replace(logger, days=days, unlikely=len(logger.days) - len(days))


def _is_likely(day: DayWeather) -> bool:
    values = [value for value in (day.tmin_c, day.tmax_c) if value is not None]
    return values == sorted(values) and all(COLDEST_C <= value <= WARMEST_C for value in values)


def _nothing_left(logger: LoggerFile) -> str:
    if logger.unlikely:
        return _("No day of the file can be right: the lowest lies above the highest, or out of reach.")
    return _("No day of the file is whole: each has a gap of more than three hours.")


class SharesForm(forms.Form):
    """The share of each station in percent."""

    def __init__(self, data: Any = None, *, stations: list[Compared], weighted: bool) -> None:
        super().__init__(data)
        self.stations = [one for one in stations if one.comparable]
        for one in self.stations:
            self.fields[self.name_of(one)] = NumberField(
                label=_("%(station)s, share in percent") % {"station": one.record.name},
                whole=True,
                lowest=0,
                highest=100,
                initial=one.record.share if weighted else one.proposed_share,
            )

    @staticmethod
    def name_of(one: Compared) -> str:
        return f"share_{one.record.pk}"

    def shares(self) -> dict[int, int]:
        """The typed percent of each record, by its key."""
        return {one.record.pk: self.cleaned_data[self.name_of(one)] for one in self.stations}
