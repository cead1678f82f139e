"""Words about pests and damage: the draft of a private word, and why a plot may be reached."""

from __future__ import annotations

from django.utils.translation import gettext as _
from django.utils.translation import ngettext, pgettext

from plots.quantities import Quantity
from plots.wording import quantity_text
from schedules.models import Guidance, Sighting, WorkLog
from schedules.reach import Reached


def word_draft(sighting: Sighting, advice: list[Guidance]) -> dict[str, str]:
    """What a carer may send to the people near by; they change it as they like."""
    crop = sighting.log.crop_grown
    words = {"thing": sighting.seen, "crop": str(crop) if crop else ""}
    lines = [_("Dear gardeners,"), ""]
    lines += [
        _("Seen on %(crop)s in the garden these days: %(thing)s. Please look at your own plants.") % words
        if crop
        else _("Seen in the garden these days: %(thing)s. Please look at your own plants.") % words
    ]
    for one in advice:
        steps = [one.signs, one.tolerate, one.prevent, one.by_hand, one.ask]
        lines += ["", _("What the garden advises:"), *(step for step in steps if step)]
    lines += [
        "",
        _("If you find it, tell us or log it with a photo. Nobody is to blame, and no answer is due."),
    ]
    return {"subject": _("Please look at your plants: %(thing)s") % words, "body": "\n".join(lines)}


def beside_text(log: WorkLog) -> str:
    """What a log tells beside its line: what was seen, on what and how much of it, or the product used."""
    if hasattr(log, "sighting"):
        seen = log.sighting
        what = pgettext("between the items of a list", ", ").join(filter(None, [seen.seen, seen.seen_on]))
        how_much = {"what": what, "how_much": seen.get_severity_display()}
        return _("%(what)s (%(how_much)s)") % how_much if seen.severity else what
    if hasattr(log, "treatment"):
        used = log.treatment
        words = {"product": used.product, "days": used.label_days}
        return (
            ngettext(
                "%(product)s: its label asks for %(days)d day before picking",
                "%(product)s: its label asks for %(days)d days before picking",
                used.label_days,
            )
            % words
        )
    return ""


def reach_text(reach: Reached | None, units: str) -> str:
    """Why a plot may be reached."""
    if reach is None:
        return _("where it was seen")
    why = []
    if reach.metres is not None:
        distance = quantity_text(round(reach.metres, 1), Quantity.LENGTH, units)
        why.append(_("%(distance)s away") % {"distance": distance})
    if reach.families:
        why.append(_("grows %(family)s, too") % {"family": ", ".join(sorted(reach.families))})
    return ", ".join(why)
