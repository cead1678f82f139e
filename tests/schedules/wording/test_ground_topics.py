"""The sums on the sheets about the ground are those that published pages work out for such a bed."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta

from crops.catalogue import load_catalogue
from schedules.place import Bed, Place, PlaceCrop
from schedules.reports.document import Caution, Document, Grid, Head, Heading, Page, Points, Text
from schedules.scouting import Advice
from schedules.wording.topics import TOPICS, local
from tests.schedules.wording.topic_places import TODAY, places


def sheet(code: str, place: Place | None = None) -> Document:
    """For a bed of 4 by 8 feet, 32 square feet, with a hose of 15 litres a minute."""
    place = place or places()["of a record"]
    page = Page(Head(place.name, code, "letter", "en", TODAY), titled=False)
    TOPICS[code].add_to(page, place)
    return page.document()


def grid(document: Document, name: str) -> list[tuple[str, ...]]:
    found = next(block for block in document.blocks if isinstance(block, Grid) and block.name == name)
    return [tuple(cell.replace("\xa0", " ") for cell in row) for row in found.rows]


def words(document: Document) -> str:
    """All running text of a sheet."""
    parts = []
    for block in document.blocks:
        if isinstance(block, (Text, Heading, Caution)):
            parts.append(block.text)
        elif isinstance(block, Points):
            parts += block.items
    return " ".join(parts).replace("\xa0", " ")


def test_an_inch_of_water() -> None:
    """0.6234 gallons to the square foot (Purdue Landscape Report): 19.9; at 15 L a minute 5.0 minutes."""
    rows = grid(sheet("water"), "Water for this bed")
    assert rows[1] == ("1 in", "20 gal", "10", "5")
    metric = grid(sheet("water", replace(places()["metric"], hoses=())), "Water for this bed")
    assert metric[1] == ("25 mm", "72 L", "8")
    # Without a timed hose: 19.95 gal at 5 gal in 60 seconds.
    assert "full in 60 seconds: 4 minutes" in words(
        sheet("water", replace(places()["of a record"], hoses=()))
    )


def test_bags_for_a_bed() -> None:
    """A tenth of a pound of N: 1 lb of 10-10-10 to 100 sq ft, 0.476 lb of 21-0-0 (CSU GardenNotes 711)."""
    rows = {row[0]: row[1:] for row in grid(sheet("feeding"), "Bags for this bed")}
    assert rows["10-10-10"] == ("5.1 oz", "0.5 oz", "0.5 oz", "0.5 oz")  # 0.32 lb
    assert rows["21-0-0"][0] == "2.4 oz"  # 0.476 x 0.32 lb
    assert rows["5-10-5"] == ("10.2 oz", "0.5 oz", "1 oz", "0.5 oz")  # the same N, twice the phosphate
    assert "1.3 oz for a row of 8 ft" in words(sheet("feeding"))  # 1 lb to 100 ft (CSU 7.611)


def test_volumes_for_a_bed() -> None:
    """A 4 by 8 foot bed a foot deep takes 32 cubic feet, 1.185 cubic yards (BiologyInsights)."""
    rows = {row[0]: row[1:] for row in grid(sheet("kinds-of-garden"), "Filling the frame")}
    assert rows["12 in"] == ("1.2 cu yd", "11 cu ft", "32")
    # A cubic yard covers 324 square feet an inch deep (Jeperdue Landscaping).
    compost = {row[0]: row[1:] for row in grid(sheet("compost"), "Compost for this bed")}
    assert compost["1 in"] == ("2.7 cu ft", "3", "324 sq ft")


def test_manure_counts_back_from_this_gardens_first_harvest() -> None:
    """120 days where the edible part touches the soil, 90 where not (7 CFR 205.203)."""
    assert ("Swiss chard", "June 4", "February 4") in grid(sheet("compost"), "Last days for raw manure")
    # Garlic stands from autumn on: manure is dug in before it is set, long before it has 120 days left.
    garlic = next(one for one in places()["of a record"].crops if one.facts.slug == "garlic")
    set_on = min(one.earliest for one in garlic.windows if one.operation == "sow" and one.earliest)
    assert local.last_manure(garlic) == set_on - timedelta(days=1)
    without = words(sheet("compost", places()["without anything"]))
    assert "Count back 120 days" in without
    assert "90 where it does not" in without


def test_frosts_part_the_crops_that_are_picked_before_them() -> None:
    """By the cold that kills each (fixtures/catalogue/crops.csv): potato 28 °F, carrot 22, basil 35."""
    facts = load_catalogue().crops
    crops = tuple(PlaceCrop(facts[one], facts[one].name, ()) for one in ("carrot", "basil", "potato"))
    place = replace(places()["of a record"], crops=crops)
    text = words(sheet("closing", place))
    assert "The first frost kills these: Basil." in text
    hard = place.freeze[1].first[50]
    assert f"as cold as 28 °F, here by {hard:%B} {hard.day} in half of the years: Potato." in text
    assert "Harder frost does not kill these, so they may stay longer: Carrot." in text


def test_two_tables_for_lime_stand_side_by_side() -> None:
    """5 and 8 lb to 100 square feet for the same loam: neither is taken, the report decides."""
    rows = grid(sheet("soil"), "Two tables for lime")
    assert [row[1] for row in rows] == ["1.6 lb", "2.56 lb"]
    lead = grid(sheet("soil"), "Lead, by one laboratory")
    assert [row[1] for row in lead] == ["low", "moderate", "high", "very high"]
    text = words(sheet("soil"))
    assert "12 places" in text
    assert "8 to 10" in text
    assert "2 to 3 years; other sources say 3 to 5" in text
    assert "Ohio State University" in text


def test_the_plan_counts_what_it_draws() -> None:
    document = sheet("bed-plan", places()["without crops"])
    rows = {row[0]: row[1:] for row in grid(document, "Plants on this bed")}
    assert rows["Tomato"][:2] == ("24 in", "24 in")
    assert rows["Tomato"][2:4] == ("1", "4")  # 8 feet at 2 feet
    assert all(int(plants) > 0 for _apart, _between, _rows, plants, _seeds in rows.values())
    wide = words(sheet("bed-plan", replace(places()["without crops"], bed=Bed(5.0, 12.0))))
    assert "room for 4 beds" in wide  # of 0.9 m, with paths of 0.45 m
    south = words(sheet("bed-plan", places()["southern"]))
    assert "Tall crops stand to the south" in south


def test_the_gardens_own_guidance_comes_before_anything_stronger() -> None:
    own = (Advice("aphids", tolerate="few and ladybugs near", by_hand="a jet of water", ask="Ida"),)
    rows = grid(sheet("pests", replace(places()["metric"], guidance=own)), "What this garden advises")
    assert rows == [("aphids", "few and ladybugs near", "a jet of water", "Ida")]
    assert "Whom to ask" in words(sheet("pests", places()["of a guest with one date"]))


def test_a_family_comes_back_after_full_years() -> None:
    """Two or three years without it (Iowa State): what stood there in 2026 comes back in 2029 or 2030."""
    assert "in 2026 comes back in 2029 or, better, 2030" in words(sheet("closing"))
