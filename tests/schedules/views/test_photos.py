"""Photos of logs: as a phone sends them, as a page does, who sees them, and how they go again."""

import zipfile
from io import BytesIO
from uuid import uuid4, uuid5

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.urls import reverse

from schedules.models import LogPhoto, WorkLog
from schedules.service.photos import PER_LOG, keep_log_photo
from tests.doors.photo_addresses import PICTURE
from tests.factories import AssignmentFactory
from tests.pictures import jpeg
from tests.texts import text_of

JSON = {"Accept": "application/json"}


def file(data: bytes = b"", name: str = "photo.jpg") -> SimpleUploadedFile:
    return SimpleUploadedFile(name, data or jpeg(30, 20), "image/jpeg")


def to(name: str, cast, *rest) -> str:
    return reverse(f"schedules:{name}", args=[cast.garden.slug, *rest])


@pytest.fixture
def log(cast) -> WorkLog:
    key = uuid4()
    told = {"work": "weed", "day": cast.garden.today(), "person": cast.holder, "made_by": cast.holder}
    return WorkLog.objects.create(garden=cast.garden, plot=cast.plot, key=key, sent=key, **told)


@pytest.fixture
def photo(cast, log) -> LogPhoto:
    return keep_log_photo(logs=[log], picture=PICTURE, by=cast.holder)[0]


def test_what_a_phone_sends_is_kept_once_and_each_refusal_says_why(cast, as_user, log):
    phone, address = as_user(cast.holder), to("log_photo_add", cast, log.key)

    def send(to_address=address, client=phone, **more):
        sent = {"photo": file(), "photo_key": key, "author": cast.holder.pk, **more}
        answer = client.post(to_address, sent, headers=JSON)
        return answer.status_code, answer.json()

    key = uuid4()
    kept = {"photo": str(key), "text": "Photo kept"}
    assert [send(), send()] == [(201, kept), (200, kept)]
    assert send(photo_key="", photo=file(b"\x00\x00\x00\x18ftypheic1234"))[0] == 422
    status, told = send(photo_key=uuid4(), photo=file(b"GIF89a"))
    assert (status, list(told["errors"])) == (422, ["photo"])
    assert "JPEG, PNG or WebP" in told["errors"]["photo"][0]
    assert send(author=cast.co_gardener.pk)[0] == 409
    assert send(to("log_photo_add", cast, uuid4()))[0] == 404
    assert send(client=as_user(cast.helper), author=cast.helper.pk)[0] == 403
    assert send(client=as_user(None)) == (401, {"sign_in": "/sign-in/"})
    assert log.photos.count() == 1


def test_a_photo_sent_with_a_log_of_several_plots_hangs_on_each(cast, as_user, log):
    other = AssignmentFactory(plot__garden=cast.garden, season=cast.assignment.season, holder=cast.holder)
    second = WorkLog.objects.create(
        garden=cast.garden, plot=other.plot, key=uuid5(log.sent, "2"), sent=log.sent, work="weed",
        day=log.day, person=cast.holder, made_by=cast.holder,
    )  # fmt: skip
    phone, sent = as_user(cast.holder), {"photo": file(), "photo_key": uuid4()}
    assert phone.post(to("log_photo_add", cast, log.sent), sent, headers=JSON).status_code == 201
    one, other = log.photos.get(), second.photos.get()
    assert (one.image.name, one.pk) != ("", other.pk)
    assert one.image.name == other.image.name
    phone.post(to("log_photo_remove", cast, other.key))
    assert not LogPhoto.objects.standing()


def test_a_photo_is_handed_to_who_may_see_the_plot_and_only_while_it_stands(cast, as_user, photo):
    address, holder = to("log_photo", cast, photo.key, "thumb"), as_user(cast.holder)
    answer = holder.get(address)
    assert b"".join(answer.streaming_content) == PICTURE.thumb
    assert {name: answer[name] for name in ("Content-Type", "Cache-Control", "X-Content-Type-Options")} == {
        "Content-Type": "image/jpeg",
        "Cache-Control": "private, no-cache",
        "X-Content-Type-Options": "nosniff",
    }
    assert f"-{photo.key}.jpg" in answer["Content-Disposition"]  # and not the name in the storage
    again = holder.get(address, headers={"If-None-Match": answer["ETag"]})
    assert (again.status_code, again["Cache-Control"]) == (304, "private, no-cache")
    assert as_user(cast.member).get(address).status_code == 404
    assert holder.get(to("log_photo", cast, photo.key, "huge")).status_code == 404
    WorkLog.objects.update(removed_at=photo.made_at)
    assert holder.get(address).status_code == 404


def test_a_page_takes_several_and_names_the_one_it_refuses(cast, as_user, log):
    browser, address = as_user(cast.holder), to("log_photo_add", cast, log.key)
    page = browser.post(address, {"photos": [file(), file(b"<svg/>", "drawing.jpg")], "may_show": "on"})
    assert page.status_code == 422
    assert "drawing.jpg: This is no photo" in text_of(page)
    assert page.context["form"]["may_show"].value() is True
    for _time in range(2):  # the second press adds nothing
        browser.post(address, {"photos": [file(), file(jpeg(20, 30, "red"))], "may_show": "on"})
    assert list(log.photos.values_list("may_show", "width")) == [(True, 30), (True, 20)]
    assert "Photo 2 of 2" in browser.get(address).content.decode()
    assert browser.post(address, {}).status_code == 422
    shades = [jpeg(4, 4, f"rgb(0,0,{shade * 20})") for shade in range(PER_LOG - 1)]
    browser.post(address, {"photos": [file(data) for data in shades[:6]]})
    full = browser.post(address, {"photos": [file(data) for data in shades[6:]]})
    assert (full.status_code, log.photos.count()) == (422, PER_LOG)


def test_a_form_that_is_wrong_elsewhere_asks_for_its_photos_again(cast, as_user):
    sent = {"key": uuid4(), "work": "water", "plots": cast.plot.pk, "amount": "much", "photos": [file()]}
    page = as_user(cast.holder).post(to("log_new", cast), sent)
    again = ["Please choose the photos again: browsers do not keep the choice."]
    assert (page.status_code, page.context["form"].errors["photos"]) == (422, again)
    page = as_user(cast.holder).post(to("log_new", cast), {**sent, "photos": []})
    assert list(page.context["form"].errors) == ["amount"]


def test_words_are_changed_by_the_plots_people_consent_by_who_took_it(cast, as_user, photo):
    address, log_page = to("log_photo_edit", cast, photo.key), to("log_photo_add", cast, photo.log.key)
    browser = as_user(cast.co_gardener)
    assert browser.post(address, {"caption": "x" * 201}).status_code == 422
    assert browser.post(address, {"caption": "Beans in flower", "may_show": "on"}).url == log_page
    photo.refresh_from_db()
    assert (photo.caption, photo.may_show) == ("Beans in flower", False)
    as_user(cast.holder).post(address, {"caption": "Beans in flower", "may_show": "on"})
    assert LogPhoto.objects.get().may_show
    page = browser.post(to("log_photo_remove", cast, photo.key), follow=True)
    assert to("log_photo_restore", cast, photo.key) in page.content.decode()
    assert "is taken away" in text_of(browser.get(address))
    browser.post(to("log_photo_restore", cast, photo.key))
    assert LogPhoto.objects.standing().count() == 1


def test_ones_own_data_brings_the_photos_one_took(cast, as_user, photo):
    for person, files in ((cast.holder, [f"photos/{photo.image.name}"]), (cast.co_gardener, [])):
        answer = as_user(person).get(reverse("schedules:own_data"))
        archive = zipfile.ZipFile(BytesIO(answer.getvalue()))
        assert [name for name in archive.namelist() if name.startswith("photos/")] == files
        if files:
            assert archive.read(files[0]) == PICTURE.image
            assert photo.image.name in archive.read("photos.csv").decode()
