"""A garden's own crops and varieties: saved, addressed, and removed only when nothing needs them."""

import pytest
from django.core.exceptions import ValidationError

from crops.models import Crop, Hardiness, Method, Planting, SeedTable, Variety
from crops.service import InUseError, remove_crop, remove_planting, remove_variety, save_crop, save_variety
from tests.factories import CropFactory, GardenFactory, PlantingFactory, VarietyFactory


def unsaved(name):
    return Crop(name=name, hardiness=Hardiness.TENDER, method=Method.EITHER)


def test_own_crops_get_addresses_that_no_catalogue_crop_can_take(cast):
    names = ["Oca", "Oca!", "Ока", "東京"]
    slugs = [save_crop(garden=cast.garden, crop=unsaved(name)).slug for name in names]

    assert slugs == ["own-oca", "own-oca-2", "own-crop", "own-crop-2"]


def test_an_own_crop_keeps_its_address_when_renamed(cast):
    crop = save_crop(garden=cast.garden, crop=unsaved("Oca"))
    crop.name = "New Zealand yam"

    assert save_crop(garden=cast.garden, crop=crop).slug == "own-oca"


def test_two_gardens_may_have_a_crop_of_one_name(cast):
    first = save_crop(garden=cast.garden, crop=unsaved("Oca"))
    second = save_crop(garden=GardenFactory(), crop=unsaved("Oca"))

    assert first.slug == second.slug
    assert first.pk != second.pk


def test_an_own_crop_shows_the_limits_of_the_table_it_comes_up_like(cast):
    crop = unsaved("Oca")
    crop.emergence_table = SeedTable.objects.create(key="potato")

    assert save_crop(garden=cast.garden, crop=crop).limits_table.key == "potato"


def test_a_variety_of_another_garden_crop_is_refused(cast):
    foreign = CropFactory(garden=GardenFactory())

    with pytest.raises(ValidationError):
        save_variety(garden=cast.garden, crop=foreign, variety=Variety(name="Red"))


def test_what_nothing_needs_is_removed(cast):
    crop = CropFactory(garden=cast.garden)
    variety = VarietyFactory(garden=cast.garden, crop=crop)

    remove_variety(variety)
    remove_crop(crop)

    assert not Variety.objects.exists()
    assert not Crop.objects.exists()


def test_a_planted_variety_stays_and_says_why(cast):
    variety = VarietyFactory(garden=cast.garden, crop__name="Kale", name="Lacinato")
    PlantingFactory(plot=cast.plot, crop=variety.crop, variety=variety)

    with pytest.raises(InUseError) as refusal:
        remove_variety(variety)

    assert (
        str(refusal.value) == "Kale ‘Lacinato’ cannot be removed: 1 planting is of it, and needs its figures."
    )
    assert Variety.objects.exists()


def test_a_planted_crop_and_one_with_varieties_stay(cast):
    planted, parent = (
        CropFactory(garden=cast.garden, name="Oca"),
        CropFactory(garden=cast.garden, name="Ulluco"),
    )
    PlantingFactory.create_batch(2, plot=cast.plot, crop=planted)
    VarietyFactory(garden=cast.garden, crop=parent)

    with pytest.raises(InUseError, match="2 plantings are of it"):
        remove_crop(planted)
    with pytest.raises(InUseError, match="Ulluco has a variety here"):
        remove_crop(parent)


def test_plantings_taken_off_the_plan_go_with_what_they_were_of(cast):
    variety = VarietyFactory(garden=cast.garden, crop=CropFactory(garden=cast.garden))
    planting = PlantingFactory(plot=cast.plot, crop=variety.crop, variety=variety)
    remove_planting(planting, by=cast.holder)

    remove_variety(variety)

    assert not Planting.objects.exists()


def test_a_crop_of_the_catalogue_is_nobody_s_to_remove(db):
    crop = CropFactory()

    with pytest.raises(Crop.DoesNotExist):
        remove_crop(crop)
