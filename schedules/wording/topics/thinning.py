"""Thinning: which seedlings go, when, and how far apart the others stay."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from crops.facts import Method
from crops.spacing import plants_in_row
from crops.wording.facts import thin_text
from plots.quantities import METRES_PER_INCH, Quantity
from plots.wording import quantity_text
from schedules.place import Place, PlaceCrop
from schedules.reports.document import Page
from schedules.windows import Operation
from schedules.windows.growth import needs_thinning
from schedules.wording.topics import ground, local
from schedules.wording.topics.topic import Own, Question, Topic

if TYPE_CHECKING:
    from reportlab.graphics.shapes import Drawing

# A row of beets, drawn where no crop is chosen: an inch apart when sown, four in the end.
_SOWN_M, _FINAL_M = METRES_PER_INCH, 4 * METRES_PER_INCH


def write(page: Page, place: Place) -> None:
    """The picture first: most people take too few."""
    page.text(
        _("Seedlings that stand too close take light, water and food from each other. They all stay small."
          " To thin is to take some out, so that the others have room. It feels wrong, and it is put off"
          " most often. Carrots that were not thinned stay as thin as pencils.")
    )  # fmt: skip
    crops = _thinned(place.crops)
    _drawing(page, place, crops)
    page.heading(_("How to thin"))
    page.points(
        [
            _("Wait for the first true leaves. The two seed leaves come first and look different."),
            _("Water the row, or wait for rain."),
            _("Keep the strongest seedling at each distance. Cut the others off at the ground with scissors."
              " Pulling tears the roots of their neighbors."),
            _("Do it in two steps to be safe. Thin to half the distance first, and a week or two later to"
              " all of it. So slugs and birds do not leave a gap."),
            _("Water again, and press the soil down around those that stay."),
            _("The small leaves of lettuce, beet and radish are good to eat. Wash them first. Never eat"
              " leaves of tomato, potato or rhubarb: they are poisonous."),
        ],
        numbered=True,
    )  # fmt: skip
    rows = [_row(crop, place) for crop in crops]
    page.table(
        rows,
        titles=(_("Crop"), _("Sown apart"), _("Thin when"), _("Leave one every"), _("About when here")),
        shares=(2.8, 1.4, 2.4, 1.7, 2),
        name=_("Distances and dates"),
    )
    if rows:
        page.quiet(_("The dates are for the first sowing. If you sow again later, thin that row later, too."))
        page.points([_worked(_shown(crops) or crops[0], place), _kept(place)])
    elif place.crops:
        page.text(_("No chosen crop needs thinning: they are sown or set at their final distance."))
    else:
        page.text(local.no_crops())
        page.writing_lines(8)


def _thinned(crops: Sequence[PlaceCrop]) -> list[PlaceCrop]:
    """Those that are sown in the bed, closer than they stand in the end."""
    return [one for one in crops if needs_thinning(one.facts) and one.facts.method is not Method.TRANSPLANT]


def _drawing(page: Page, place: Place, crops: Sequence[PlaceCrop]) -> None:
    shown = _shown(crops)
    close = (shown and shown.facts.seedling_spacing_m) or _SOWN_M
    final = (shown and shown.facts.spacing_m) or _FINAL_M

    def draw(width: float) -> Drawing:
        from schedules.reports.seed_rows import Tick, thinned  # lazy: reportlab

        us = ground.is_us(place)
        step = next(one for one in _steps(us=us) if 6 * final <= 7 * one)
        count = max(2, round(6 * final / step))
        ticks = [
            Tick(n * step, quantity_text(n * step, Quantity.SHORT_LENGTH, place.units))
            for n in range(1, count + 1)
        ]
        return thinned(close, final, ticks, width)

    words = {
        "close": quantity_text(close, Quantity.SHORT_LENGTH, place.units),
        "final": quantity_text(final, Quantity.SHORT_LENGTH, place.units),
    }
    alt = _("A row as it came up, %(close)s apart, with strokes through what is cut; and as it is left, one"
            " every %(final)s.") % words  # fmt: skip
    page.chart(draw, alt)
    page.quiet(f"{shown.name}. {alt}" if shown else alt)


def _shown(crops: Sequence[PlaceCrop]) -> PlaceCrop | None:
    """The crop that stands closest, of those whose two distances can both be seen in one drawing."""
    fit = [one for one in crops if 2 <= _ratio(one) <= 5]
    return min(fit, key=lambda one: one.facts.spacing_m or _FINAL_M, default=None)


def _kept(place: Place) -> str:
    """Those sown where they stay, which people ask about."""
    told = [
        f"{crop.name} ({apart})"
        for crop in place.crops
        if crop.facts.method in (Method.DIRECT, Method.EITHER)
        and not needs_thinning(crop.facts)
        and (apart := local.sown_apart(crop.facts, place))
    ]
    if not told:
        return ""
    return _(
        "Sow these at the distance at which they stay, and you need not thin them: %(crops)s. Cut some out"
        " only where many came up in a heap."
    ) % {"crops": ground.named(told)}


def _steps(*, us: bool) -> Sequence[float]:
    return [
        n * (METRES_PER_INCH if us else 0.01) for n in ((1, 2, 4, 6, 12, 24) if us else (1, 2, 5, 10, 20, 50))
    ]


def _ratio(crop: PlaceCrop) -> float:
    return (crop.facts.spacing_m or 0.0) / (crop.facts.seedling_spacing_m or 1.0)


def _row(crop: PlaceCrop, place: Place) -> tuple[str, ...]:
    facts = crop.facts
    return (
        crop.name,
        quantity_text(facts.seedling_spacing_m or 0.0, Quantity.SHORT_LENGTH, place.units),
        thin_text(facts.thin_when, place.units) or _("the first true leaves show"),
        quantity_text(facts.spacing_m or 0.0, Quantity.SHORT_LENGTH, place.units),
        local.span(local.first_window(crop, Operation.THIN), place),
    )


def _worked(crop: PlaceCrop, place: Place) -> str:
    """How many plants of a row stay."""
    row = place.bed.length_m
    sown = plants_in_row(row, crop.facts.seedling_spacing_m or _SOWN_M)
    kept = plants_in_row(row, crop.facts.spacing_m or _FINAL_M)
    return _(
        "An example: in a row of %(length)s of %(crop)s up to %(sown)d seedlings come up. Only %(kept)d of"
        " them stay."
    ) % {
        "crop": crop.name,
        "length": quantity_text(row, Quantity.LENGTH, place.units),
        "sown": sown,
        "kept": kept,
    }


def questions(place: Place) -> Sequence[Question]:
    """How it is done, and how many stay."""
    found = [
        Question(
            _("What is the gentlest way to thin a row?"),
            (_("pull every other seedling"), _("cut the surplus off at the ground"), _("rake the row")),
            1,
            _("Pulling tears the roots of those that stay."),
        )
    ]
    crops = _thinned(place.crops)
    if crops:
        crop = max(crops, key=_ratio)
        right = crop.facts.spacing_m or _FINAL_M
        lengths = [
            quantity_text(share * right, Quantity.SHORT_LENGTH, place.units) for share in (0.5, 1.0, 2.0)
        ]
        found.append(
            Question(
                _("How far apart are plants of %(crop)s left?") % {"crop": crop.name},
                tuple(lengths),
                1,
                _("That is the room a full-grown plant takes."),
            )
        )
    return found


TOPIC = Topic(
    code="thinning",
    name=gettext_lazy("Thinning"),
    about=gettext_lazy("Why some seedlings have to go, which ones, when, and how far apart the others stay."),
    write=write,
    questions=questions,
    sources=(
        *local.CROP_SOURCES,
        "University of Florida IFAS Extension, Northwest District: Thinning vegetable seedlings (2014).",
        "Leaves that are poisonous: value from memory, extension pages on rhubarb and potatoes.",
        "Growing Together (Forum News Service), The importance of thinning garden vegetables (2016).",
    ),
    own=Own(
        gettext_lazy("My own rows"),
        {
            gettext_lazy("Crop"): 2.6,
            gettext_lazy("Came up"): 1.4,
            gettext_lazy("Thinned"): 1.4,
            gettext_lazy("Left one every"): 1.6,
            gettext_lazy("How it went"): 2.4,
        },
    ),
)
