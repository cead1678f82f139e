"""A care round on a phone, the private matter that comes of it, and pauses, as their people press them."""

from datetime import timedelta

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.urls import reverse

from plots.models import Change, Finding, Matter, Pause
from plots.photos import Picture
from plots.service import begin_round, keep_finding, open_matter, pause
from plots.service.photos import photograph
from schedules.models import WorkLog
from tests.factories import AssignmentFactory, PlotFactory
from tests.pictures import jpeg
from tests.texts import text_of


def to(name, garden, *rest):
    return reverse(f"plots:{name}", args=[garden.slug, *rest])


def begin(cast):
    return begin_round(garden=cast.garden, on=cast.garden.today(), by=cast.coordinator)


def matter(cast):
    return open_matter(assignment=cast.assignment, finding=None, on=cast.garden.today(), by=cast.coordinator)


def test_a_round_goes_from_plot_to_plot_and_ends_at_its_list(cast, as_user):
    PlotFactory(garden=cast.garden, label="A2")
    browser = as_user(cast.coordinator)
    first = browser.post(to("care_begin", cast.garden))
    second = browser.post(first.url, {"line": 3, "note": "Bindweed"})
    assert first.url != second.url
    last = browser.post(second.url, {"line": 1, "note": ""})
    assert last.url == to("care_round", cast.garden, cast.garden.care_rounds.get().pk)
    assert list(Finding.objects.order_by("plot__label").values_list("plot__label", "line", "note")) == [
        ("A1", 3, "Bindweed"),
        ("A2", 1, ""),
    ]
    page = text_of(browser.get(last.url))
    assert "Every plot was seen." in page
    assert "Open a matter for plot A1" in page
    assert "Open a matter for plot A2" not in page


def test_the_same_as_last_time_is_one_button(cast, as_user):
    today = cast.garden.today()
    old = begin_round(garden=cast.garden, on=today - timedelta(days=14), by=cast.coordinator)
    keep_finding(round=old, plot=cast.plot, line=2, note="", by=cast.coordinator)
    page = as_user(cast.coordinator).get(to("care_stop", cast.garden, begin(cast).pk, cast.plot.pk))
    assert "Same as last time: kept, some weeds" in text_of(page)


def test_a_state_that_the_rubric_has_not_keeps_the_note(cast, as_user):
    address = to("care_stop", cast.garden, begin(cast).pk, cast.plot.pk)
    page = as_user(cast.coordinator).post(address, {"line": 9, "note": "Bindweed"})
    assert page.status_code == 422
    assert "Bindweed" in text_of(page)


def test_a_matter_goes_from_talk_to_notice_to_its_end(cast, as_user):
    browser, found, today = as_user(cast.coordinator), matter(cast), cast.garden.today()
    for _time in range(3):
        browser.post(to("matter_step", cast.garden, found.pk, "contact"), {"day": today, "how": "phone"})
    assert "Give a notice" in text_of(browser.get(to("matter", cast.garden, found.pk)))
    draft = browser.get(to("matter_step", cast.garden, found.pk, "notice")).context["form"].initial
    assert draft["text"].startswith("Dear Hollis,")
    given = {"day": today, "how": "post", "due_on": draft["due_on"], "text": draft["text"]}
    browser.post(to("matter_step", cast.garden, found.pk, "notice"), given)
    browser.post(to("matter_step", cast.garden, found.pk, "outcome"), {"day": today, "outcome": "right"})
    found.refresh_from_db()
    assert (found.closed_on, found.outcome) == (today, "right")
    last = found.steps.last()
    browser.post(to("matter_step_back", cast.garden, found.pk, last.pk))
    found.refresh_from_db()
    assert found.closed_on is None
    assert found.steps.count() == 5


def test_a_notice_goes_by_email_when_that_is_ticked(cast, as_user, settings, mailoutbox):
    settings.EMAIL_FROM = "garden@example.org"
    cast.holder.email = "hollis@example.org"
    cast.holder.save()
    found, today = matter(cast), cast.garden.today()
    given = {"day": today, "how": "email", "due_on": today, "text": "Dear Hollis", "send": "on"}
    as_user(cast.coordinator).post(to("matter_step", cast.garden, found.pk, "notice"), given)
    assert [(mail.to, mail.body) for mail in mailoutbox] == [(["hollis@example.org"], "Dear Hollis")]


def test_the_history_of_a_matter_keeps_no_private_words(cast, as_user):
    found, today = matter(cast), cast.garden.today()
    said = {"day": today, "how": "person", "done": "on", "text": "a secret word"}
    as_user(cast.coordinator).post(to("matter_step", cast.garden, found.pk, "contact"), said)
    assert found.steps.get().text == "a secret word"
    assert "secret" not in str(list(Change.objects.values()))
    assert set(Change.objects.values_list("about_model", flat=True)) == {"plots.matter"}


def test_members_see_nothing_of_a_matter(cast, as_user):
    keep_finding(round=begin(cast), plot=cast.plot, line=4, note="xyzzy", by=cast.coordinator)
    matter(cast)
    for person in (cast.member, cast.helper):
        for name in ("garden", "plots", "members", "pauses"):
            assert "xyzzy" not in text_of(as_user(person).get(to(name, cast.garden)))
    assert as_user(cast.member).get(to("matters", cast.garden)).status_code == 403


def test_a_pause_is_one_tap_and_stops_the_clock(cast, as_user):
    AssignmentFactory(plot__garden=cast.garden, season=cast.assignment.season)
    found, own = matter(cast), as_user(cast.holder)
    address = to("pause_new", cast.garden, cast.assignment.pk)
    for wrong, says in [
        ({"why": "travel", "until": "2001-05-31"}, "This day is over."),
        ({"why": "travel", "until": "May 41"}, "Please write a day that there is"),
        ({"until": "2001-05-31"}, "Please choose one."),
    ]:
        page = own.post(address, wrong)
        assert (page.status_code, says in text_of(page)) == (422, True)
        assert page.context["form"]["until"].value() == wrong["until"]
    own.post(address, {"why": "travel"})
    assert Pause.objects.get().why == "travel"
    page = as_user(cast.coordinator).get(to("matter", cast.garden, found.pk))
    assert "nothing is asked of them" in text_of(page)
    own.post(to("pause_end", cast.garden, cast.assignment.pk))
    assert not Pause.objects.exists()


def test_a_photo_on_a_finding_is_for_those_trusted_with_care_alone(cast, as_user):
    walk, browser = begin(cast), as_user(cast.deputy)
    address = to("care_stop", cast.garden, walk.pk, cast.plot.pk)
    wrong = browser.post(
        address, {"line": 1, "note": "Bindweed", "photos": SimpleUploadedFile("x.jpg", b"GIF89a")}
    )
    assert wrong.status_code == 422
    assert "x.jpg: This is no photo" in text_of(wrong)
    browser.post(address, {"line": 3, "photos": SimpleUploadedFile("x.jpg", jpeg())})
    photo = Finding.objects.get().photos.get()
    picture = to("finding_photo", cast.garden, photo.key, "image")
    assert picture in browser.get(address).content.decode()
    found = open_matter(
        assignment=cast.assignment, finding=photo.finding, on=cast.garden.today(), by=cast.deputy
    )
    assert picture in browser.get(to("matter", cast.garden, found.pk)).content.decode()
    assert browser.get(picture)["Content-Type"] == "image/jpeg"
    assert as_user(cast.holder).get(picture).status_code == 403
    browser.post(to("finding_photo_remove", cast.garden, photo.key))
    assert browser.get(picture).status_code == 404
    browser.post(to("finding_photo_restore", cast.garden, photo.key))
    assert browser.get(picture).status_code == 200


def worked(cast, plot, days, work="weed"):
    day = cast.garden.today() - timedelta(days=days)
    told = {"day": day, "person": cast.holder, "made_by": cast.holder}
    return WorkLog.objects.create(garden=cast.garden, plot=plot, work=work, **told)


def test_a_round_says_when_plots_were_last_worked_and_finds_the_quiet_ones(cast, as_user):
    cast.garden.rules.round_from = ""
    cast.garden.rules.save()
    other = AssignmentFactory(plot__garden=cast.garden, plot__label="A2", season=cast.assignment.season)
    for plot, days in ((cast.plot, 19), (cast.plot, 40), (other.plot, 30)):
        worked(cast, plot, days)
    worked(cast, other.plot, 2, "note")
    walk, browser = begin(cast), as_user(cast.deputy)
    address = to("care_round", cast.garden, walk.pk)
    page = text_of(browser.get(address))
    assert "19 days ago: weeded" in page
    assert [row.stop.plot.label for row in browser.get(address, {"logs": "quiet"}).context["shown"].rows] == [
        "A2"
    ]
    assert "Nothing logged for 30 days" in text_of(browser.get(f"{address}{other.plot.pk}/"))
    pause(assignment=other, why="illness", until=None, on=cast.garden.today(), by=other.holder)
    assert not browser.get(address, {"logs": "quiet"}).context["shown"].rows
    assert '"A2"' not in browser.get(address, {"as": "csv", "logs": "quiet"}).content.decode()
    for person, shown in ((cast.deputy, True), (cast.helper, True), (cast.holder, False)):
        assert ("19 days ago: weeded" in text_of(as_user(person).get(to("plots", cast.garden)))) is shown


@pytest.mark.parametrize("count", [1, 3])
def test_lists_ask_as_much_for_one_as_for_three(count, cast, as_user, django_assert_num_queries):
    for number in range(count):
        held = AssignmentFactory(
            plot__garden=cast.garden, plot__label=f"Q{number}", season=cast.assignment.season
        )
        Matter.objects.create(assignment=held, opened_on=cast.garden.today())
        worked(cast, held.plot, number)
        finding = keep_finding(round=begin(cast), plot=held.plot, line=1, note="", by=cast.coordinator)
        photograph(finding=finding, pictures=[Picture(b"x", b"x", 8, 6)], by=cast.coordinator)
    walk, browser = begin(cast), as_user(cast.coordinator)
    with django_assert_num_queries(8):
        browser.get(to("matters", cast.garden))
    with django_assert_num_queries(15):
        browser.get(to("care_round", cast.garden, walk.pk))
