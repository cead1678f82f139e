"""Changes to what grows: verbs, each one transaction."""

from crops.service.catalogue import CatalogueChanges, update_catalogue
from crops.service.own import InUseError, remove_crop, remove_variety, save_crop, save_variety
from crops.service.plantings import add_planting, change_planting, remove_planting, restore_planting

__all__ = [
    "CatalogueChanges",
    "InUseError",
    "add_planting",
    "change_planting",
    "remove_crop",
    "remove_planting",
    "remove_variety",
    "restore_planting",
    "save_crop",
    "save_variety",
    "update_catalogue",
]
