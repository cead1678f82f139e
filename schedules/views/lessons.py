"""What this garden taught: its days to maturity, and its real freezes beside the curve."""

from __future__ import annotations

from functools import partial

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils.translation import gettext as _
from django.utils.translation import ngettext
from django.views.decorators.http import require_POST, require_safe

from crops.queries import crops_for
from crops.wording.names import crop_label
from plots.access import garden_to_run, garden_to_see, may_run
from plots.powers import Power
from plots.views.answers import chosen as chosen_row
from schedules.queries.lessons import CropLesson, lessons_by_crop
from schedules.seasons import Side
from schedules.service import chosen_climate, garden_climate
from schedules.service.lessons import set_lessons_aside, take_lessons_up
from schedules.service.retrospect import Ending, endings, years_known
from schedules.views.shifts import kept_or_shown
from schedules.wording import retrospect as words
from schedules.wording.climate import threshold_text


@require_safe
def taught(request: HttpRequest, slug: str) -> HttpResponse:
    """Every crop and variety of which the garden has sowings of its own."""
    garden = garden_to_see(request.user, slug)
    context = {
        "garden": garden,
        "lessons": [(lesson, _change(lesson)) for lesson in lessons_by_crop(garden)],
        "may_run": may_run(request.user, garden, Power.SETTINGS),
    }
    return render(request, "schedules/taught.html", context)


def _change(lesson: CropLesson) -> str:
    """By how many days sooner or later it ripens here."""
    days = 0 if lesson.taught is None else lesson.taught.days_changed
    if days == 0:
        return _("none")
    text = (
        ngettext("%(count)s day sooner", "%(count)s days sooner", -days)
        if days < 0
        else ngettext("%(count)s day later", "%(count)s days later", days)
    )
    return text % {"count": abs(days)}


@require_POST
def taught_set(request: HttpRequest, slug: str, pk: int) -> HttpResponse:
    """Set aside what was learned of a crop or a variety of it, or let it count again."""
    garden = garden_to_run(request.user, slug, Power.SETTINGS)
    crop = get_object_or_404(crops_for(garden), pk=pk)
    variety = chosen_row(garden.varieties.filter(crop=crop), request.POST.get("variety", ""))
    change = take_lessons_up if request.POST.get("counts") == "yes" else set_lessons_aside
    told = {"garden": garden, "crop": crop, "variety": variety, "by": request.user}
    preview = kept_or_shown(request, garden, partial(change, **told))
    if preview is not None:
        told = {"crop": crop_label(crop, variety)}
        if change is set_lessons_aside:
            return preview.page(request, garden, _("Set aside what sowings here taught: %(crop)s") % told)
        return preview.page(request, garden, _("Let count again what sowings here taught: %(crop)s") % told)
    messages.success(request, _("Dates are worked out anew from now on."))
    return redirect("schedules:taught", slug)


@require_safe
def frost_year(request: HttpRequest, slug: str) -> HttpResponse:
    """A season in retrospect: its real freezes placed on the curve."""
    garden = garden_to_see(request.user, slug)
    chosen = chosen_climate(garden)
    climate = None if chosen is None else garden_climate(garden, chosen)
    asked = request.GET.get("year", "")
    years = [] if chosen is None else years_known(garden, chosen)
    latest = years[0] if years else garden.today().year
    year = next((one for one in years if str(one) == asked), latest)
    rows = [] if climate is None or chosen is None else endings(garden, chosen, climate, year)
    context = {
        "garden": garden,
        "climate": climate,
        "year": year,
        "years": [one for one in years if one != year],
        "sides": [
            (title, [(row, threshold_text(row.celsius, garden.units), _texts(row)) for row in of_side])
            for side, title in ((Side.LAST, _("The last freeze")), (Side.FIRST, _("The first freeze")))
            if (of_side := [row for row in rows if row.side is side])
        ],
    }
    return render(request, "schedules/frost_year.html", context)


def _texts(row: Ending) -> tuple[str, str]:
    """How the freeze lies among the years, and who read it."""
    if row.freeze is None:
        return words.no_freeze_text(row.side), ""
    if row.unread:
        return words.unplaced_text(row.freeze, row.unread), words.read_by_text(row.freeze)
    if row.placed is None:
        return words.no_freeze_text(row.side), ""
    return words.placed_text(row.placed), words.read_by_text(row.freeze)
