"""Two people at once: nothing doubles, and nobody gets an error page."""

from crops.models import Crop, FactSource, Planting, Source, Variety
from crops.service import InUseError, add_planting, remove_variety, save_crop, update_catalogue
from tests.concurrency import at_once
from tests.factories import CropFactory, PlotFactory, UserFactory, VarietyFactory


def test_two_loads_of_the_catalogue_leave_one(many_connections):
    changes = at_once(lambda _: update_catalogue(), [1, 2])

    assert sorted(len(change.added) for change in changes) == [0, 56]
    assert (Crop.objects.count(), Source.objects.count(), FactSource.objects.count()) == (56, 67, 664)


def test_a_variety_is_either_planted_or_removed(many_connections):
    for _ in range(5):
        plot, by = PlotFactory(), UserFactory()
        variety = VarietyFactory(garden=plot.garden)
        what = {"plot": plot, "crop": variety.crop, "variety": variety, "by": by}

        planted, removed = at_once(
            lambda task: task(),
            [
                lambda what=what: add_planting(**what, year=2024, turn="spring", start="sow"),
                lambda variety=variety: remove_variety(variety),
            ],
        )

        kept = isinstance(planted, Planting)
        assert kept == isinstance(removed, InUseError)
        assert kept or list(planted.message_dict) == ["variety"]
        assert Planting.objects.filter(plot=plot).exists() == kept
        assert Variety.objects.filter(pk=variety.pk).exists() == kept


def test_two_crops_of_one_name_get_two_addresses(many_connections):
    garden = PlotFactory().garden

    saved = at_once(
        lambda name: save_crop(garden=garden, crop=CropFactory.build(name=name, slug="")), ["Oca", "Oca!"]
    )

    assert sorted(crop.slug for crop in saved) == ["own-oca", "own-oca-2"]
