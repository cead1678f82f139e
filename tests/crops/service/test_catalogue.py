"""Loading the catalogue: whole, again without a change, and never at a garden's expense."""

from dataclasses import replace
from io import StringIO

import pytest
from django.core.management import CommandError, call_command

from crops.catalogue import FactBasis, Provenance, SourceRow, load_catalogue
from crops.models import (
    Crop,
    EmergenceReading,
    FactSource,
    GerminationLimit,
    Planting,
    SeedTable,
    Source,
    Variety,
)
from crops.service import remove_planting, update_catalogue
from tests.factories import CropFactory, PlantingFactory, VarietyFactory

TABLES = load_catalogue()


def only(*slugs, **more):
    """The tables with a few crops, so that a test takes a moment."""
    return replace(
        TABLES,
        crops={slug: TABLES.crops[slug] for slug in slugs},
        provenance={slug: TABLES.provenance[slug] for slug in slugs},
        emergence={key: TABLES.emergence[key] for key in ("carrot", "cabbage")},
        limits={key: TABLES.limits[key] for key in ("carrot", "cabbage", "basil")},
        **more,
    )


@pytest.mark.django_db
def test_the_whole_catalogue_comes_back_as_it_was_read():
    changes = update_catalogue()

    assert len(changes.added) == 56
    assert {crop.slug: crop.facts() for crop in Crop.objects.all()} == TABLES.crops
    assert Source.objects.count() == len(TABLES.sources)
    assert EmergenceReading.objects.count() == sum(len(cells) for cells in TABLES.emergence.values())
    assert GerminationLimit.objects.count() == sum(len(rows) for rows in TABLES.limits.values())
    assert FactSource.objects.count() == sum(len(rows) for rows in TABLES.provenance.values())


@pytest.mark.django_db
def test_loading_again_changes_nothing():
    tables = only("carrot", "kale", "basil")
    update_catalogue(tables)
    before = {model: list(model.objects.values()) for model in (Crop, Source, FactSource, EmergenceReading)}

    changes = update_catalogue(tables)

    assert (changes.added, changes.changed, changes.removed) == ([], [], [])
    assert changes.unchanged == ["carrot", "kale", "basil"]
    assert {model: list(model.objects.values()) for model in before} == before


@pytest.mark.django_db
def test_a_changed_fact_is_brought_up_to_date():
    update_catalogue(only("carrot", "kale"))
    newer = only("carrot", "kale")
    newer.crops["carrot"] = replace(newer.crops["carrot"], maturity_days_low=66)

    changes = update_catalogue(newer)

    assert (changes.changed, changes.unchanged) == (["carrot"], ["kale"])
    assert Crop.objects.get(slug="carrot").maturity_days_low == 66


@pytest.mark.django_db
def test_a_changed_source_counts_as_a_change_of_its_crop():
    update_catalogue(only("carrot", "kale"))
    newer = only("carrot", "kale")
    seen = Provenance("kill", ("kill_c",), FactBasis.SEEN, "", ("SMF-2012",))
    newer.provenance["carrot"] = (seen,)

    changes = update_catalogue(newer)

    assert changes.changed == ["carrot"]
    kept = FactSource.objects.get(crop__slug="carrot")
    assert (kept.fields, kept.basis, [source.key for source in kept.sources.all()]) == (
        "kill_c",
        "seen",
        ["SMF-2012"],
    )


@pytest.mark.django_db
def test_changed_readings_and_titles_replace_the_old_ones():
    update_catalogue(only("carrot"))
    newer = only(
        "carrot", sources=TABLES.sources | {"HDF": replace(TABLES.sources["HDF"], title="New title")}
    )
    newer.emergence["carrot"] = newer.emergence["carrot"][:3]

    update_catalogue(newer)

    assert SeedTable.objects.get(key="carrot").readings.count() == 3
    assert Source.objects.get(key="HDF").title == "New title"


@pytest.mark.django_db
def test_a_garden_own_crops_varieties_and_plantings_are_never_touched(cast):
    update_catalogue(only("carrot", "kale"))
    carrot = Crop.objects.get(slug="carrot")
    CropFactory(garden=cast.garden, slug="own-carrot", name="Carrot")
    VarietyFactory(garden=cast.garden, crop=carrot, maturity_days_low=50)
    PlantingFactory(plot=cast.plot, crop=carrot)
    before = [list(Crop.objects.filter(garden=cast.garden).values()), list(Variety.objects.values()),
              list(Planting.objects.values())]  # fmt: skip
    newer = only("carrot", "kale")
    newer.crops["carrot"] = replace(newer.crops["carrot"], maturity_days_low=66)

    update_catalogue(newer)

    after = [list(Crop.objects.filter(garden=cast.garden).values()), list(Variety.objects.values()),
             list(Planting.objects.values())]  # fmt: skip
    assert after == before


@pytest.mark.django_db
def test_a_crop_that_is_no_longer_listed_goes_only_when_nothing_needs_it(cast):
    update_catalogue(only("carrot", "kale", "basil", "cabbage"))
    crops = {crop.slug: crop for crop in Crop.objects.all()}
    remove_planting(PlantingFactory(plot=cast.plot, crop=crops["carrot"]), by=cast.holder)
    VarietyFactory(garden=cast.garden, crop=crops["kale"])

    changes = update_catalogue(only("cabbage"))

    assert changes.removed == ["basil"]
    assert changes.kept == ["carrot", "kale"]
    assert set(Crop.objects.values_list("slug", flat=True)) == {"cabbage", "carrot", "kale"}


@pytest.mark.django_db
def test_a_source_that_nothing_cites_goes():
    extra = SourceRow("EXTRA", "A page", "", "", "", "seen")
    update_catalogue(only("carrot", sources=TABLES.sources | {"EXTRA": extra}))

    update_catalogue(only("carrot"))

    assert not Source.objects.filter(key="EXTRA").exists()


@pytest.mark.django_db
def test_the_command_says_what_it_changed():
    out = StringIO()
    call_command("catalogue", stdout=out)
    assert "arugula: added\n" in out.getvalue()
    assert out.getvalue().endswith("56 crops in the catalogue, 0 of them as before.\n")

    out = StringIO()
    call_command("catalogue", stdout=out)
    assert out.getvalue() == "56 crops in the catalogue, 56 of them as before.\n"


@pytest.mark.django_db
def test_the_command_loads_nothing_from_a_folder_without_tables(tmp_path):
    with pytest.raises(CommandError, match=r"Nothing was loaded. .*sources\.csv cannot be read"):
        call_command("catalogue", tmp_path)

    assert not Crop.objects.exists()
