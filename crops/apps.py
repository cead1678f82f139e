from django.apps import AppConfig
from django.db.models.signals import post_migrate
from django.utils.translation import gettext_lazy as _


class CropsConfig(AppConfig):
    name = "crops"
    verbose_name = _("Crops")

    def ready(self) -> None:
        post_migrate.connect(_bring_catalogue_up_to_date, sender=self, dispatch_uid="crops.catalogue")


def _bring_catalogue_up_to_date(*, using: str, **kwargs: object) -> None:
    """A new installation has its crops at once, and an updated one the facts of its new version."""
    from django.db import connections

    from crops.service import update_catalogue

    if "crops_crop" in connections[using].introspection.table_names():
        update_catalogue()
