"""What was picked, given away, watered and worked, week by week and crop by crop."""

from __future__ import annotations

from functools import partial

from django.utils.formats import date_format
from django.utils.translation import gettext as _

from crops.wording.names import crop_label
from plots.quantities import METRES_PER_FOOT, Units
from plots.wording import number_text
from plots.wording.site import SQUARE_FOOT
from schedules.reports.charts import LyingBar, LyingBars, lying_bars
from schedules.summary import Measure
from schedules.wording.figures import harvest_text
from schedules.wording.logs import weight_text
from schedules.wording.summary.writer import SheetUnit, Writer, count_text, day_text
from schedules.work import Work
from schedules.yields import CropYield, litres_a_gram

_ROW_FEET = 10  # yields are told for so many feet of row, as tables do
_BARS = 24  # crops that the chart draws; the table has all of them


def food(writer: Writer) -> None:
    """What was picked, week by week and crop by crop."""
    summary = writer.summary
    if not summary.yields:
        return
    writer.page.heading(_("What was picked"))
    unit = writer.measures[Measure.WEIGHT]
    writer.weeks(
        lambda one: one.grams if one.work == Work.PICK else None,
        unit,
        heading=_("Food picked, %(unit)s a week") % {"unit": unit.word},
    )
    weighed = [one for one in summary.yields if one.sums.grams][:_BARS]
    if len(weighed) > 1:
        bars = LyingBars(
            heading=_("Food by crop; hatched: given away"),
            bars=tuple(
                LyingBar(
                    _crop(writer, one),
                    one.sums.grams / unit.scale,
                    weight_text(one.sums.grams, writer.units),
                    one.sums.given_grams / unit.scale,
                )
                for one in weighed
            ),
        )
        writer.page.chart(partial(lying_bars, bars), bars.heading)
    for text in _shares(writer, unit):
        writer.page.text(text)
    _crops(writer, unit)


def _shares(writer: Writer, unit: SheetUnit) -> list[str]:
    """How much of it was given away, and how much grew on so much ground."""
    sums, found = writer.summary.sums, []
    if sums.given_grams:
        percent = round(100 * sums.given_grams / sums.grams)
        found.append(_("%(percent)s%% of what was weighed was given away.") % {"percent": percent})
    if writer.summary.weighed_m2 and writer.summary.weighed_grams:
        us = writer.units == Units.US
        ground = 100 * SQUARE_FOOT if us else 1.0
        text = (
            _("Where all that was picked was weighed, it came to %(amount)s %(unit)s from each 100 sq ft.")
            if us
            else _("Where all that was picked was weighed, it came to %(amount)s %(unit)s from each m².")
        )
        grams = writer.summary.weighed_grams / writer.summary.weighed_m2 * ground
        found.append(text % {"amount": unit.number(grams), "unit": unit.word})
    return found


def _crops(writer: Writer, unit: SheetUnit) -> None:
    summary, yields = writer.summary, writer.summary.yields
    a_row = METRES_PER_FOOT * _ROW_FEET if writer.units == Units.US else 1.0
    row_title = _("%(unit)s from 10 ft of row") if writer.units == Units.US else _("%(unit)s from 1 m of row")
    columns: list[tuple[str, list[str], float]] = [
        (_("picked, %(unit)s") % {"unit": unit.word}, [unit.known(one.sums.grams) for one in yields], 1.1),
        (_("pieces"), [count_text(one.sums.pieces or None) for one in yields], 1.0),
        (
            _("given away, %(unit)s") % {"unit": unit.word},
            [unit.known(one.sums.given_grams) for one in yields],
            1.3,
        ),
        (_("given away, pieces"), [count_text(one.sums.given_pieces or None) for one in yields], 1.3),
        (
            row_title % {"unit": unit.word},
            [unit.known((one.grams_a_metre or 0.0) * a_row) for one in yields],
            1.4,
        ),
    ]
    told = [column for column in columns if any(column[1])]
    days = [
        (day_text(one.sums.first_picked, summary.period), day_text(one.sums.last_picked, summary.period))
        for one in yields
    ]
    rows = [
        (_crop(writer, one), *(cells[n] for _title, cells, _share in told), *days[n])
        for n, one in enumerate(yields)
    ]
    writer.page.table(
        rows,
        titles=(_("Crop"), *(title for title, _cells, _share in told), _("first"), _("last")),
        shares=(3, *(share for _title, _cells, share in told), 1.3, 1.3),
        numbers=range(1, len(told) + 1),
        name=_("Food by crop"),
    )


def _crop(writer: Writer, one: CropYield) -> str:
    crop = writer.summary.crops.get(one.crop or 0)
    return crop_label(crop) if crop else _("no crop named")


def gifts(writer: Writer) -> None:
    if not writer.summary.gifts:
        return
    rows = [
        (
            gift.whom or _("not said to whom"),
            str(gift.times),
            harvest_text(gift.grams, gift.pieces, writer.units) or _("not weighed"),
        )
        for gift in writer.summary.gifts
    ]
    writer.page.heading(_("What was given away"))
    writer.page.table(
        rows,
        titles=(_("To"), _("times"), _("how much")),
        shares=(3, 1, 2),
        numbers=(1, 2),
    )


def water_and_hours(writer: Writer) -> None:
    sums = writer.summary.sums
    if sums.litres:
        unit = writer.measures[Measure.VOLUME]
        writer.page.heading(_("Water"))
        writer.weeks(
            lambda one: one.litres if one.work == Work.WATER else None,
            unit,
            heading=_("Water given, %(unit)s a week") % {"unit": unit.word},
        )
        if text := _water_for_food(writer):
            writer.page.text(text)
    if sums.garden_minutes:
        unit = writer.measures[Measure.TIME]
        writer.page.heading(_("Hours for the garden"))
        writer.weeks(
            lambda one: one.minutes if one.work == Work.HOURS else None,
            unit,
            heading=_("Hours for the garden, by week"),
        )
        _work(writer, unit)


def _work(writer: Writer, unit: SheetUnit) -> None:
    """What the hours were for; names of tasks, never of people, nor what these wrote beside their hours."""
    rows = [
        (
            "" if one.day is None else date_format(one.day, "DATE_FORMAT"),
            ": ".join(word for word in (one.workday, one.task) if word) or _("other work for the garden"),
            count_text(one.people),
            unit.number(one.minutes),
        )
        for one in writer.summary.work
    ]
    if rows:
        writer.page.table(
            rows,
            titles=(_("Day"), _("Workday or task"), _("people"), unit.word),
            shares=(1.7, 4, 1, 1),
            numbers=(2, 3),
            name=_("What the hours were for"),
        )


def _water_for_food(writer: Writer) -> str:
    """Water for each unit of weight, of the plots that wrote down both."""
    ratio = litres_a_gram(writer.summary.logs)
    if ratio is None:
        return ""
    weight, volume = writer.measures[Measure.WEIGHT], writer.measures[Measure.VOLUME]
    text = _(
        "Where both were written down from the beginning, that is %(volume)s %(volume_unit)s of water "
        "for each %(weight_unit)s picked, rain not counted."
    )
    return text % {
        "volume": number_text(round(ratio * weight.scale / volume.scale, 1)),
        "volume_unit": volume.word,
        "weight_unit": weight.word,
    }
