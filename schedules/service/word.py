"""A private word to the people of plots that something may reach: a notice, which a person sends."""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass

from django.core.exceptions import ValidationError
from django.db import transaction
from django.utils.translation import gettext as _

from crops.models import Planting
from plots import queries, service
from plots.models import Assignment, Audience, Garden, Notice, Plot, User
from plots.service import record
from plots.sitemap.boxes import Box
from schedules.models import Sighting
from schedules.queries import guidance_about
from schedules.reach import NEAR_M, Ground, Reached, reached


@dataclass(frozen=True)
class Neighbour:
    """A plot that it may reach, with the people who garden it now; `reach` is `None` for the plot itself."""

    plot: Plot
    reach: Reached | None
    people: tuple[User, ...]


def neighbours(sighting: Sighting) -> list[Neighbour]:
    """The plot where it was seen and those it may reach, as far as somebody gardens them now."""
    garden, log = sighting.log.garden, sighting.log
    if log.plot is None:
        return []
    plots = {plot.pk: plot for plot in garden.plots.filter(retired_on__isnull=True)}
    grounds = _grounds(garden, plots.values())
    crop = log.crop_grown
    families = frozenset({crop.family} if crop and crop.family else ())
    advice = guidance_about(garden, sighting.seen)
    within = next((one.reach_m for one in advice if one.reach_m is not None), NEAR_M)
    origin = grounds.get(log.plot_id, Ground(log.plot_id, None))
    found = reached(origin, grounds.values(), families=families, within_m=within)
    people = _people(garden)
    rows = [Neighbour(log.plot, None, people[log.plot_id])]
    rows += [Neighbour(plots[one.plot], one, people[one.plot]) for one in found]
    return [row for row in rows if row.people]


def _grounds(garden: Garden, plots: Iterable[Plot]) -> dict[int, Ground]:
    year = garden.today().year
    growing: dict[int, set[str]] = defaultdict(set)
    rows = Planting.objects.filter(plot__garden=garden, removed_at=None, year__in=[year - 1, year])
    for plot, family in rows.values_list("plot", "crop__family"):
        growing[plot].add(family)
    return {plot.pk: Ground(plot.pk, _box(plot), frozenset(growing[plot.pk] - {""})) for plot in plots}


def _box(plot: Plot) -> Box | None:
    sides = plot.left_m, plot.top_m, plot.width_m, plot.length_m
    if None in sides:
        return None
    return Box(*(side or 0.0 for side in sides), plot.turn_deg)


def _people(garden: Garden) -> dict[int, tuple[User, ...]]:
    """Who gardens each plot today."""
    held = Assignment.objects.on(garden.today()).filter(plot__garden=garden, holder__is_active=True)
    found: dict[int, tuple[User, ...]] = defaultdict(tuple)
    for one in held.select_related("holder").prefetch_related("co_gardeners"):
        found[one.plot_id] += (one.holder, *(person for person in one.co_gardeners.all() if person.is_active))
    return found


def named_in_word(notice: Notice) -> list[str]:
    """People and plots that the text names; a bare number counts only behind the word for a plot."""
    text = f"{notice.subject} {notice.body}"
    word = re.escape(_("plot"))
    labels = notice.garden.plots.values_list("label", flat=True)
    numbers = [
        label for label in labels if re.search(rf"\b{word}\s+{re.escape(label)}\b", text, re.IGNORECASE)
    ]
    return list(dict.fromkeys([*queries.named_in(notice), *numbers]))


@transaction.atomic
def give_word(*, sighting: Sighting, subject: str, body: str, people: Iterable[User], by: User) -> Notice:
    """Keeps the word and gives it out; sending what goes by email is `service.send_waiting`'s, after this.

    Raises `ValidationError` where the text names a person or a plot.
    """
    garden = sighting.log.garden
    notice = Notice(garden=garden, subject=subject, body=body, audience=Audience.PICKED)
    named = named_in_word(notice)
    if named:
        words = {"names": ", ".join(named)}
        raise ValidationError({"body": _("The text names %(names)s. Leave names and plots out.") % words})
    service.keep_notice(notice=notice, picked=people, by=by)
    service.give_out(notice=notice, by=by)
    sighting.words.add(notice)
    record(
        garden=garden, by=by, about=sighting, what="word-given", after={"count": notice.deliveries.count()}
    )
    return notice
