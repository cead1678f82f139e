"""Reads whose number of queries does not grow with the rows."""

import pytest

from crops.models import EmergenceReading, FactSource, GerminationLimit, SeedTable, Source
from crops.queries import (
    crops_for,
    crops_with_varieties,
    fact_sources_of,
    germination_of,
    plantings_with_facts,
    varieties_for,
)
from crops.service import remove_planting
from tests.factories import CropFactory, GardenFactory, PlantingFactory, VarietyFactory


def crop_with_table(number):
    source = Source.objects.create(key=f"S{number}", title="A table")
    table = SeedTable.objects.create(key=f"table-{number}")
    EmergenceReading.objects.create(table=table, source=source, celsius=20.0, days=6.0)
    return CropFactory(emergence_table=table)


@pytest.mark.parametrize("rows", [1, 3])
def test_crops_with_their_facts_take_two_queries(cast, rows, django_assert_num_queries):
    for number in range(rows):
        crop_with_table(number)

    with django_assert_num_queries(2):
        assert [crop.facts().emergence[0].days for crop in crops_for(cast.garden)] == [6.0] * rows


@pytest.mark.parametrize("rows", [1, 3])
def test_crops_with_varieties_take_three(cast, rows, django_assert_num_queries):
    for number in range(rows):
        VarietyFactory(garden=cast.garden, crop=crop_with_table(number))
        VarietyFactory(garden=GardenFactory(), crop=crop_with_table(number + 10))

    with django_assert_num_queries(3):
        named = [variety.name for crop in crops_with_varieties(cast.garden) for variety in crop.own_varieties]
    assert len(named) == rows


@pytest.mark.parametrize("rows", [1, 3])
def test_varieties_with_their_facts_take_two(cast, rows, django_assert_num_queries):
    for number in range(rows):
        VarietyFactory(garden=cast.garden, crop=crop_with_table(number))

    with django_assert_num_queries(2):
        assert [variety.facts().emergence[0].days for variety in varieties_for(cast.garden)] == [6.0] * rows


@pytest.mark.parametrize("rows", [1, 3])
def test_plantings_with_their_facts_take_six(cast, rows, django_assert_num_queries):
    for number in range(rows):
        crop = crop_with_table(number)
        variety = VarietyFactory(garden=cast.garden, crop=crop)
        PlantingFactory(plot=cast.plot, crop=crop)
        PlantingFactory(plot=cast.plot, crop=crop, variety=variety)

    with django_assert_num_queries(6):
        shown = [
            (planting.plot.garden.units, planting.facts().emergence[0].days, str(planting))
            for planting in plantings_with_facts(cast.garden)
        ]
    assert len(shown) == 2 * rows


def test_plantings_are_those_of_the_garden_that_were_not_removed(cast):
    kept = PlantingFactory(plot=cast.plot)
    remove_planting(PlantingFactory(plot=cast.plot), by=cast.holder)
    PlantingFactory()

    assert list(plantings_with_facts(cast.garden)) == [kept]


def test_a_garden_sees_the_catalogue_and_its_own_crops(cast):
    shared, own = CropFactory(name="A"), CropFactory(name="B", garden=cast.garden)
    CropFactory(garden=GardenFactory())

    assert list(crops_for(cast.garden)) == [shared, own]


@pytest.mark.parametrize("rows", [1, 3])
def test_sources_and_tables_of_a_crop_take_four(db, rows, django_assert_num_queries):
    crop = crop_with_table(0)
    crop.limits_table = crop.emergence_table
    for number in range(1, rows + 1):
        source = Source.objects.create(key=f"F{number}", title="A page")
        FactSource.objects.create(
            crop=crop, field_group="kill", fields=f"f{number}", basis="seen"
        ).sources.add(source)
        GerminationLimit.objects.create(table=crop.emergence_table, source=source, min_c=4.0)

    with django_assert_num_queries(4):
        cited = [source.key for group in fact_sources_of(crop) for source in group.sources.all()]
        readings, limits = germination_of(crop)
        titles = [row.source.title for row in (*readings, *limits)]
    assert len(cited) == rows
    assert len(titles) == rows + 1
