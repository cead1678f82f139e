"""The columns and filters of the list of crops."""

from __future__ import annotations

from collections.abc import Iterable

from django.utils.translation import gettext as _

from crops.models import Crop, Hardiness, Method
from crops.wording.names import crop_label
from plots.listing import Column, Filter, Listing


def crops_list(crops: Iterable[Crop]) -> Listing[Crop]:
    """`crops` say which families can be chosen."""
    families = [(name, name) for name in sorted({crop.family for crop in crops if crop.family})]
    return Listing(
        columns=[
            Column("crop", _("Crop"), crop_label),
            Column("botanical", _("Botanical name"), lambda crop: crop.botanical_name),
            Column("family", _("Family"), lambda crop: crop.family),
            Column("hardiness", _("Hardiness"), lambda crop: str(crop.get_hardiness_display())),
            Column("method", _("Started"), lambda crop: str(crop.get_method_display())),
            Column("own", _("This garden’s own"), lambda crop: crop.is_own, on_page=False),
            Column("varieties", _("Our varieties"), _varieties, on_page=False),
        ],
        filters=[
            Filter("method", _("Started"), Method.choices, lambda crop, word: crop.method == word),
            Filter("hardiness", _("Hardiness"), Hardiness.choices, lambda crop, word: crop.hardiness == word),
            Filter("family", _("Family"), families, lambda crop, word: crop.family == word),
            Filter("whose", _("Whose"), [("own", _("this garden’s own"))], lambda crop, _word: crop.is_own),
        ],
        text=lambda crop: f"{crop_label(crop)} {crop.botanical_name} {crop.family} {_varieties(crop)}",
        sort="crop",
    )


def _varieties(crop: Crop) -> str:
    return ", ".join(variety.name for variety in crop.own_varieties)
