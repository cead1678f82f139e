"""The names of the catalogue's crops, for translators; tests hold that none is missing."""

from __future__ import annotations

from django.utils.translation import pgettext, pgettext_lazy

from crops.models import Crop, Variety

CROP_NAMES = (
    pgettext_lazy("crop", "Arugula"),
    pgettext_lazy("crop", "Asparagus (crowns)"),
    pgettext_lazy("crop", "Basil"),
    pgettext_lazy("crop", "Bean, snap, bush"),
    pgettext_lazy("crop", "Bean, lima, bush"),
    pgettext_lazy("crop", "Bean, snap, pole"),
    pgettext_lazy("crop", "Beet"),
    pgettext_lazy("crop", "Bok choy (pak choi)"),
    pgettext_lazy("crop", "Broccoli"),
    pgettext_lazy("crop", "Brussels sprouts"),
    pgettext_lazy("crop", "Cabbage"),
    pgettext_lazy("crop", "Carrot"),
    pgettext_lazy("crop", "Cauliflower"),
    pgettext_lazy("crop", "Celery"),
    pgettext_lazy("crop", "Swiss chard"),
    pgettext_lazy("crop", "Chinese (napa) cabbage"),
    pgettext_lazy("crop", "Chives"),
    pgettext_lazy("crop", "Cilantro (coriander)"),
    pgettext_lazy("crop", "Collards"),
    pgettext_lazy("crop", "Corn, sweet"),
    pgettext_lazy("crop", "Cucumber"),
    pgettext_lazy("crop", "Dill"),
    pgettext_lazy("crop", "Edamame (vegetable soybean)"),
    pgettext_lazy("crop", "Eggplant"),
    pgettext_lazy("crop", "Fennel, bulb"),
    pgettext_lazy("crop", "Garlic (cloves)"),
    pgettext_lazy("crop", "Kale"),
    pgettext_lazy("crop", "Kohlrabi"),
    pgettext_lazy("crop", "Leek"),
    pgettext_lazy("crop", "Lettuce, head (butterhead, romaine, crisphead)"),
    pgettext_lazy("crop", "Lettuce, leaf"),
    pgettext_lazy("crop", "Muskmelon (cantaloupe)"),
    pgettext_lazy("crop", "Mustard greens"),
    pgettext_lazy("crop", "Okra"),
    pgettext_lazy("crop", "Onion, green (bunching, scallion)"),
    pgettext_lazy("crop", "Onion, bulb, from sets"),
    pgettext_lazy("crop", "Onion, bulb, from seedlings"),
    pgettext_lazy("crop", "Parsley"),
    pgettext_lazy("crop", "Parsnip"),
    pgettext_lazy("crop", "Pea, garden (shelling)"),
    pgettext_lazy("crop", "Pea, snap and snow"),
    pgettext_lazy("crop", "Pea, southern (cowpea)"),
    pgettext_lazy("crop", "Pepper, hot"),
    pgettext_lazy("crop", "Pepper, sweet"),
    pgettext_lazy("crop", "Potato"),
    pgettext_lazy("crop", "Pumpkin"),
    pgettext_lazy("crop", "Radish"),
    pgettext_lazy("crop", "Rutabaga"),
    pgettext_lazy("crop", "Spinach"),
    pgettext_lazy("crop", "Squash, summer (zucchini)"),
    pgettext_lazy("crop", "Squash, winter"),
    pgettext_lazy("crop", "Strawberry (June-bearing plants)"),
    pgettext_lazy("crop", "Sweet potato (slips)"),
    pgettext_lazy("crop", "Tomato"),
    pgettext_lazy("crop", "Turnip"),
    pgettext_lazy("crop", "Watermelon"),
)

# The names under which published tables list their seed, by the tables' keys.
TABLE_NAMES = {
    "arugula": pgettext_lazy("crop", "Arugula"),
    "asparagus": pgettext_lazy("crop", "Asparagus (crowns)"),
    "basil": pgettext_lazy("crop", "Basil"),
    "bean-fava": pgettext_lazy("crop", "Bean, fava"),
    "bean-lima": pgettext_lazy("crop", "Bean, lima, bush"),
    "bean-snap": pgettext_lazy("crop", "Bean, snap"),
    "beet": pgettext_lazy("crop", "Beet"),
    "bok-choy": pgettext_lazy("crop", "Bok choy (pak choi)"),
    "broccoli": pgettext_lazy("crop", "Broccoli"),
    "brussels-sprouts": pgettext_lazy("crop", "Brussels sprouts"),
    "cabbage": pgettext_lazy("crop", "Cabbage"),
    "carrot": pgettext_lazy("crop", "Carrot"),
    "cauliflower": pgettext_lazy("crop", "Cauliflower"),
    "celery": pgettext_lazy("crop", "Celery"),
    "chard": pgettext_lazy("crop", "Swiss chard"),
    "chinese-cabbage": pgettext_lazy("crop", "Chinese (napa) cabbage"),
    "corn-sweet": pgettext_lazy("crop", "Corn, sweet"),
    "cucumber": pgettext_lazy("crop", "Cucumber"),
    "edamame": pgettext_lazy("crop", "Edamame (vegetable soybean)"),
    "eggplant": pgettext_lazy("crop", "Eggplant"),
    "endive": pgettext_lazy("crop", "Endive"),
    "garlic": pgettext_lazy("crop", "Garlic (cloves)"),
    "leek": pgettext_lazy("crop", "Leek"),
    "lettuce": pgettext_lazy("crop", "Lettuce"),
    "melon": pgettext_lazy("crop", "Muskmelon (cantaloupe)"),
    "okra": pgettext_lazy("crop", "Okra"),
    "onion": pgettext_lazy("crop", "Onion"),
    "parsley": pgettext_lazy("crop", "Parsley"),
    "parsnip": pgettext_lazy("crop", "Parsnip"),
    "pea": pgettext_lazy("crop", "Pea"),
    "pea-southern": pgettext_lazy("crop", "Pea, southern (cowpea)"),
    "pepper": pgettext_lazy("crop", "Pepper"),
    "pumpkin": pgettext_lazy("crop", "Pumpkin"),
    "radish": pgettext_lazy("crop", "Radish"),
    "spinach": pgettext_lazy("crop", "Spinach"),
    "squash": pgettext_lazy("crop", "Squash"),
    "tomato": pgettext_lazy("crop", "Tomato"),
    "turnip": pgettext_lazy("crop", "Turnip"),
    "watermelon": pgettext_lazy("crop", "Watermelon"),
}

# Iowa State University Extension and McLennan County Master Gardeners name most of them so.
FAMILY_NAMES = {
    "Amaranthaceae": pgettext_lazy("plant family", "goosefoot"),
    "Amaryllidaceae": pgettext_lazy("plant family", "onion"),
    "Apiaceae": pgettext_lazy("plant family", "carrot"),
    "Asparagaceae": pgettext_lazy("plant family", "asparagus"),
    "Asteraceae": pgettext_lazy("plant family", "daisy"),
    "Brassicaceae": pgettext_lazy("plant family", "cabbage"),
    "Convolvulaceae": pgettext_lazy("plant family", "bindweed"),
    "Cucurbitaceae": pgettext_lazy("plant family", "squash"),
    "Fabaceae": pgettext_lazy("plant family", "pea and bean"),
    "Lamiaceae": pgettext_lazy("plant family", "mint"),
    "Malvaceae": pgettext_lazy("plant family", "mallow"),
    "Poaceae": pgettext_lazy("plant family", "grass"),
    "Rosaceae": pgettext_lazy("plant family", "rose"),
    "Solanaceae": pgettext_lazy("plant family", "nightshade"),
}


def family_name(family: str) -> str:
    """What gardeners call a plant family; one that a garden named itself stays as it is."""
    return str(FAMILY_NAMES.get(family, family))


def crop_name(name: str) -> str:
    """A crop's name in the reader's language; a garden's own names stay as they were typed."""
    return pgettext("crop", name) if name else ""


def crop_label(crop: Crop, variety: Variety | None = None) -> str:
    """A crop's name, with its variety's in the single quotes of the trade: `Tomato ‘Sungold’`."""
    name = crop_name(crop.name)
    if variety is None:
        return name
    return pgettext("crop and variety", "%(crop)s ‘%(variety)s’") % {"crop": name, "variety": variety.name}


def table_name(key: str) -> str:
    """The name of a table of germination in the reader's language."""
    return str(TABLE_NAMES.get(key, key))
