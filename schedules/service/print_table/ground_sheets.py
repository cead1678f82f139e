"""Sheets about the ground: stakes and log sheets of the plots, the map, and what grows where."""

from __future__ import annotations

from django.db.models import QuerySet
from django.utils.formats import date_format
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy, ngettext

from plots import queries
from plots.access import plots_to_log
from plots.models import Garden, Plot, User
from plots.powers import Power
from plots.sitemap.drawing import site_sketch
from plots.wording.site_key import key_to_map
from schedules.reports.document import Page
from schedules.reports.label_sheets import SHEETS
from schedules.service.growing import Grown, growing_at
from schedules.service.print_table.table import Asked, Group, Kind, Made, trusted
from schedules.service.stakes import log_key, log_sheets, stake_address, stakes_on_paper


def all_plots(user: User, garden: Garden) -> QuerySet[Plot]:
    """Every plot, for who may print for all of them."""
    return queries.gardened_plots(garden)


def stakes(asked: Asked) -> Made:
    """Labels with a plot's number and the code that opens its log; nobody's name."""
    plots, labels = asked.choices["plots"], SHEETS[asked.choices["labels"]]
    page = Page(asked.head(_("Stakes")))
    page.table(
        [(plot.label, stake_address(plot)) for plot in plots],
        titles=(_("Plot"), _("What its code opens")),
        shares=(1, 4),
        name=_("Stakes"),
    )

    def laid_out() -> bytes:
        return stakes_on_paper(
            asked.garden,
            plots,
            labels,
            first=asked.choices.get("first") or 1,
            backs=asked.choices.get("backs", False),
            outlines=asked.choices.get("outlines", False),
        )

    return Made(document=page.document(), laid_out=laid_out)


def blank_logs(asked: Asked) -> Made:
    """A sheet to write on by hand for each plot."""
    from schedules.reports.log_sheet import log_sheets as sheets_of  # lazy: reportlab

    head = asked.head(_("Log sheets"), note=_("Fill it in and hand it to who types logs in."))
    sheets = log_sheets(asked.garden, asked.choices["plots"])
    return Made(document=sheets_of(head, sheets, log_key(asked.garden)))


def site_map(asked: Asked) -> Made:
    """The whole site to scale, for the notice board: the same for everybody who may see it."""
    from schedules.reports.site_map import site_map as map_of  # lazy: reportlab

    site = queries.site_map(asked.garden, seen=(), own=(), oversees=False)
    count = len(site.drawn.plots)
    head = asked.head(
        _("Map of %(garden)s") % {"garden": asked.garden.name},
        subtitle=ngettext("%(count)d plot.", "%(count)d plots.", count) % {"count": count},
    )
    made = map_of(head, site_sketch(site.drawn), key_to_map(site.drawn), units=asked.garden.units)
    return Made(document=made)


def what_grows_where(asked: Asked) -> Made:
    """Plot by plot, as one walks past them, what stands there today and what is to be begun."""
    page = Page(
        asked.head(
            _("What grows where"),
            subtitle=date_format(asked.today, "DATE_FORMAT"),
            note=_("From plans, and from what was logged; what nobody wrote down is not here."),
        )
    )
    rows = []
    for plot, grown in growing_at(asked.garden, asked.choices["plots"], asked.today):
        rows += [(plot.label, row.dated.name, _since(row), _until(row)) for row in grown]
        if not grown:
            rows.append((plot.label, _("nothing that is known of"), "", ""))
    page.table(
        rows,
        titles=(_("Plot"), _("What grows"), _("Since, or to begin"), _("Picked until")),
        shares=(1, 3.4, 2.6, 2),
        name=_("What grows where"),
        grouped=True,
    )
    return Made(document=page.document())


def _since(row: Grown) -> str:
    if row.standing is not None:
        return date_format(row.standing.since, "DATE_FORMAT")
    if row.begins is None:
        return _("no date")
    return _("from %(day)s") % {"day": date_format(row.begins, "DATE_FORMAT")}


def _until(row: Grown) -> str:
    until = row.standing.until if row.standing is not None else None
    return date_format(until, "DATE_FORMAT") if until else ""


KINDS = (
    Kind(
        code="stakes",
        name=gettext_lazy("Stakes"),
        about=gettext_lazy(
            "A plot's number to read from afar, and a code to scan that opens its log. Nobody's name."
        ),
        group=Group.GROUND,
        make=stakes,
        asks=("plots", "labels"),
        may=trusted(Power.PLOTS),
        plots=all_plots,
        large=False,
    ),
    Kind(
        code="log-sheets",
        name=gettext_lazy("Log sheets"),
        about=gettext_lazy("Empty lines for each plot, for who writes down by hand what was done."),
        group=Group.GROUND,
        make=blank_logs,
        asks=("plots",),
        plots=plots_to_log,
        several=True,
    ),
    Kind(
        code="map",
        name=gettext_lazy("Map of the garden"),
        about=gettext_lazy("The whole site to scale, with its key, for the notice board."),
        group=Group.GROUND,
        make=site_map,
    ),
    Kind(
        code="what-grows",
        name=gettext_lazy("What grows where"),
        about=gettext_lazy("Plot by plot what stands there today, and what is to be begun."),
        group=Group.GROUND,
        make=what_grows_where,
        asks=("plots",),
    ),
)
