"""The catalogue's tables: all of them read, in SI units, and wrong ones refused with their place."""

import shutil
from dataclasses import fields

import pytest

from crops.catalogue import FOLDER, CatalogueError, FactBasis, load_catalogue
from crops.facts import CountedFrom, CropFacts, EmergencePoint, Hardiness, Method
from crops.sheet import FACT_FIELDS, LINES, NUMBERS, flaws

CATALOGUE = load_catalogue()


def test_all_crops_are_there_with_their_kind():
    assert len(CATALOGUE.crops) == 56
    assert CATALOGUE.crops["tomato"].hardiness == Hardiness.VERY_TENDER
    assert CATALOGUE.crops["garlic"].method == Method.VEGETATIVE


def test_published_units_become_si():
    carrot = CATALOGUE.crops["carrot"]

    assert carrot.sow_depth_m == 0.00635
    assert carrot.row_spacing_m == 0.4572
    assert (carrot.soil_min_c, carrot.kill_c) == (4.4, -5.6)
    assert carrot.maturity_from == CountedFrom.SOW
    assert CATALOGUE.crops["tomato"].container_litres == 11.356235352
    assert CATALOGUE.crops["carrot"].height_m == 0.3048


def test_blank_cells_are_unknown_not_zero():
    garlic = CATALOGUE.crops["garlic"]

    assert garlic.soil_min_c is None
    assert (garlic.sow_weeks_early, garlic.autumn_weeks_early, garlic.autumn_weeks_late) == (None, -2, 4)
    assert not garlic.perennial


def test_a_crop_carries_the_cells_that_were_tested():
    lima = CATALOGUE.crops["bean-lima"]

    assert lima.emergence[0] == EmergencePoint(celsius=10.0, days=None)
    assert [point.celsius for point in lima.emergence] == [10.0, 15.0, 20.0, 25.0, 30.0, 35.0]


def test_no_crop_of_the_catalogue_contradicts_itself_or_its_bounds():
    for crop in CATALOGUE.crops.values():
        assert list(flaws(crop)) == []
        for name, line in LINES.items():
            value = getattr(crop, name)
            if line.measure in NUMBERS and value is not None:
                assert line.lowest <= value <= line.highest, (crop.slug, name)


def test_the_sheet_holds_every_fact_once():
    identity = {"slug", "name", "botanical_name", "family", "emergence_key", "emergence"}

    assert set(FACT_FIELDS) == {field.name for field in fields(CropFacts)} - identity
    assert len(FACT_FIELDS) == len(set(FACT_FIELDS))


def test_every_known_fact_says_where_it_comes_from():
    quiet = {"emergence_key", "slug", "name", "botanical_name", "family", "emergence"}
    for slug, crop in CATALOGUE.crops.items():
        cited = {name for row in CATALOGUE.provenance[slug] for name in row.fields}
        known = {
            field.name
            for field in fields(CropFacts)
            if field.name not in quiet and getattr(crop, field.name) not in (None, "", False)
        }
        assert known <= cited, (slug, known - cited)


def test_what_was_seen_names_its_pages_and_what_is_remembered_says_so():
    for rows in CATALOGUE.provenance.values():
        for row in rows:
            assert bool(row.source_ids) == (row.basis != FactBasis.MEMORY)
            assert bool(row.memory_note) == (row.basis != FactBasis.SEEN)


def test_rival_limits_stay_apart():
    bean = {row.source_id: (row.min_c, row.max_c) for row in CATALOGUE.limits["bean-snap"]}

    assert bean["OSU-HARR"] == (15.6, 35.0)
    assert {row.source_id for row in CATALOGUE.limits["celery"]} == {"UC-GN154", "GRIT-GERM", "MEM-KNOTT"}


def test_sources_have_titles():
    assert CATALOGUE.sources["OSU-HARR"].publisher == "Oregon State University Extension"
    assert all(source.title for source in CATALOGUE.sources.values())


@pytest.fixture
def folder(tmp_path):
    return shutil.copytree(FOLDER, tmp_path / "catalogue")


@pytest.mark.parametrize(
    ("file", "old", "new", "message"),
    [
        ("crops.csv", "Solanaceae,very-tender", "Solanaceae,delicate", "hardiness cannot be 'delicate'"),
        ("crops.csv", "arugula,Arugula", "basil,Arugula", "basil is there twice"),
        ("crops.csv", "hardy,direct,0.25", "hardy,direct,shallow", "sow_depth_in cannot be 'shallow'"),
        ("crops.csv", ",cabbage,", ",cabbages,", "emergence_key names 'cabbages', which is nowhere"),
        ("crops.csv", "fall_crop", "autumn_crop", "the column fall_crop is missing"),
        ("emergence.csv", "50,53,,61", "50,53,NG,61", "days and NG exclude each other"),
        ("germination_limits.csv", "OSU-HARR", "OSU-HAR", "source_id names 'OSU-HAR'"),
        ("crops_provenance.csv", "germ,days_emerge_opt", "germ,days_up", "fields names 'days_up'"),
        ("crops_provenance.csv", "arugula,germ", "rocket,germ", "slug names 'rocket'"),
        ("sources.csv", "\nHDF,", "\nOSU-HARR,", "OSU-HARR is there twice"),
        ("sources.csv", "\nHDF,", "\nHDF,more,", "not as many cells as there are columns"),
    ],
)  # fmt: skip
def test_a_wrong_cell_is_refused_with_its_place(folder, file, old, new, message):
    table = folder / file
    text = table.read_text(encoding="utf-8")
    assert old in text
    table.write_text(text.replace(old, new, 1), encoding="utf-8")

    with pytest.raises(CatalogueError) as refusal:
        load_catalogue(folder)

    assert message in str(refusal.value)
    assert str(refusal.value).startswith(f"{file}, line ")


def test_a_missing_table_is_named(tmp_path):
    with pytest.raises(CatalogueError, match=r"sources\.csv cannot be read"):
        load_catalogue(tmp_path)
