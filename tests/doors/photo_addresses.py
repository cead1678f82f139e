"""Photos for the addresses that ask for one."""

from datetime import date

from plots.models import FindingPhoto
from plots.photos import Picture
from plots.service.photos import keep_photo
from schedules.models import WorkLog
from schedules.service.photos import keep_log_photo
from tests.pictures import jpeg

PICTURE = Picture(jpeg(8, 6), jpeg(8, 6), 8, 6)


def log(cast) -> WorkLog:
    told = {"work": "weed", "day": date(2024, 6, 1), "person": cast.holder, "made_by": cast.holder}
    return WorkLog.objects.create(garden=cast.garden, plot=cast.plot, **told)


def _log_photo(cast) -> dict[str, object]:
    return {"key": keep_log_photo(logs=[log(cast)], picture=PICTURE, by=cast.holder)[0].key}


def _finding_photo(cast) -> dict[str, object]:
    walk = cast.garden.care_rounds.create(day=date(2024, 6, 1))
    finding = walk.findings.create(plot=cast.plot, line=1, words="well kept")
    return {"key": keep_photo([FindingPhoto(finding=finding, made_by=cast.coordinator)], PICTURE)[0].key}


LOGS = {
    "log_photo_add": lambda cast: {"key": log(cast).key},
    "log_photo": lambda cast: {**_log_photo(cast), "size": "thumb"},
    **dict.fromkeys(("log_photo_edit", "log_photo_remove", "log_photo_restore"), _log_photo),
}
FINDINGS = {
    "finding_photo": lambda cast: {**_finding_photo(cast), "size": "image"},
    **dict.fromkeys(("finding_photo_remove", "finding_photo_restore"), _finding_photo),
}
