import pytest
from django.apps import apps
from django.core.management import call_command
from django.db.models.signals import post_migrate

from crops.apps import _bring_catalogue_up_to_date
from crops.models import Crop


@pytest.fixture
def connected():
    sender = apps.get_app_config("crops")
    post_migrate.connect(_bring_catalogue_up_to_date, sender=sender, dispatch_uid="crops.catalogue")
    yield
    post_migrate.disconnect(sender=sender, dispatch_uid="crops.catalogue")


@pytest.mark.django_db
@pytest.mark.usefixtures("connected")
def test_migrating_brings_the_catalogue_and_repeats_without_harm():
    assert not Crop.objects.exists()
    for _twice in range(2):
        call_command("migrate", interactive=False, verbosity=0)
        assert Crop.objects.filter(garden=None).count() == 56


@pytest.mark.django_db
def test_a_database_without_tables_is_left_alone(monkeypatch):
    monkeypatch.setattr("django.db.connection.introspection.table_names", list)
    _bring_catalogue_up_to_date(using="default")
    assert not Crop.objects.exists()
