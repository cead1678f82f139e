"""Harvest and washing: when picking begins here, clean hands and water, the waiting time of manure."""

from __future__ import annotations

from collections.abc import Sequence

from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from crops.manure import DAYS_OFF_THE_SOIL, DAYS_TOUCHING_SOIL, latest_manure
from crops.wording.cautions import RESTS_ON, Hazard
from schedules.entries import SHOWN_IN_TABLES, spans_of_turn
from schedules.place import Place, PlaceCrop
from schedules.reports.document import Page
from schedules.windows import Operation, Turn
from schedules.wording.topics import ground, local
from schedules.wording.topics.topic import Own, Question, Topic

_HAZARDS = (Hazard.RAW_MANURE, Hazard.SICK, Hazard.INTERVAL, Hazard.GIVING)
_COLD = (40, 4)  # °F and °C: North Dakota State University Extension


def write(page: Page, place: Place) -> None:
    """Before, while and after picking; then the dates with the last day for raw manure."""
    page.heading(_("Before you pick"))
    page.points(
        [
            _("Wash your hands with soap. Use clean baskets and knives, and keep them apart from tools."),
            _("Was something sprayed or spread on the plot? Its label says how many days to wait."),
        ]
    )
    page.heading(_("While you pick"))
    page.points(
        [
            _(
                "Pick in the cool of the morning, when the dew has dried. Put what you pick in the shade"
                " at once."
            ),
            _("Pick often. Beans, cucumber, zucchini and peas stop bearing when old ones stay on the plant."),
            _("Cut or twist; do not tear. If you leave the roots of leaf crops in, many grow again."),
            _(
                "Do not eat what an animal chewed on or soiled, or what lay in flood water or other dirty"
                " water."
            ),
            _("Weigh or count what you picked, and write it down before it leaves the garden."),
        ]
    )
    page.heading(_("Washing and keeping"))
    cold = ground.warm_text(place, *_COLD)
    page.points(
        [
            _("Shake and brush the soil off outside. Do not wash what you will store: wet food rots."),
            _("Wash food just before you eat or cook it, under running drinking water. Rub it with your"
              " hands, or brush what is firm. Wash what you will peel, too. Use no soap and no bleach."),
            _("Swish leaves in clean water and lift them out, so that the grit stays behind. Then rinse"
              " them, and dry them in a clean cloth."),
            _("Put cut food into the refrigerator within two hours, at %(cold)s or colder.")
            % {"cold": cold},
            _("Keep tomato, potato, onion, garlic and winter squash out of the refrigerator. Keep potatoes in"
              " the dark, and do not eat green ones: they are poisonous."),
        ]
    )  # fmt: skip
    _dates(page, place)
    ground.warn(page, _HAZARDS)


def _dates(page: Page, place: Place) -> None:
    """Picking here, and the last day on which raw manure may have gone on."""
    rows = [row for crop in place.crops if (row := _row(crop, place))]
    page.heading(_("When crops are picked here"), room=140)
    if not rows:
        page.text(
            _("Write down when you begin to pick. Raw manure must have gone on %(far)d days before that where"
              " the crop touches the soil, %(near)d days where it does not.")
            % {"far": DAYS_TOUCHING_SOIL, "near": DAYS_OFF_THE_SOIL}
        )  # fmt: skip
        page.writing_lines(4)
        return
    page.table(
        rows,
        titles=(_("Crop"), _("Picked"), _("Picked, sown for autumn"), _("Last day for raw manure")),
        shares=(2.6, 2.1, 2.4, 2.6),
        close=len(rows) > local.ROOMY_ROWS,
    )
    page.quiet(
        _("Last day for raw manure: %(far)d days before the first picking, or the day before sowing or"
          " setting if that is earlier.")
        % {"far": DAYS_TOUCHING_SOIL}
    )  # fmt: skip


def _row(crop: PlaceCrop, place: Place) -> tuple[str, ...]:
    last = local.last_manure(crop)
    if last is None:
        return ()
    picked = (spans_of_turn(crop.windows, turn)[SHOWN_IN_TABLES.index(Operation.HARVEST)] for turn in Turn)
    return (
        crop.name,
        *(local.days(one.earliest, one.latest, place) if one else "" for one in picked),
        local.short(last, place),
    )


def questions(place: Place) -> Sequence[Question]:
    """Water without soap, and the days of raw manure."""
    found = [
        Question(
            _("How is lettuce washed?"),
            (
                _("with a little dish soap"),
                _("under running drinking water"),
                _("with water from the rain barrel"),
            ),
            1,
            _("Soap soaks into leaves, and barrel water carries germs."),
        )
    ]
    picked = ((one, local.first_picked(one)) for one in place.crops)
    crop, first = next(((one, day) for one, day in picked if day), (None, None))
    if crop is None or first is None:
        days = (DAYS_OFF_THE_SOIL // 3, DAYS_OFF_THE_SOIL, DAYS_TOUCHING_SOIL)
        found.append(
            Question(
                _("How long before picking carrots must raw manure have gone on?"),
                tuple(_("%(count)d days") % {"count": one} for one in days),
                2,
                _("Carrots touch the soil, so it is the longer time."),
            )
        )
        return found
    found.append(
        local.date_question(
            _("By when must raw manure be on, if %(crop)s touches the soil and is picked from %(day)s?")
            % {"crop": crop.name, "day": local.day(first)},
            latest_manure(first, touches_soil=True),
            _("That is %(count)d days before.") % {"count": DAYS_TOUCHING_SOIL},
        )
    )
    return found


TOPIC = Topic(
    code="harvest-and-washing",
    name=gettext_lazy("Harvest and washing"),
    about=gettext_lazy(
        "Clean picking, washing and keeping, with the dates from which crops are picked here."
    ),
    write=write,
    questions=questions,
    sources=(
        "University of Maine Cooperative Extension: Harvesting garden produce. University of Idaho Extension:"
        " Growing food safely in Idaho school gardens (BUL 937).",
        "; ".join(dict.fromkeys(RESTS_ON[one] for one in (*_HAZARDS, Hazard.WASHING))) + ".",
        "Green potatoes: value from memory, extension pages on potatoes.",
    ),
    own=Own(
        gettext_lazy("My own harvest"),
        {
            gettext_lazy("Date"): 1.2,
            gettext_lazy("Crop"): 2.4,
            gettext_lazy("How much"): 1.5,
            gettext_lazy("Given away"): 1.5,
            gettext_lazy("Notes"): 2.4,
        },
    ),
)
