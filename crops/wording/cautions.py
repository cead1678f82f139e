"""What can hurt someone in a garden: the usual caution, and what it rests on.

Every line defers: to the label, the laboratory's report, local law and codes, and to physicians, plumbers,
extension offices and health departments. None says that anything is safe.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from crops.facts import CropFacts


class Hazard(StrEnum):
    """What a caution is about."""

    LEAD = "lead"
    LEAD_TABLES = "lead tables"
    DUST = "dust"
    SITE_HISTORY = "site history"
    TREATED_WOOD = "treated wood"
    BURIED_LINES = "buried lines"
    LABEL = "label"
    INTERVAL = "interval"
    ORGANIC = "organic"
    LICENCE = "licence"
    RAW_MANURE = "raw manure"
    COOL_HEAP = "cool heap"
    CARRY_OVER = "carry-over"
    TOO_MUCH = "too much"
    PHOSPHORUS_LAW = "phosphorus law"
    LIME = "lime"
    POTTING_DUST = "potting dust"
    TETANUS = "tetanus"
    HEAT = "heat"
    STINGS = "stings"
    TOOLS = "tools"
    CHILDREN = "children"
    ALONE = "alone"
    WASHING = "washing"
    SICK = "sick"
    GIVING = "giving"
    WATER_SOURCE = "water source"
    RAIN_BARREL = "rain barrel"
    BACKFLOW = "backflow"
    BLIGHT = "blight"
    WASTE = "waste"
    REACH = "reach"
    ESTIMATES = "estimates"


@dataclass(frozen=True, slots=True)
class Caution:
    """One caution for the reader, and the page it rests on or that it is from memory."""

    text: str
    rests_on: str


_TEXTS = {
    Hazard.LEAD: gettext_lazy(
        "Have the soil tested for total lead before you grow food near old paint, busy roads or former"
        " industry. Go by the laboratory’s own reading. If it is high, call the health department or the"
        " extension office before you plant."
    ),
    Hazard.LEAD_TABLES: gettext_lazy(
        "Tables for lead differ by laboratory, by kind of test and by year. Never read one laboratory’s"
        " figure on another’s table, nor a weak-acid figure on a table for total lead."
    ),
    Hazard.DUST: gettext_lazy(
        "Most lead gets into people as swallowed soil and dust: keep soil covered, mulch the paths, wash"
        " hands, peel roots and drop outer leaves."
    ),
    Hazard.SITE_HISTORY: gettext_lazy(
        "Find out what stood here and next door before you choose a place. If you suspect contamination,"
        " go elsewhere, or ask an environmental professional first."
    ),
    Hazard.TREATED_WOOD: gettext_lazy(
        "Keep railway ties, and lumber treated with arsenic (sold until about 2004), away from food. Newer"
        " treated lumber is generally judged acceptable; ask your garden and, if it is certified, the"
        " certifier. Never burn treated wood."
    ),
    Hazard.BURIED_LINES: gettext_lazy(
        "Pipes and cables lie under many yards and lots. Have the local utility-locating service mark them"
        " before you dig deep or drive posts."
    ),
    Hazard.LABEL: gettext_lazy(
        "The label is the law: a product may be used only on the crops and places, and in the amounts, that"
        " its label names. This sheet names no product and no dose."
    ),
    Hazard.INTERVAL: gettext_lazy(
        "Keep to the days before picking, and to the time before going back in, that the label in hand"
        " states; write the day down."
    ),
    Hazard.ORGANIC: gettext_lazy(
        "What is sold as organic can be poisonous too. Ask the coordinator before anything is sprayed or"
        " dusted in a shared garden, and tell the neighbors."
    ),
    Hazard.LICENCE: gettext_lazy(
        "In some places whoever treats crops that are given away needs a license. Ask the pesticide"
        " regulator."
    ),
    Hazard.RAW_MANURE: gettext_lazy(
        "Raw manure goes on at least 120 days before the harvest where the edible part touches the soil, 90"
        " days where it does not; the garden’s rules and local law may ask for more. Never use the"
        " droppings of pets."
    ),
    Hazard.COOL_HEAP: gettext_lazy(
        "Manure out of a heap that was not kept hot by the rule counts as raw."
    ),
    Hazard.CARRY_OVER: gettext_lazy(
        "Hay, straw, manure and compost can carry weed killer that stunts a crop. Ask who made it, and grow"
        " peas or beans in a pot of it for two or three weeks first."
    ),
    Hazard.TOO_MUCH: gettext_lazy(
        "More is not better. Put on nothing that the soil test does not ask for, and weigh it. Too much"
        " phosphorus pollutes water and keeps zinc and iron from plants."
    ),
    Hazard.PHOSPHORUS_LAW: gettext_lazy(
        "Many places restrict fertilizer with phosphorus; some let food gardens use it. Look up the local"
        " rule."
    ),
    Hazard.LIME: gettext_lazy(
        "Lime only by a current test, and a large amount in parts. Ash only on acid soil, never of treated"
        " wood or coal. Wear gloves, goggles and a dust mask."
    ),
    Hazard.POTTING_DUST: gettext_lazy(
        "Potting mix dust can carry Legionella: dampen the mix, open the bag away from the face, wear"
        " gloves, wash your hands. If you are older, smoke or are often ill, ask a doctor."
    ),
    Hazard.TETANUS: gettext_lazy(
        "Ask your clinician whether your tetanus shot is current; clean every wound, and have a deep or"
        " dirty one looked at."
    ),
    Hazard.HEAT: gettext_lazy(
        "In heat, drink every 15 to 30 minutes, rest in the shade, work early or late and in pairs. Someone"
        " who is confused or collapses needs the emergency number at once."
    ),
    Hazard.STINGS: gettext_lazy(
        "Cover up, use repellent by its label, empty standing water, report nests. Who is allergic carries"
        " their own medicine and says so."
    ),
    Hazard.TOOLS: gettext_lazy(
        "Wear gloves and sturdy shoes, lay tools with their points down. Only adults who are willing and"
        " able run power tools."
    ),
    Hazard.CHILDREN: gettext_lazy(
        "An adult stays with every child. Blades and chemicals are locked away."
    ),
    Hazard.ALONE: gettext_lazy(
        "If you work alone, tell someone, carry a phone, and know the garden’s street address."
    ),
    Hazard.WASHING: gettext_lazy(
        "Rinse produce under running drinking water just before it is used; brush what is firm; no soap and"
        " no bleach. Keep cut produce at 40 °F (4 °C), within two hours."
    ),
    Hazard.SICK: gettext_lazy(
        "Who vomits, has diarrhea or an open cut does not pick for others. Wash hands first."
    ),
    Hazard.GIVING: gettext_lazy(
        "Before you give food away, call: ask what the pantry takes and whether to rinse it. Bring it fresh,"
        " dry and sound. What protects donors has its limits."
    ),
    Hazard.WATER_SOURCE: gettext_lazy(
        "Water food crops with tap water, or from a well that is tested every year; not from ponds and"
        " streams."
    ),
    Hazard.RAIN_BARREL: gettext_lazy(
        "Advice on roof water for food is divided. If it is used, then on the soil and in the morning, never"
        " on what is eaten, and never to wash with."
    ),
    Hazard.BACKFLOW: gettext_lazy(
        "A hose with a sprayer, a feeder, a barrel or a tank on it needs a backflow preventer, fitted as the"
        " water utility or a licensed plumber says."
    ),
    Hazard.BLIGHT: gettext_lazy(
        "If you suspect late blight or another disease that spreads fast, have a plant clinic confirm it,"
        " bag the plants, do not compost them, and tell the neighbors quickly."
    ),
    Hazard.WASTE: gettext_lazy(
        "Keep sick plants, seedy weeds, meat, dairy and the droppings of pets out of a shared heap."
    ),
    Hazard.REACH: gettext_lazy(
        "Published heights and widths disagree. Ask the gardener who will use the bed, and the building"
        " office what the law requires."
    ),
    Hazard.ESTIMATES: gettext_lazy("These are estimates. The weather and your soil come first."),
}  # fmt: skip

RESTS_ON: dict[Hazard, str] = {
    Hazard.LEAD: "US EPA residential lead directive, October 2025 (Harvard EELP tracker)",
    Hazard.LEAD_TABLES: "Ohio State University: Interpreting heavy metal results",
    Hazard.DUST: "University of Minnesota Extension: lead in gardens (as copied)",
    Hazard.SITE_HISTORY: "US EPA Brownfields: Steps to create a community garden",
    Hazard.TREATED_WOOD: "Extension columns on treated lumber; railway ties and burning partly from memory",
    Hazard.BURIED_LINES: "One-call services for buried utilities (value from memory)",
    Hazard.LABEL: "Rutgers Plant & Pest Advisory",
    Hazard.INTERVAL: "British Columbia Ministry of Agriculture: Pesticide restrictions; re-entry from memory",
    Hazard.ORGANIC: "City of Mary Esther: community garden rules",
    Hazard.LICENCE: "University of New Hampshire Extension: donated produce",
    Hazard.RAW_MANURE: "7 CFR 205.203, for certified organic farms; University of New Hampshire Extension",
    Hazard.COOL_HEAP: "7 CFR 205.203, for certified organic farms",
    Hazard.CARRY_OVER: "UF/IFAS AG416; Washington State University Whatcom County; Oregon State University",
    Hazard.TOO_MUCH: "University of Minnesota Extension: Over-fertilizing; UW-Extension Kenosha County",
    Hazard.PHOSPHORUS_LAW: "Clemson HGIC (as reposted); exemptions from memory",
    Hazard.LIME: "Penn State Agricultural Analytical Services Laboratory; K-State; gloves from memory",
    Hazard.POTTING_DUST: "Workplace Health & Safety Queensland; WA Health (Australia)",
    Hazard.TETANUS: "CDC: gardening health and safety tips (as copied)",
    Hazard.HEAT: "University of Missouri Extension G853; OSHA: Water. Rest. Shade.",
    Hazard.STINGS: "CDC: gardening health and safety tips (as copied)",
    Hazard.TOOLS: "CDC: gardening health and safety tips (as copied); power tools from memory",
    Hazard.CHILDREN: "Zanesville community garden rules; Los Angeles Community Garden Council",
    Hazard.ALONE: "Seattle P-Patch PP504",
    Hazard.WASHING: "North Dakota State University Extension; US FDA tips (as copied)",
    Hazard.SICK: "Penn State Extension educator column, 2017; University of Minnesota",
    Hazard.GIVING: "Michigan State University Extension; University of New Hampshire Extension",
    Hazard.WATER_SOURCE: "University of New Hampshire Extension",
    Hazard.RAIN_BARREL: "Rutgers FS1218; University of Illinois Extension",
    Hazard.BACKFLOW: "Cities of Bremerton and Iowa City; Truckee Meadows Water Authority",
    Hazard.BLIGHT: "USAblight.org; University of Massachusetts",
    Hazard.WASTE: "65th and Woodlawn and Nimmo community garden rules",
    Hazard.REACH: "American Community Gardening Association list, 2013; vtgardens.org",
    Hazard.ESTIMATES: "Penn State Extension, 2013; Purdue University",
}
"""As sources are printed; pages were seen unless it says from memory."""


def caution(hazard: Hazard) -> Caution:
    """The usual caution about a hazard, in the reader's language."""
    return Caution(str(_TEXTS[hazard]), RESTS_ON[hazard])


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
        found.append(caution(Hazard.POTTING_DUST))
    found.append(caution(Hazard.RAW_MANURE))
    return found
