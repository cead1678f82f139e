"""Names of crops: all known to translators, and a garden's own left alone."""

import pytest
from django.utils import translation
from django.utils.translation import trans_real

from crops.catalogue import load_catalogue
from crops.wording.names import (
    CROP_NAMES,
    FAMILY_NAMES,
    TABLE_NAMES,
    crop_label,
    crop_name,
    family_name,
    table_name,
)
from tests.factories import CropFactory, VarietyFactory

CATALOGUE = load_catalogue()


def test_every_name_of_the_catalogue_can_be_translated():
    assert [str(name) for name in CROP_NAMES] == [crop.name for crop in CATALOGUE.crops.values()]


def test_every_table_has_a_name():
    assert TABLE_NAMES.keys() == CATALOGUE.emergence.keys() | CATALOGUE.limits.keys()
    assert table_name("bean-snap") == "Bean, snap"


def test_every_family_is_called_as_gardeners_call_it():
    assert FAMILY_NAMES.keys() == {crop.family for crop in CATALOGUE.crops.values()}
    assert (family_name("Solanaceae"), family_name("Theaceae"), family_name("")) == (
        "nightshade",
        "Theaceae",
        "",
    )


def test_names_are_shown_in_the_reader_s_language(monkeypatch):
    catalog = trans_real.translation("en")
    monkeypatch.setitem(catalog._catalog._catalogs[0], "crop\x04Kale", "Grünkohl")

    with translation.override("en"):
        assert crop_name("Kale") == "Grünkohl"
        assert crop_name("Grandmother’s kale") == "Grandmother’s kale"


@pytest.mark.django_db
def test_a_variety_stands_in_quotes_after_its_crop():
    variety = VarietyFactory(crop=CropFactory(name="Kale"), name="Lacinato")

    assert crop_label(variety.crop) == "Kale"
    assert crop_label(variety.crop, variety) == str(variety) == "Kale ‘Lacinato’"
