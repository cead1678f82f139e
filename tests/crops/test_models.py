"""Crops and varieties in the database: what cannot be is refused there too, and a variety's facts win."""

from dataclasses import replace

import pytest
from django.db import IntegrityError, transaction
from django.db.models import RestrictedError

from crops.facts import EmergencePoint, Hardiness
from crops.models import EmergenceReading, SeedTable, Source
from tests.factories import CropFactory, GardenFactory, PlantingFactory, VarietyFactory


@pytest.fixture
def table(db):
    source = Source.objects.create(key="TABLE", title="A table")
    table = SeedTable.objects.create(key="kale")
    for celsius, days, none_came_up in ((20.0, 6.0, False), (0.0, None, True), (5.0, None, False)):
        EmergenceReading.objects.create(
            table=table, source=source, celsius=celsius, days=days, none_came_up=none_came_up
        )
    return table


@pytest.mark.django_db
@pytest.mark.parametrize(
    "wrong",
    [
        {"sow_depth_m": -0.01},
        {"spacing_m": 200.0},
        {"soil_min_c": 99.0},
        {"maturity_days_low": 0},
        {"sun_hours_min": 25.0},
        {"soil_min_c": 20.0, "soil_max_c": 10.0},
        {"maturity_days_low": 80, "maturity_days_high": 70},
        {"hardiness": "delicate"},
        {"method": ""},
    ],
)
def test_impossible_crops_are_refused(wrong):
    with pytest.raises(IntegrityError):
        CropFactory(**wrong)


@pytest.mark.django_db
def test_a_crop_is_once_in_the_catalogue_and_once_in_a_garden():
    garden = GardenFactory()
    CropFactory(slug="kale")
    CropFactory(garden=garden, slug="own-kale")

    for again in ({"slug": "kale"}, {"garden": garden, "slug": "own-kale"}):
        with pytest.raises(IntegrityError), transaction.atomic():
            CropFactory(**again)


@pytest.mark.django_db
@pytest.mark.parametrize("own", [True, False])
def test_only_own_crops_have_own_addresses(own):
    with pytest.raises(IntegrityError):
        CropFactory(garden=GardenFactory() if own else None, slug="kale" if own else "own-kale")


@pytest.mark.django_db
def test_what_is_planted_is_not_deleted_from_under_it():
    planting = PlantingFactory()

    with pytest.raises(RestrictedError):
        planting.crop.delete()


@pytest.mark.django_db
def test_a_garden_goes_with_all_it_has():
    variety = VarietyFactory(garden=GardenFactory())
    crop = CropFactory(garden=variety.garden)
    PlantingFactory(plot__garden=variety.garden, crop=variety.crop, variety=variety)
    PlantingFactory(plot__garden=variety.garden, crop=crop)

    variety.garden.delete()

    assert type(variety).objects.count() == 0
    assert list(type(crop).objects.values_list("pk", flat=True)) == [variety.crop_id]


def test_facts_carry_the_cells_that_were_tested(table):
    facts = CropFactory(emergence_table=table, hardiness="half-hardy").facts()

    assert facts.emergence_key == "kale"
    assert facts.emergence == (EmergencePoint(celsius=0.0, days=None), EmergencePoint(celsius=20.0, days=6.0))
    assert facts.hardiness is Hardiness.HALF_HARDY


def test_a_variety_s_own_facts_win_and_the_rest_is_the_crop_s(table):
    crop = CropFactory(emergence_table=table, maturity_days_low=60, maturity_days_high=70, fall_crop=True)
    variety = VarietyFactory(crop=crop, maturity_days_low=50, maturity_days_high=55, fall_crop=False)

    assert variety.facts() == replace(
        crop.facts(), maturity_days_low=50, maturity_days_high=55, fall_crop=False
    )


def test_a_variety_s_own_days_to_come_up_set_the_table_aside(table):
    facts = VarietyFactory(crop=CropFactory(emergence_table=table), emergence_days_optimum=9.0).facts()

    assert (facts.emergence_days_optimum, facts.emergence, facts.emergence_key) == (9.0, (), "")


@pytest.mark.django_db
def test_a_zero_is_a_fact_and_a_blank_is_none():
    crop = CropFactory(kill_c=-2.2, transplant_weeks_early=1.0, transplant_weeks_late=4.0)

    facts = VarietyFactory(crop=crop, kill_c=0.0, transplant_weeks_early=0.0).facts()

    assert (facts.kill_c, facts.transplant_weeks_early, facts.transplant_weeks_late) == (0.0, 0.0, 4.0)


@pytest.mark.django_db
def test_a_planting_s_facts_are_its_variety_s_where_it_has_one():
    planting = PlantingFactory(crop__maturity_days_low=60)
    assert planting.facts().maturity_days_low == 60

    planting.variety = VarietyFactory(crop=planting.crop, maturity_days_low=50)
    assert planting.facts().maturity_days_low == 50
