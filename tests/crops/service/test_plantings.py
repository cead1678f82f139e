"""Plantings: who and when are kept, a plot's own garden is the limit, a removal can be taken back."""

from datetime import UTC, date, datetime

import pytest
import time_machine
from django.core.exceptions import ValidationError
from django.db import IntegrityError, transaction

from crops.models import Planting
from crops.service import add_planting, change_planting, remove_planting, restore_planting
from tests.factories import CropFactory, GardenFactory, PlantingFactory, VarietyFactory

MARCH = datetime(2024, 3, 1, 12, tzinfo=UTC)
APRIL = datetime(2024, 4, 1, 12, tzinfo=UTC)


@pytest.fixture
def crop(db):
    return CropFactory(name="Kale")


def add(cast, crop, **changes):
    values = {
        "plot": cast.plot,
        "crop": crop,
        "year": 2024,
        "turn": "spring",
        "start": "sow",
        "by": cast.holder,
    }
    return add_planting(**{**values, **changes})


def test_a_planting_keeps_who_made_it_and_when(cast, crop):
    with time_machine.travel(MARCH, tick=False):
        planting = add(cast, crop, successions=3, row_length_m=2.5, note="along the fence")

    planting.refresh_from_db()
    assert (planting.made_by, planting.made_at) == (cast.holder, MARCH)
    assert (planting.successions, planting.row_length_m, planting.note) == (3, 2.5, "along the fence")


def test_a_change_keeps_who_changed_it_and_leaves_the_rest(cast, crop):
    with time_machine.travel(MARCH, tick=False):
        planting = add(cast, crop, note="as it was")
    with time_machine.travel(APRIL, tick=False):
        change_planting(planting, by=cast.coordinator, turn="autumn", successions=2)

    planting.refresh_from_db()
    assert (planting.turn, planting.successions, planting.note) == ("autumn", 2, "as it was")
    assert (planting.made_by, planting.changed_by, planting.changed_at) == (
        cast.holder,
        cast.coordinator,
        APRIL,
    )


def test_a_planting_cannot_be_moved_to_another_plot(cast, crop):
    planting = add(cast, crop)

    with pytest.raises(TypeError, match="plot"):
        change_planting(planting, by=cast.holder, plot=cast.plot)


def test_removing_and_taking_it_back_gives_the_same_planting(cast, crop):
    planting = add(cast, crop, note="dear")
    before = Planting.objects.values("pk", "note", "successions", "made_at").get()

    with time_machine.travel(MARCH, tick=False):
        remove_planting(planting, by=cast.co_gardener)
        remove_planting(planting, by=cast.coordinator)
    planting.refresh_from_db()
    assert (planting.removed_by, planting.removed_at) == (cast.co_gardener, MARCH)

    restore_planting(planting, by=cast.holder)
    planting.refresh_from_db()
    assert (planting.removed_by, planting.removed_at) == (None, None)
    assert Planting.objects.values(*before).get() == before


def test_a_removed_planting_is_not_changed(cast, crop):
    planting = add(cast, crop)
    remove_planting(planting, by=cast.holder)

    with pytest.raises(ValidationError, match="has been removed"):
        change_planting(planting, by=cast.holder, successions=2)


def test_crops_and_varieties_of_another_garden_cannot_be_planted(cast, crop):
    foreign = CropFactory(garden=GardenFactory())

    with pytest.raises(ValidationError) as refusal:
        add(cast, foreign)
    assert refusal.value.message_dict == {"crop": ["This crop belongs to another garden."]}

    with pytest.raises(ValidationError) as refusal:
        add(cast, crop, variety=VarietyFactory(crop=crop))
    assert refusal.value.message_dict == {"variety": ["This variety belongs to another garden."]}


def test_a_variety_goes_with_its_own_crop(cast, crop):
    other = VarietyFactory(garden=cast.garden, crop=CropFactory())

    with pytest.raises(ValidationError) as refusal:
        add(cast, crop, variety=other)

    assert refusal.value.message_dict == {"variety": ["This variety is of another crop."]}


def test_changing_the_crop_needs_a_variety_that_fits(cast, crop):
    planting = add(cast, crop, variety=VarietyFactory(garden=cast.garden, crop=crop))

    with pytest.raises(ValidationError) as refusal:
        change_planting(planting, by=cast.holder, crop=CropFactory())

    assert list(refusal.value.message_dict) == ["variety"]


def test_a_plot_that_was_given_up_takes_no_plantings(cast, crop):
    cast.plot.retired_on = date(2024, 1, 1)
    cast.plot.save()

    with pytest.raises(ValidationError) as refusal:
        add(cast, crop)

    assert refusal.value.message_dict == {"plot": ["Plot A1 has been given up."]}


def test_a_crop_removed_meanwhile_is_refused_with_words(cast, crop):
    crop_as_seen = CropFactory(garden=cast.garden)
    type(crop_as_seen).objects.filter(pk=crop_as_seen.pk).delete()

    with pytest.raises(ValidationError, match="removed meanwhile"):
        add(cast, crop_as_seen)


@pytest.mark.parametrize(
    "wrong",
    [{"successions": 0}, {"successions": 21}, {"year": 20240}, {"row_length_m": 0.0}, {"start": "throw"}],
)
def test_impossible_plantings_are_refused_by_the_form_and_by_the_database(cast, crop, wrong):
    with pytest.raises(ValidationError):
        add(cast, crop, **wrong)
    with pytest.raises(IntegrityError), transaction.atomic():
        PlantingFactory(plot=cast.plot, crop=crop, **wrong)

    assert not Planting.objects.exists()
