"""Rain, sightings and guidance for the addresses that ask for one."""

from datetime import date

from schedules.models import Guidance, RainReading, Sighting
from tests.doors.photo_addresses import log


def _plot(cast) -> dict[str, object]:
    return {"pk": cast.plot.pk}


def _rain(cast) -> dict[str, object]:
    told = {"day": date(2024, 6, 2), "since": date(2024, 6, 1), "mm": 4.0}
    return {"pk": RainReading.objects.create(garden=cast.garden, **told).pk}


def _guidance(cast) -> dict[str, object]:
    return {"pk": Guidance.objects.create(garden=cast.garden, thing="Aphids", tolerate="Mostly.").pk}


def _sighting(cast) -> dict[str, object]:
    return {"pk": Sighting.objects.create(log=log(cast), seen="Aphids").pk}


MAKERS = {
    "water": _plot,
    "rain_remove": _rain,
    **dict.fromkeys(("guidance_edit", "guidance_remove", "guidance_restore"), _guidance),
    **dict.fromkeys(("sighting", "sighting_sure", "sighting_word"), _sighting),
}
