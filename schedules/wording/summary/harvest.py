"""What was picked, given away, watered and worked, week by week and crop by crop."""

from __future__ import annotations

from functools import partial

from django.utils.translation import gettext as _

from crops.wording.names import crop_label
from plots.quantities import METRES_PER_FOOT, Units
from plots.wording import number_text
from plots.wording.site import SQUARE_FOOT
from schedules.reports.charts import LyingBar, LyingBars, lying_bars
from schedules.summary import CropYield, Measure, litres_a_gram
from schedules.wording.figures import harvest_text
from schedules.wording.logs import weight_text
from schedules.wording.summary.writer import SheetUnit, Writer, day_text
from schedules.work import Work

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
        found.append(_("%(percent)s %% of what was weighed was given away.") % {"percent": percent})
    if writer.summary.weighed_m2 and sums.grams:
        us = writer.units == Units.US
        ground = 100 * SQUARE_FOOT if us else 1.0
        text = (
            _("The plots that weighed picked %(amount)s %(unit)s from each 100 sq ft.")
            if us
            else _("The plots that weighed picked %(amount)s %(unit)s from each m².")
        )
        amount = number_text(round(sums.grams / unit.scale / writer.summary.weighed_m2 * ground, 1))
        found.append(text % {"amount": amount, "unit": unit.word})
    return found


def _crops(writer: Writer, unit: SheetUnit) -> None:
    summary = writer.summary
    by_row = any(one.grams_a_metre for one in summary.yields)
    a_row = METRES_PER_FOOT * _ROW_FEET if writer.units == Units.US else 1.0
    row_title = _("%(unit)s from 10 ft of row") if writer.units == Units.US else _("%(unit)s from 1 m of row")
    rows = [
        (
            _crop(writer, one),
            unit.number(one.sums.grams) if one.sums.grams else "",
            str(one.sums.pieces or ""),
            unit.number(one.sums.given_grams) if one.sums.given_grams else str(one.sums.given_pieces or ""),
            day_text(one.sums.first_picked, summary.period),
            day_text(one.sums.last_picked, summary.period),
            *([unit.number(one.grams_a_metre * a_row) if one.grams_a_metre else ""] if by_row else []),
        )
        for one in summary.yields
    ]
    given = _("given away, %(unit)s or pieces")
    titles = [
        _("Crop"),
        _("picked, %(unit)s") % {"unit": unit.word},
        _("pieces"),
        given % {"unit": unit.word},
        _("first"),
        _("last"),
        *([row_title % {"unit": unit.word}] if by_row else []),
    ]
    writer.page.table(
        rows,
        titles=titles,
        shares=(3, 1.3, 1, 1.5, 1.2, 1.2, 1.4)[: len(titles)],
        numbers=(1, 2, 3, 6),
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
            gift.whom or _("nobody said to whom"),
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
        numbers=(1,),
        name=_("Given away"),
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
