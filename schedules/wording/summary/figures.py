"""The figures of a period with the years before beside them; workshops and photos."""

from __future__ import annotations

from collections.abc import Mapping

from django.conf import settings
from django.utils.formats import date_format
from django.utils.functional import Promise
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy, pgettext

from plots.models import Garden
from plots.models.agreements import LANGUAGES
from schedules.seasons import Hemisphere
from schedules.service.summary import printed_photo
from schedules.summary import MEASURES, Figure, Period
from schedules.wording.figures import left_out_texts, year_text
from schedules.wording.summary.writer import Writer, count_text
from schedules.years import span_of

FIGURE_NAMES: Mapping[Figure, str | Promise] = {
    Figure.PLOTS: gettext_lazy("Plots for members"),
    Figure.AREA: gettext_lazy("Ground in these plots"),
    Figure.HELD: gettext_lazy("Plots that somebody had"),
    Figure.FREE: gettext_lazy("Plots free at the end"),
    Figure.CHANGED: gettext_lazy("Plots that changed hands"),
    Figure.BEDS: gettext_lazy("Beds gardened by all or to give away"),
    Figure.MEMBERS: gettext_lazy("People with a plot"),
    Figure.HOUSEHOLDS: gettext_lazy("Households; who shares a plot counts as one"),
    Figure.NEW: gettext_lazy("People who had no plot before"),
    Figure.RETURNING: gettext_lazy("People who had one before"),
    Figure.WAITING_FIRST: gettext_lazy("Waiting for a plot at the beginning"),
    Figure.WAITING_LAST: gettext_lazy("Waiting for a plot at the end"),
    Figure.LANGUAGES: gettext_lazy("Languages they read"),
    Figure.HOURS: gettext_lazy("Hours for the garden"),
    Figure.GUEST_HOURS: gettext_lazy("Of these, by guests"),
    Figure.WORKED: gettext_lazy("Members who did them"),
    Figure.GUESTS: gettext_lazy("Guests who did them"),
    Figure.WORKDAYS: gettext_lazy("Workdays"),
    Figure.AT_PLOTS: gettext_lazy("Time at the plots"),
    Figure.PICKED: gettext_lazy("Food picked"),
    Figure.PICKED_PIECES: gettext_lazy("Food picked and counted, pieces"),
    Figure.CROPS: gettext_lazy("Crops picked"),
    Figure.GIVEN: gettext_lazy("Food given away"),
    Figure.GIVEN_PIECES: gettext_lazy("Food given away, pieces"),
    Figure.RECEIVERS: gettext_lazy("Who it was given to"),
    Figure.WATER: gettext_lazy("Water given"),
    Figure.WATERINGS: gettext_lazy("Waterings"),
    Figure.WORKSHOPS: gettext_lazy("Workshops"),
    Figure.EXPECTED: gettext_lazy("People expected there"),
    Figure.ATTENDED: gettext_lazy("People who came, where they were counted"),
    Figure.DUES: gettext_lazy("Dues paid"),
}


def figures(writer: Writer) -> None:
    """The figures of the period, the years before beside them; rows without any number are left out."""
    summary = writer.summary
    if summary.share is not None and summary.share.whole:
        said = {"part": summary.share.part, "whole": summary.share.whole}
        writer.page.text(
            _(
                "At %(part)s of the %(whole)s plots that somebody had, anything was written down. What was "
                "done at the others is not in the sums."
            )
            % said
        )
    columns = [summary.figures, *(found for _, found in summary.beside)]
    rows = [
        (_named(writer, figure), *(_cell(writer, figure, found.get(figure)) for found in columns))
        for figure in Figure
        if figure in summary.figures and any(found.get(figure) is not None for found in columns)
    ]
    if not rows:
        writer.page.text(_("Nothing was written down in this time."))
        return
    periods = [summary.period, *(period for period, _ in summary.beside)]
    writer.page.table(
        rows,
        titles=("", *(period_text(period, summary.garden) for period in periods)),
        shares=(3.2, *(1.2 for _ in periods)),
        numbers=range(1, len(periods) + 1),
        name=_("In figures"),
    )
    if summary.period.first <= summary.until < summary.period.last:
        day = date_format(summary.until, "DATE_FORMAT")
        writer.page.quiet(_("This time still runs; it is counted as far as %(day)s.") % {"day": day})
    for text in (*left_out_texts(summary.sums), _hidden(writer)):
        writer.page.quiet(text)
    _languages(writer)


def _attendance(writer: Writer) -> str:
    """Of how many workshops the people who came are known, lest they be held against all expected."""
    counted = [one.attended is not None for one in writer.summary.workshops]
    if all(counted) or not any(counted):
        return ""
    return _("How many came is written down for %(part)d of %(whole)d workshops.") % {
        "part": sum(counted),
        "whole": len(counted),
    }


def _hidden(writer: Writer) -> str:
    """What whoever prints this may not see, so that it is not taken for nothing."""
    names = [str(FIGURE_NAMES[figure]) for figure in writer.summary.hidden]
    if not names:
        return ""
    return _("Not on this copy, as whoever made it is not trusted with it: %(what)s.") % {
        "what": pgettext("between the items of a list", ", ").join(names)
    }


def _languages(writer: Writer) -> None:
    """How many read which language, with those who never said."""
    counted = writer.summary.languages
    if not counted:
        return
    names = {**dict(LANGUAGES), **dict(settings.LANGUAGES)}
    rows = [(str(names.get(code, code)), str(number)) for code, number in counted.items()]
    untold = int(writer.summary.figures.get(Figure.MEMBERS) or 0) - sum(counted.values())
    if untold > 0:
        rows.append((_("not written down"), str(untold)))
    writer.page.table(
        rows,
        titles=(_("Language"), _("people")),
        shares=(3, 1),
        numbers=(1,),
        name=_("Languages that people with a plot read"),
    )


def _named(writer: Writer, figure: Figure) -> str:
    unit = writer.measures[MEASURES[figure]].word
    name = str(FIGURE_NAMES[figure])
    return f"{name}, {unit}" if unit else name


def _cell(writer: Writer, figure: Figure, value: float | None) -> str:
    return "" if value is None else writer.measures[MEASURES[figure]].number(value)


def period_text(period: Period, garden: Garden) -> str:
    """A period in words: `2026` for a whole year of the garden, else its two days."""
    hemisphere = Hemisphere.of_latitude(garden.latitude)
    if (period.first, period.last) == span_of(period.first.year, hemisphere):
        return year_text(period.first.year, garden)
    days = {
        "first": date_format(period.first, "DATE_FORMAT"),
        "last": date_format(period.last, "DATE_FORMAT"),
    }
    return _("%(first)s – %(last)s") % days


def workshops(writer: Writer) -> None:
    if not writer.summary.workshops:
        return
    writer.page.heading(_("Workshops"))
    writer.page.table(
        [
            (
                date_format(one.day, "DATE_FORMAT"),
                one.title,
                one.place,
                count_text(one.expected),
                count_text(one.attended),
            )
            for one in writer.summary.workshops
        ],
        titles=(_("Day"), _("Workshop"), _("Where"), _("expected"), _("came")),
        shares=(1.7, 3, 2, 1, 1),
        numbers=(3, 4),
    )
    writer.page.quiet(_attendance(writer))


def photos(writer: Writer) -> None:
    """Photos that who took them gave for the report."""
    if not writer.summary.photos:
        return
    writer.page.heading(_("In pictures"), room=260)
    for photo in writer.summary.photos:
        day = date_format(photo.log.day, "DATE_FORMAT")
        caption = f"{photo.caption}. {day}" if photo.caption else day
        writer.page.picture(printed_photo(photo), photo.caption or _("A photo from the garden"), caption)
