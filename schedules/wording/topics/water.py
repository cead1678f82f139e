"""Water: an inch on this bed in gallons, cans and minutes at this garden's hose; how to see what it needs."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from typing import TYPE_CHECKING

from django.utils.dates import MONTHS
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy, ngettext

from crops.wording.cautions import RESTS_ON, Hazard
from plots.quantities import LITRES_PER_GALLON
from schedules.amounts import CAN_LITRES, MM_PER_INCH, litres_over
from schedules.place import Place
from schedules.reports.document import Page
from schedules.water import giving
from schedules.water.evaporation import reference_mm
from schedules.water.need import WEEK_MM
from schedules.wording.topics import ground
from schedules.wording.topics.topic import Own, Question, Topic
from schedules.wording.water import carried_text, depth_text

if TYPE_CHECKING:
    from reportlab.graphics.shapes import Drawing

_MOST_HOSES = 3
_DAYS_IN_WEEK = 7
_BUCKET_SECONDS = (30, 60, 120)
_HAZARDS = (Hazard.WATER_SOURCE, Hazard.BACKFLOW, Hazard.HEAT)


def write(page: Page, place: Place) -> None:
    """How much on this bed, how to look, how to give it."""
    inch = _inch(place)
    page.text(
        _("A bed full of plants needs about %(inch)s of water a week, from rain and from you together. It"
          " needs more in heat and wind, and less when it is cool. The numbers here are for a bed of"
          " %(bed)s.")
        % {"inch": depth_text(inch, place.units), "bed": ground.bed_text(place)}
    )  # fmt: skip
    page.text(_by_the_weather(place))
    page.heading(_("How much that is"))
    _amounts(page, place)
    page.heading(_("Look before you water"), room=200)
    _finger(page, place)
    page.heading(_("How to give it"))
    page.points(_giving(place))
    ground.warn(page, _HAZARDS)


def _drawn(width: float) -> Drawing:
    from schedules.reports.sections import finger_test  # lazy: reportlab

    return finger_test(width)


def _inch(place: Place) -> float:
    return MM_PER_INCH if ground.is_us(place) else WEEK_MM


def _depths(place: Place) -> tuple[float, ...]:
    """Millimetres that are round in the reader's own units."""
    if ground.is_us(place):
        return (0.5 * MM_PER_INCH, MM_PER_INCH, 1.5 * MM_PER_INCH)
    return (10.0, WEEK_MM, 40.0)


def _by_the_weather(place: Place) -> str:
    """What a bed in full leaf takes in the thirstiest month and in those of the last and first frost."""
    latitude = place.latitude
    if latitude is None or not place.months:
        return ""
    weeks = {
        normal.month: _DAYS_IN_WEEK
        * reference_mm(normal.low_c, normal.high_c, latitude=latitude, day=date(place.year, normal.month, 15))
        for normal in place.months
    }
    peak = max(weeks, key=lambda month: weeks[month])
    frosts = [day.month for day in (place.last_frost, place.first_frost) if day is not None]
    told = [
        _("%(month)s %(depth)s") % {"depth": depth_text(weeks[month], place.units), "month": MONTHS[month]}
        for month in dict.fromkeys([*frosts[:1], peak, *frosts[1:]])
    ]
    return _("In the usual weather here, a bed in full leaf uses in a week: %(months)s.") % {
        "months": ground.named(told)
    }


def _amounts(page: Page, place: Place) -> None:
    """Depths as rows; volume, cans and minutes at each timed hose."""
    can = place.can_litres or CAN_LITRES[place.units]
    hoses = place.hoses[:_MOST_HOSES]
    rows = []
    for millimetres in _depths(place):
        litres = litres_over(millimetres, place.bed.area_m2)
        cans = giving.whole_cans(litres, can)
        minutes = [ground.whole(giving.minutes(litres, flow)) for _name, flow in hoses]
        depth = depth_text(millimetres, place.units)
        rows.append([depth, carried_text(litres, place.units), str(cans), *minutes])
    cans_title = _("Cans of %(volume)s") % {"volume": carried_text(can, place.units)}
    hose_titles = [_("Minutes at %(hose)s") % {"hose": name} for name, _flow in hoses]
    page.table(
        rows,
        titles=(_("Depth"), _("Water"), cans_title, *hose_titles),
        shares=(2, 2, 2, *([3] * len(hoses))),
        numbers=range(1, 3 + len(hoses)),
        name=_("Water for this bed"),
    )
    if not hoses:
        _time_your_hose(page, place)
    page.text(
        _("Rain counts. Leave a can with straight sides out in the bed, and measure what fell in it. You give"
          " the rest. A part of the water never gets to the roots. So with a sprinkler give %(sprinkler)s"
          " times as much, with a drip line %(drip)s times.")
        % {
            "sprinkler": ground.whole(1 / giving.ARRIVES["sprinkler"]),
            "drip": ground.whole(1 / giving.ARRIVES["drip"]),
        }
    )  # fmt: skip


def _time_your_hose(page: Page, place: Place) -> None:
    bucket = 5 * LITRES_PER_GALLON if ground.is_us(place) else 10.0
    litres = litres_over(_inch(place), place.bed.area_m2)
    page.text(
        _("No hose has been timed here. Open the tap as far as you will when you water, and count how long it"
          " takes to fill a bucket of %(bucket)s. Then %(inch)s on this bed takes:")
        % {"bucket": carried_text(bucket, place.units), "inch": depth_text(_inch(place), place.units)}
    )  # fmt: skip
    found = []
    for seconds in _BUCKET_SECONDS:
        minutes = giving.minutes(litres, giving.flow(bucket, seconds))
        words = {"seconds": seconds, "minutes": ground.whole(minutes)}
        found.append(
            ngettext(
                "If it is full in %(seconds)d seconds: %(minutes)s minute.",
                "If it is full in %(seconds)d seconds: %(minutes)s minutes.",
                1 if minutes == 1 else 2,
            )
            % words
        )
    page.points(found)


def _finger(page: Page, place: Place) -> None:
    page.chart(
        _drawn,
        _("A finger in the ground beside a plant: the top is dry, it is moist below, where the roots are."),
    )
    joint = ground.deep_text(place, 2, 5)
    page.points(
        [
            _("The top of the soil dries first. That alone is no reason to water."),
            _(
                "Push a finger in down to its second joint, about %(joint)s. If it is moist there, wait. If"
                " it is dry there, water."
            )
            % {"joint": joint},
            _("The roots drink from here. After you have watered, dig a small hole. Is it wet %(deep)s down?")
            % {"deep": ground.deep_text(place, 6, 15)},
        ],
        numbered=True,
    )


def _giving(place: Place) -> list[str]:
    shallow = [crop.name for crop in place.crops if crop.facts.rooting_depth_class == "shallow"]
    return [
        _("Water in the morning. It sinks in before the heat, and leaves are dry by night."),
        _("Pour it slowly onto the soil, not over the leaves. If water stands on top, stop and come back."),
        _(
            "Water well once or twice a week. That is better than a little every day, as roots follow the"
            " water down."
        ),
        _("But keep the soil of new seed, and of plants just set out, moist every day."),
        _("Plants in flower and in fruit need water most. If it comes unevenly, tomatoes and carrots split."),
        _("These crops have roots near the top and dry out first: %(crops)s.")
        % {"crops": ground.named(shallow)}
        if shallow
        else "",
        _("Too much is as bad: yellow leaves on wet soil mean that the roots lack air. Wait until it dries."),
        _("Mulch keeps the water in. See the sheet about mulch."),
    ]


def questions(place: Place) -> Sequence[Question]:
    litres = litres_over(_inch(place), place.bed.area_m2)
    choices = tuple(carried_text(litres * times, place.units) for times in (0.1, 1.0, 4.0))
    words = {"inch": depth_text(_inch(place), place.units), "bed": ground.bed_text(place)}
    return (
        Question(
            _("How much water is %(inch)s on a bed of %(bed)s?") % words,
            choices,
            1,
            _("Depth times area: %(volume)s.") % {"volume": choices[1]},
        ),
        Question(
            _("The top of the soil is dry. What do you do?"),
            (
                _("Water at once"),
                _("Push a finger in and feel whether it is moist below"),
                _("Spray the leaves"),
            ),
            1,
            _("The top dries first; roots drink from below."),
        ),
    )


TOPIC = Topic(
    code="water",
    name=gettext_lazy("Water"),
    about=gettext_lazy("How much water a bed takes here, how to tell that it is dry, and how to give it."),
    write=write,
    questions=questions,
    sources=(
        "Penn State Extension, 2013: Determining how long to run drip irrigation systems for vegetables",
        "Purdue Landscape Report: What is an inch of water?",
        "Organic Gardening magazine: timing a tap; what drip lines and sprinklers lose",
        "FAO Irrigation and Drainage Paper 56, for what the weather takes",
        *(RESTS_ON[hazard] for hazard in _HAZARDS),
    ),
    own=Own(
        gettext_lazy("My own watering"),
        {
            gettext_lazy("Date"): 1.2,
            gettext_lazy("Rain"): 1.2,
            gettext_lazy("Dry at a finger’s depth?"): 2.4,
            gettext_lazy("Given"): 1.4,
            gettext_lazy("What I saw"): 2.8,
        },
    ),
)
