"""What can hurt someone in growing or eating a crop: the usual caution, and whose it is."""

from __future__ import annotations

from dataclasses import dataclass

from django.utils.translation import gettext as _

from crops.facts import CropFacts


@dataclass(frozen=True, slots=True)
class Caution:
    """One caution for the reader, and the page it rests on or that it is from memory."""

    text: str
    rests_on: str


def cautions(facts: CropFacts) -> list[Caution]:
    """The cautions that a crop's page shows, the crop's own first."""
    found = []
    if facts.slug == "potato":
        found.append(
            Caution(
                _("Do not eat green or sprouting potatoes, nor the berries: they hold a poison."),
                _("value from memory: extension pages on potatoes"),
            )
        )
    if facts.slug.startswith("bean-"):
        found.append(
            Caution(
                _("Beans out of the pod are eaten cooked through, never raw."),
                _("value from memory: extension pages on beans"),
            )
        )
    if facts.indoor_weeks_high:
        found.append(
            Caution(
                _(
                    "Potting mix dust can carry Legionella: dampen the mix, open the bag away from the face, "
                    "wear gloves, wash your hands. If you are older, smoke or are often ill, ask a doctor."
                ),
                _("Workplace Health & Safety Queensland; WA Health (Australia)"),
            )
        )
    found.append(
        Caution(
            _(
                "Raw manure goes on at least 120 days before the harvest where the edible part touches the "
                "soil, 90 days where it does not; the garden’s rules and local law may ask for more."
            ),
            _("7 CFR 205.203, for certified organic farms"),
        )
    )
    return found
