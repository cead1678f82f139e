"""What grows: the catalogue, a garden's own varieties and crops, what is planted, what is taught of it."""

from crops.models.columns import CountedFrom, FactColumns, Hardiness, Method
from crops.models.crop import OWN, Crop, Variety
from crops.models.planting import Planting, Start, Turn
from crops.models.sources import EmergenceReading, FactBasis, FactSource, GerminationLimit, SeedTable, Source
from crops.models.workshop import Workshop

__all__ = [
    "OWN",
    "CountedFrom",
    "Crop",
    "EmergenceReading",
    "FactBasis",
    "FactColumns",
    "FactSource",
    "GerminationLimit",
    "Hardiness",
    "Method",
    "Planting",
    "SeedTable",
    "Source",
    "Start",
    "Turn",
    "Variety",
    "Workshop",
]
