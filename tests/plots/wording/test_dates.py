"""A date of the garden in sentences."""

from datetime import date

from plots.dates import Certainty, GardenDay
from plots.wording.dates import told


def test_a_date_is_told_in_sentences_each_with_one_mark_at_its_end() -> None:
    day = GardenDay(
        "w", "workshop", "Workshop: When do I plant this here?", date(2026, 5, 16), place="the library"
    )
    assert told(day) == "Workshop: When do I plant this here? The library"
    rain = GardenDay(
        "r", "workday", "Rain date: Paths", date(2026, 5, 16), place="the shed.", note="bring gloves",
        certainty=Certainty.IF_RAIN,
    )  # fmt: skip
    assert told(rain) == "Rain date: Paths. Only if the first day is rained off. The shed. Bring gloves"
    assert told(GardenDay("o", "opens", "The garden opens", date(2026, 4, 1))) == "The garden opens"
