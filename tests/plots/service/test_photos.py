"""Files stay exactly as long as a row has them."""

from datetime import timedelta
from uuid import UUID

import pytest
from django.core.files.base import ContentFile
from django.core.files.storage import default_storage
from django.db import IntegrityError
from django.utils import timezone

from plots.models import FindingPhoto
from plots.photos import Picture
from plots.service import photos
from plots.service.photos import (
    KEPT_DAYS,
    forget_photos,
    keep_photo,
    photograph,
    remove_photo,
    restore_photo,
    sweep_files,
)
from tests.pictures import jpeg

PICTURE = Picture(jpeg(8, 6), jpeg(8, 6), 8, 6)
OTHER = Picture(jpeg(8, 6, "red"), jpeg(8, 6, "red"), 8, 6)


def files() -> int:
    return sum(len(default_storage.listdir(folder)[1]) for folder in default_storage.listdir("")[0])


@pytest.fixture
def finding(cast):
    walk = cast.garden.care_rounds.create(day=cast.garden.today())
    return walk.findings.create(plot=cast.plot, line=1, words="well kept")


@pytest.fixture
def before(db):
    return files()


def test_a_photo_that_could_not_be_kept_leaves_no_file(finding, cast, before, monkeypatch):
    def fail(*_args, **_kwargs):
        raise IntegrityError

    monkeypatch.setattr(FindingPhoto, "save", fail)
    with pytest.raises(IntegrityError):
        keep_photo([FindingPhoto(finding=finding, made_by=cast.coordinator)], PICTURE)
    assert files() == before


def test_what_a_crash_left_goes_a_day_later_and_nothing_else(finding, cast, before):
    photograph(finding=finding, pictures=[PICTURE], by=cast.coordinator)
    for name in ("ab/abcdef.jpg", "ab/notes.txt", "other/abc.jpg"):
        default_storage.save(name, ContentFile(b"left"))
    later = timezone.now() + timedelta(hours=23)
    assert sweep_files(now=later) == 0
    assert sweep_files(now=later + timedelta(hours=2)) >= 1
    assert files() == 2 + 2
    assert not default_storage.exists("ab/abcdef.jpg")
    assert default_storage.exists(finding.photos.get().image.name)
    for name in ("ab/notes.txt", "other/abc.jpg"):
        default_storage.delete(name)


def test_the_same_photo_of_the_same_thing_is_kept_once_and_comes_back(finding, cast, before):
    for _time in range(2):
        photograph(finding=finding, pictures=[PICTURE], by=cast.coordinator)
    photo = finding.photos.get()
    remove_photo(photo=photo, by=cast.deputy)
    assert not finding.photos.standing()
    photograph(finding=finding, pictures=[PICTURE], by=cast.coordinator)
    assert finding.photos.standing().get() == photo
    assert files() == before + 2


def test_a_photo_sent_twice_at_the_same_moment_is_kept_once(finding, cast, before, monkeypatch):
    def sent() -> list[FindingPhoto]:
        return [FindingPhoto(key=UUID(int=7), finding=finding, made_by=cast.coordinator)]

    kept, _is_new = keep_photo(sent(), PICTURE)
    answers = iter([None, kept])  # the other one is not there yet when this one looks
    monkeypatch.setattr(photos, "_known", lambda _photo: next(answers))
    assert keep_photo(sent(), PICTURE) == (kept, False)
    assert (finding.photos.count(), files()) == (1, before + 2)


def test_files_shared_by_rows_go_with_the_last(finding, cast, before, django_capture_on_commit_callbacks):
    rows = [FindingPhoto(finding=finding, made_by=cast.coordinator) for _row in range(2)]
    keep_photo(rows, PICTURE)
    for left, row in ((2, rows[0]), (0, rows[1])):
        with django_capture_on_commit_callbacks(execute=True):
            row.delete()
        assert files() == before + left


def test_what_was_taken_away_is_let_go_after_its_days(
    finding, cast, before, django_capture_on_commit_callbacks
):
    with django_capture_on_commit_callbacks(execute=True):
        for picture, days in ((PICTURE, KEPT_DAYS + 1), (OTHER, KEPT_DAYS - 1)):
            photograph(finding=finding, pictures=[picture], by=cast.coordinator)
            photo = finding.photos.standing().get()
            remove_photo(photo=photo, by=cast.coordinator)
            finding.photos.filter(pk=photo.pk).update(removed_at=timezone.now() - timedelta(days=days))
        photograph(finding=finding, pictures=[Picture(b"third", b"third", 8, 6)], by=cast.coordinator)
    assert (finding.photos.count(), files()) == (2, before + 4)
    restore_photo(photo=photo)
    assert finding.photos.standing().count() == 2


@pytest.mark.parametrize("who", ["coordinator", "holder"])  # who took it; whose plot it shows
def test_with_somebody_who_is_forgotten_the_photos_go(
    who, finding, cast, before, django_capture_on_commit_callbacks
):
    photograph(finding=finding, pictures=[PICTURE], by=cast.coordinator)
    forget_photos(person=cast.member)
    assert finding.photos.exists()
    with django_capture_on_commit_callbacks(execute=True):
        forget_photos(person=getattr(cast, who))
    assert (finding.photos.exists(), files()) == (False, before)
