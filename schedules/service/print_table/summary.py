"""What a season came to, on paper: for the garden's landowner, for a plot, for a member."""

from __future__ import annotations

from typing import TYPE_CHECKING

from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from plots.access import may_run, oversees
from plots.models import Garden, User
from plots.powers import Power
from schedules.queries import people_of
from schedules.service.print_table.table import Asked, Group, Kind, Made
from schedules.service.summary import garden_summary, member_summary, plot_summary
from schedules.summary import Period
from schedules.wording.climate import climate_source_text

if TYPE_CHECKING:
    from schedules.reports.document import Head


def season_summary(asked: Asked) -> Made:
    """The whole garden's; it names no member."""
    from schedules.wording.summary import summary_document  # lazy: reportlab

    money, hours = (
        asked.user is None or may_run(asked.user, asked.garden, power)
        for power in (Power.MONEY, Power.WORKDAYS)
    )
    found = garden_summary(asked.garden, _period(asked), asked.today, money=money, hours=hours)
    document = summary_document(found, _head(asked, _("Season summary")), sowing_by_sowing=False)
    return Made(document=document)


def plot_year(asked: Asked) -> Made:
    """What became of each of the chosen plots, one after the other."""
    from schedules.wording.summary import summary_document  # lazy: reportlab

    made = [
        summary_document(
            plot_summary(plot, asked.user, _period(asked), asked.today),
            _head(
                asked, _("Plot %(plot)s in summary") % {"plot": plot.label}, people=", ".join(people_of(plot))
            ),
            sowing_by_sowing=True,
        )
        for plot in asked.choices["plots"]
    ]
    return Made(document=made[0].and_then(made[1:]))


def member_year(asked: Asked) -> Made:
    """A member's own: what they sowed, picked, gave and did."""
    from schedules.wording.summary import summary_document  # lazy: reportlab

    member = asked.choices["member"]
    found = member_summary(asked.garden, member, _period(asked), asked.today)
    head = _head(asked, _("Your year in the garden"), people=member.name)
    document = summary_document(found, head, sowing_by_sowing=True)
    return Made(document=document, people=frozenset({member.pk}))


def _sees_hours_of_others(user: User, garden: Garden) -> bool:
    """Another's year tells their hours, which who keeps the roster need not see."""
    return may_run(user, garden, Power.PEOPLE) and may_run(user, garden, Power.WORKDAYS)


def _period(asked: Asked) -> Period:
    return Period(asked.choices["since"], asked.choices["until"])


def _head(asked: Asked, title: str, *, people: str = "") -> Head:
    from schedules.wording.summary import period_text  # lazy: reportlab

    when = period_text(_period(asked), asked.garden)
    subtitle = f"{people} · {when}" if people else when
    return asked.head(title, subtitle=subtitle, note=climate_source_text(asked.garden))


KINDS = (
    Kind(
        code="season-summary",
        name=gettext_lazy("Season summary"),
        about=gettext_lazy(
            "Plots, people, hours, food, water and workshops, for the landowner or who funds the garden."
        ),
        group=Group.SUMMARY,
        make=season_summary,
        asks=("period",),
        may=lambda user, garden: oversees(user, garden),
    ),
    Kind(
        code="plot-year",
        name=gettext_lazy("A plot in summary"),
        about=gettext_lazy("What was planned, done and picked at a plot."),
        group=Group.SUMMARY,
        make=plot_year,
        asks=("plots", "period"),
        several=True,
    ),
    Kind(
        code="your-year",
        name=gettext_lazy("Your year"),
        about=gettext_lazy("A member's own look back: what they sowed, picked, gave away and did."),
        group=Group.SUMMARY,
        make=member_year,
        asks=("member", "period"),
        others=_sees_hours_of_others,
    ),
)
