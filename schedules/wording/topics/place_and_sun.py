"""Choosing a place and sun."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from datetime import date, time
from typing import TYPE_CHECKING

from django.utils.formats import time_format
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from crops.wording.cautions import RESTS_ON, Hazard
from plots.quantities import METRES_PER_FOOT, Quantity
from plots.wording import quantity_text
from schedules.place import Place
from schedules.reports.document import Page
from schedules.seasons import Hemisphere
from schedules.shadows import noon_shadow
from schedules.wording.topics import ground, local
from schedules.wording.topics.topic import Own, Question, Topic

if TYPE_CHECKING:
    from reportlab.graphics.shapes import Drawing

_HAZARDS = (Hazard.SITE_HISTORY, Hazard.LEAD, Hazard.BURIED_LINES)
_MIDSUMMER = {Hemisphere.NORTH: (6, 21), Hemisphere.SOUTH: (12, 21)}
_TROPIC = 23.5
_LONGEST_TIMES = 12  # longer ones make the others too small to be drawn
_MOST_NAMED = 6
_HOURS = (8, 10, 12, 14, 16, 18)


def write(page: Page, place: Place) -> None:
    """Sun first, then shade, then everything else that a place needs."""
    page.text(
        _("You can carry water and compost to a bed, but not sun. So choose the place for its sun first, and"
          " for water near by next. Poor soil can be made better. Too little sun means tall, thin plants"
          " and little to pick.")
    )  # fmt: skip
    page.heading(_("How much sun"))
    page.points(_needs(place))
    _count(page)
    page.heading(_("Where shade falls"), room=200)
    _shade(page, place)
    page.heading(_("What else to look for"))
    page.points(_look(place))
    ground.warn(page, _HAZARDS)


def _needs(place: Place) -> list[str]:
    """By the crops chosen, where some are; else by what is eaten of a plant."""
    by_hours: dict[float, list[str]] = {}
    for crop in place.crops:
        if crop.facts.sun_hours_min is not None:
            by_hours.setdefault(crop.facts.sun_hours_min, []).append(crop.name)
    usual = _(
        "Crops that bear fruit want most: 6 to 8 hours of direct sun a day. Roots want about 6. Leaves"
        " manage with 4 or 5."
    )
    told = [
        _("At least %(hours)s hours: %(crops)s.")
        % {"hours": ground.whole(hours), "crops": ground.named(by_hours[hours])}
        for hours in sorted(by_hours)
    ]
    rest = max(by_hours, default=0.0)
    if (
        len(told) > 1
        and len(by_hours[rest]) > _MOST_NAMED
        and all(one.facts.sun_hours_min for one in place.crops)
    ):
        told[-1] = _("At least %(hours)s hours: all other crops of this sheet.") % {
            "hours": ground.whole(rest)
        }
    return [usual, *told]


def _count(page: Page) -> None:
    page.text(
        _("Count the hours. On a clear day in the growing season look every two hours, and write an S if the"
          " sun is on the ground. Each S stands for two hours.")
    )  # fmt: skip
    hours = [time_format(time(hour), "TIME_FORMAT") for hour in _HOURS]
    page.table(
        [("", *[""] * len(hours), "") for _place in range(2)],
        titles=(_("Place"), *hours, _("Hours")),
        shares=(2.6, *[1] * len(hours), 1.2),
        row_height=24,
        grid=True,
        name=_("Hours of sun"),
    )


def _shade(page: Page, place: Place) -> None:
    fence = 6 * METRES_PER_FOOT if ground.is_us(place) else 2.0
    found = _shadows(place, fence)
    words = {
        "fence": quantity_text(fence, Quantity.LENGTH, place.units),
        "side": _("north") if place.hemisphere is Hemisphere.NORTH else _("south"),
    }
    if not found:
        page.text(
            _("At noon the shadow of a fence, a wall or a tree lies to its %(side)s, and it is longer the"
              " lower the sun stands: longest in winter, several times the height. Stand a stick of your"
              " own height where the thing is, and mark the end of its shadow at noon in spring, in summer"
              " and in autumn.") % words
        )  # fmt: skip
        return
    page.chart(
        _drawing(fence, found),
        _("A fence and the ends of its shadow at noon on several days."),
    )
    page.text(
        _("This is how long the shadow of a fence %(fence)s high is here at noon, when the sun is highest. It"
          " lies to the %(side)s. In the morning and in the evening it is longer.") % words
    )  # fmt: skip
    page.points([f"{when}: {length}" for _metres, length, when in _told(place, fence)], numbered=True)
    if place.latitude is not None and abs(place.latitude) < _TROPIC:
        page.quiet(_("Near midsummer the noon sun stands on the other side here, and so does the shadow."))


def _drawing(fence: float, found: list[tuple[float, str]]) -> Callable[[float], Drawing]:
    def draw(width: float) -> Drawing:
        from schedules.reports.shadow_picture import shadow_picture  # lazy: reportlab

        return shadow_picture(fence, found, width)

    return draw


def _days(place: Place) -> list[tuple[str, date]]:
    midsummer = date(place.year, *_MIDSUMMER[place.hemisphere])
    midwinter = date(place.year, *_MIDSUMMER[next(one for one in Hemisphere if one is not place.hemisphere)])
    return [
        (_("midsummer"), midsummer),
        *([(_("last frost of spring"), place.last_frost)] if place.last_frost else []),
        *([(_("first frost of autumn"), place.first_frost)] if place.first_frost else []),
        (_("midwinter"), midwinter),
    ]


def _told(place: Place, fence: float) -> list[tuple[float, str, str]]:
    """Shadows as (metres, length, day in words), shortest first."""
    if place.latitude is None:
        return []
    found = []
    for name, day in _days(place):
        metres = noon_shadow(fence, place.latitude, day)
        if metres is not None and metres <= _LONGEST_TIMES * fence:
            shown = metres if ground.is_us(place) else round(metres, 1)
            length = quantity_text(shown, Quantity.LENGTH, place.units)
            found.append((metres, length, _("%(name)s, %(day)s") % {"name": name, "day": local.day(day)}))
    return sorted(found)


def _shadows(place: Place, fence: float) -> list[tuple[float, str]]:
    return [(metres, length) for metres, length, _when in _told(place, fence)]


def _look(place: Place) -> list[str]:
    return [
        _("Water: is there a tap that a hose can reach? A bed far from water dries out."),
        _("Drainage: dig a hole %(deep)s deep and fill it with water. When it is empty, fill it again. The"
          " second time it should be empty within a day. If it is not, build a raised bed.")
        % {"deep": ground.deep_text(place, 12, 30)},
        _("Cold: cold air runs downhill and stays behind walls and hedges. There frost comes earlier."),
        _("Trees: their roots reach as far as their branches, and further. They take water and food."),
        _("Wind and way in: a hedge or a fence slows the wind. A barrow and a wheelchair must get in."),
        _("Passers-by: choose a place that you walk past. What you see every day you look after."),
    ]  # fmt: skip


def questions(place: Place) -> Sequence[Question]:
    north = place.hemisphere is Hemisphere.NORTH
    return (
        Question(
            _("How much direct sun do tomatoes want?"),
            (_("2 to 3 hours"), _("6 to 8 hours"), _("no sun, if they are fed well")),
            1,
            _("Fruit wants most. Nothing you feed makes up for sun."),
        ),
        Question(
            _("On which side of a high fence is the shade at noon?"),
            (_("North"), _("South"), _("East")),
            0 if north else 1,
            _("At noon the sun stands in the south, so shade falls to the north.")
            if north
            else _("At noon the sun stands in the north, so shade falls to the south."),
        ),
    )


TOPIC = Topic(
    code="place-and-sun",
    name=gettext_lazy("Choosing a place and sun"),
    about=gettext_lazy("How much sun crops need, where shade falls here, and what else makes a good place."),
    write=write,
    questions=questions,
    sources=(
        "Hours of sun and what else to look for: common practice, no source",
        "The sun’s height: FAO Irrigation and Drainage Paper 56, equation 24",
        *(RESTS_ON[hazard] for hazard in _HAZARDS),
    ),
    own=Own(
        gettext_lazy("Places I looked at"),
        {
            gettext_lazy("Place"): 3,
            gettext_lazy("Hours of sun"): 1.4,
            gettext_lazy("Water"): 1.6,
            gettext_lazy("What stood here"): 3,
        },
    ),
)
