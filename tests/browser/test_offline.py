"""Logs made without signal: at phone size, with the network off, all there once."""

from io import BytesIO
from random import Random
from threading import Event
from time import monotonic, sleep
from urllib.parse import urlsplit

import pytest
from PIL import Image
from playwright.sync_api import BrowserContext, CDPSession, Page, expect

from plots.middleware import PagesPrivate
from schedules.models import LogPhoto, WorkLog
from tests.browser.conftest import CHROMIUM, PHONE, SWITCHES
from tests.browser.looking import check
from tests.browser.pocket import (
    LOG,
    PATIENCE,
    WEEK,
    keep,
    line,
    listen,
    notes,
    open_form,
    pages_kept,
    until,
    visit,
)
from tests.browser.real_server import RealServer
from tests.factories import AssignmentFactory, PlantingFactory


@pytest.fixture
def phone(holders_phone) -> Page:
    return holders_phone


def test_a_log_without_signal_is_kept_shown_and_sent_once_when_it_returns(phone, cast):
    context = phone.context
    context.set_offline(True)
    phone.goto("/")
    expect(phone.get_by_role("heading", name="This week")).to_be_visible()
    expect(phone.get_by_text("No signal: this page is as it was on")).to_be_visible()
    check(phone)
    open_form(phone, cast.plot)
    keep(phone, "first")
    phone.get_by_role("button", name="Same again").click()
    keep(phone, "second")
    phone.get_by_role("button", name="Undo").click()
    expect(phone.locator("[name=note]")).to_have_value("second")
    keep(phone, "third")
    expect(line(phone, "2 kept on this phone")).to_be_visible()
    phone.goto("/g/linden-row/members/")
    expect(line(phone, "has not been kept on this phone")).to_be_visible()
    expect(phone.get_by_role("listitem").filter(has_text="third")).to_be_visible()
    check(phone)
    assert notes() == []

    # The first answer is lost on its way: what was sent is sent again, and is there once.
    sent, lost = [], []

    def lose(route) -> None:
        if route.request.method == "POST" and not sent:
            sent.append(route.request)
            lost.append(route.fetch().status)
            route.abort()
        else:
            route.continue_()

    context.route(f"**{LOG}", lose)
    context.set_offline(False)
    phone.goto(WEEK)
    until(phone, notes, ["first", "third"])
    assert lost == [201]
    expect(line(phone, "kept on this phone")).to_have_count(0)


def test_undo_of_what_has_arrived_waits_for_signal_too(phone, cast):
    open_form(phone, cast.plot)
    keep(phone, "a mistake")
    expect(phone.locator("[data-sent]").first).to_be_visible()
    until(phone, notes, ["a mistake"])
    phone.context.set_offline(True)
    phone.get_by_role("button", name="Undo").click()
    expect(phone.get_by_text("Taken back.")).to_be_visible()
    phone.context.set_offline(False)
    until(phone, notes, [])


def test_a_refused_log_comes_back_with_its_reason_its_text_and_its_photo(phone, cast):
    phone.context.set_offline(True)
    open_form(phone, cast.plot)
    phone.locator("[name=day]").fill("1998-05-04")
    phone.locator("[name=photos]").set_input_files([picture(1)])
    keep(phone, "written long ago")
    phone.context.set_offline(False)
    phone.goto(WEEK)
    phone.get_by_role("link", name="Came back to this phone: 1").click()
    row = phone.get_by_role("listitem").filter(has_text="written long ago")
    expect(row.locator(".error")).to_contain_text("The garden could not take it as it is.")
    check(phone)
    row.get_by_role("link", name="Edit and send again").click()
    day = phone.locator("[name=day]")
    expect(day).to_have_value("1998-05-04")
    expect(day).to_have_attribute("aria-invalid", "true")
    expect(phone.locator("[name=note]")).to_have_value("written long ago")
    check(phone)
    assert notes() == []
    day.fill(cast.garden.today().isoformat())
    keep(phone, "written today")
    until(phone, notes, ["written today"])
    until(phone, LogPhoto.objects.filter(log__note="written today").count, 1)
    expect(line(phone, "Came back")).to_have_count(0)

    # With the form still open it comes back into the form itself.
    phone.get_by_role("button", name="Same again").click()
    day.fill("1998-05-05")
    phone.locator("form[data-log] button.action").click()
    expect(day).to_have_attribute("aria-invalid", "true")
    phone.goto("/phone/")
    phone.get_by_role("button", name="Discard", exact=True).click()
    phone.get_by_role("button", name="Undo").click()
    phone.get_by_role("button", name="Discard", exact=True).click()
    expect(phone.get_by_text("Nothing waits")).to_be_visible()

    # A photo that is none comes back alone, and says of which log it was.
    open_form(phone, cast.plot)
    page = {"name": "page.jpg", "mimeType": "image/jpeg", "buffer": b"<html>"}
    phone.locator("[name=photos]").set_input_files([page])
    keep(phone, "with a page")
    expect(line(phone, "Came back to this phone: 1")).to_be_visible()
    phone.goto("/phone/")
    row = phone.get_by_role("listitem").filter(has_text="page.jpg: Note")
    expect(row).to_contain_text("with a page")
    expect(row.locator(".error")).to_contain_text("This is no photo in a format that every browser shows")


def test_logs_wait_for_their_author_whoever_signs_in(phone, cast, enter):
    context = phone.context
    context.set_offline(True)
    open_form(phone, cast.plot)
    keep(phone, "by Hollis")
    session = context.cookies()
    context.clear_cookies()
    context.set_offline(False)
    phone.goto("/phone/")
    expect(line(phone, "1 kept on this phone. Sign in to send.")).to_be_visible()
    check(phone)

    enter(phone, cast.coordinator)
    visit(phone)
    expect(line(phone, "Logs of another person that wait on this phone: 1")).to_be_visible()
    open_form(phone, cast.plot)
    keep(phone, "by Cora")
    until(phone, notes, ["by Cora"])
    expect(line(phone, "1 kept on this phone")).to_have_count(0)  # the answer has come, too
    phone.goto("/phone/")
    expect(phone.get_by_text("That person is not coming back")).to_be_visible()  # the list is drawn
    expect(phone.get_by_text("by Hollis")).to_be_hidden()
    check(phone)

    # Signing out warns whoever has logs here, and keeps them.
    context.set_offline(True)
    open_form(phone, cast.plot)
    keep(phone, "Cora, later")
    context.route("**/who/", lambda route: route.abort())
    context.set_offline(False)
    phone.get_by_role("button", name="Sign out").click()
    expect(line(phone, "Kept on this phone and not sent yet: 1")).to_be_visible()
    phone.get_by_role("button", name="Sign out").click()
    phone.wait_for_url("**/sign-in/")
    until(phone, lambda: pages_kept(phone, own=False), set())
    context.unroute("**/who/")
    expect(line(phone, "2 kept on this phone. Sign in to send.")).to_be_visible()

    context.add_cookies(session)
    phone.goto(WEEK)
    until(phone, notes, ["by Cora", "by Hollis"])
    assert {log.made_by for log in WorkLog.objects.filter(note="by Hollis")} == {cast.holder}
    expect(line(phone, "Logs of another person that wait on this phone: 1")).to_be_visible()
    phone.get_by_role("link", name="Logs of another person").click()
    phone.get_by_text("That person is not coming back").click()
    phone.get_by_role("button", name="Discard their logs").click()
    expect(line(phone, "Logs that wait for another person")).to_have_count(0)


def test_what_waits_goes_up_while_no_page_is_open(phone, cast):
    phone.context.set_offline(True)
    open_form(phone, cast.plot)
    keep(phone, "sent in the background")
    phone.goto("about:blank")
    # What the browser tells the worker by itself some time after signal is back.
    worker: dict[str, str] = {}
    session = phone.context.new_cdp_session(phone)
    session.on("ServiceWorker.workerRegistrationUpdated", lambda event: worker.update(known(event)))
    session.send("ServiceWorker.enable")
    until(phone, lambda: sorted(worker), ["origin", "registrationId"])
    phone.context.set_offline(False)

    def woken() -> list[str]:
        """Once more, as browsers do, if the worker did not have signal at once."""
        session.send("ServiceWorker.dispatchSyncEvent", {**worker, "tag": "outbox", "lastChance": False})
        phone.wait_for_timeout(500)
        return notes()

    until(phone, woken, ["sent in the background"])


def known(event: dict) -> dict[str, str]:
    return {
        name: value
        for one in event["registrations"]
        if not one["isDeleted"]
        for name, value in (
            ("origin", one["scopeURL"].removesuffix("/")),
            ("registrationId", one["registrationId"]),
        )
    }


def test_a_slow_garden_is_shown_as_it_was_and_then_as_it_is(phone, cast, monkeypatch):
    at_once, may_answer = PagesPrivate.__call__, Event()

    def when_it_may(self, request):
        assert request.path not in (WEEK, LOG) or may_answer.wait(PATIENCE / 1000)
        return at_once(self, request)

    def goes_slowly(address: str) -> None:
        """Comes in while the garden has not answered: what is shown is what was kept."""
        may_answer.clear()
        phone.goto(address)

    monkeypatch.setattr(PagesPrivate, "__call__", when_it_may)
    AssignmentFactory(plot__garden=cast.garden, plot__label="B2", holder=cast.holder)
    goes_slowly(WEEK)
    expect(phone.get_by_role("link", name="Plan of plot B2")).to_have_count(0)
    may_answer.set()
    expect(phone.get_by_role("link", name="Plan of plot B2")).to_be_visible()
    expect(line(phone, "No signal")).to_have_count(0)

    # Nothing changes under the hands of somebody who is writing.
    AssignmentFactory(plot__garden=cast.garden, plot__label="C3", holder=cast.holder)
    goes_slowly(WEEK)
    phone.get_by_role("link", name="Plan of plot A1").focus()
    may_answer.set()
    phone.get_by_role("button", name="Show it").click()
    expect(phone.get_by_role("link", name="Plan of plot C3")).to_be_visible()

    # A form kept for other work opens with what the garden would choose, once it says so.
    planting = PlantingFactory(plot=cast.plot, year=cast.garden.today().year)
    phone.goto(LOG)
    chosen = phone.locator("[name=planting]")
    expect(chosen.locator(f"option[value='{planting.pk}']")).to_have_count(1)
    goes_slowly(f"{LOG}?work=harvest")
    expect(phone.locator("[name=work]")).to_have_value("harvest")
    assert chosen.input_value() == ""
    may_answer.set()
    expect(chosen).to_have_value(str(planting.pk))


def test_plain_http_logs_the_plain_way_and_says_what_it_lacks(live_server, chromium, cast, settings, enter):
    settings.ALLOWED_HOSTS = ["garden.test"]
    port = urlsplit(live_server.url).port
    rules = "--host-resolver-rules=MAP garden.test 127.0.0.1"
    started = chromium.launch(executable_path=CHROMIUM, args=[*SWITCHES, rules])
    page = started.new_page(base_url=f"http://garden.test:{port}", **PHONE)
    enter(page, cast.holder)
    open_form(page, cast.plot)
    expect(page.get_by_text("keeping logs on the phone without signal needs https")).to_be_visible()
    check(page)
    page.locator("[name=note]").fill("by the plain way")
    page.locator("form[data-log] button.action").click()
    expect(page.get_by_text("Kept:")).to_be_visible()
    assert notes() == ["by the plain way"]
    page.goto("/phone/")
    expect(page.get_by_text("At this address nothing can be kept on the phone")).to_be_visible()
    started.close()


def picture(number: int) -> dict[str, object]:
    """A photo as a phone takes it: large, of its own, hard to make smaller."""
    noise = Random(number).randbytes(400 * 300 * 3)  # noqa: S311 (a picture, not a secret)
    drawn = Image.frombytes("RGB", (400, 300), noise).resize((2400, 1800))
    file = BytesIO()
    drawn.save(file, "JPEG", quality=92)
    return {"name": f"photo-{number}.jpg", "mimeType": "image/jpeg", "buffer": file.getvalue()}


# Presses the two buttons as a thumb would, in the page itself, so that a hundred logs take seconds.
MANY = """async (count) => {
  for (let number = 1; number <= count; number++) {
    const form = document.querySelector("form[data-log]");
    form.querySelector("[name=note]").value = `log ${number}`;
    form.querySelector("button.action").click();
    while (!document.querySelector(".message.kept")) await new Promise((next) => setTimeout(next, 2));
    if (number < count) document.querySelector("[data-again]").click();
  }
}"""


def test_a_hundred_logs_and_ten_photos_outlive_the_browser_and_the_server(tmp_path, chromium):
    """The whole promise, against a server of its own: offline, restarted, killed twice, all there once."""
    server = RealServer(tmp_path / "data")
    link = server.fill()
    server.start()
    errors: list[str] = []
    try:

        def open_browser() -> tuple[BrowserContext, Page]:
            context = chromium.launch_persistent_context(
                tmp_path / "profile",
                executable_path=CHROMIUM,
                args=SWITCHES,
                base_url=server.url,
                **PHONE,
            )
            listen(context.pages[0], errors)
            return context, context.pages[0]

        context, page = open_browser()
        page.goto(link)
        page.get_by_role("button", name="Sign in").click()
        page.wait_for_url(f"**{WEEK}")
        visit(page)
        context.set_offline(True)
        open_form(page, 1)
        page.evaluate(MANY, 90)
        for number in range(0, 10, 2):
            page.get_by_role("button", name="Same again").click()
            page.locator("[name=photos]").set_input_files([picture(number), picture(number + 1)])
            keep(page, f"with photos {number}")
            page.get_by_role("button", name="Same again").click()
            keep(page, f"after them {number}")
        expect(line(page, "100 kept on this phone")).to_be_visible()
        context.close()

        server.kill()
        context, page = open_browser()
        page.goto("/")
        expect(line(page, "100 kept on this phone")).to_be_visible()
        server.start()
        network = page.context.new_cdp_session(page)
        slow(network, latency=60)
        page.evaluate("dispatchEvent(new Event('online'))")
        wait_for(lambda: server.count(LOGS) >= 20)
        server.kill()
        at_once = server.count(LOGS)
        assert 20 <= at_once < 100
        server.start()
        slow(network, latency=20, bytes_a_second=800_000)
        page.evaluate("dispatchEvent(new Event('online'))")
        wait_for(lambda: server.count(PHOTOS) >= 3)
        server.kill()
        assert 3 <= server.count(PHOTOS) < 10
        server.start()
        slow(network, latency=0)
        page.goto(WEEK)
        page.evaluate("dispatchEvent(new Event('online'))")
        wait_for(lambda: server.count(PHOTOS) == 10)
        expect(line(page, "kept on this phone")).to_have_count(0)
        context.close()
        assert server.count(LOGS) == 100
        assert server.count("SELECT COUNT(DISTINCT note) FROM schedules_worklog") == 100
        assert server.count(PHOTOS) == 10
        assert server.count("SELECT COUNT(DISTINCT log_id) FROM schedules_logphoto") == 5
    finally:
        server.kill()
    assert errors == []


LOGS = "SELECT COUNT(*) FROM schedules_worklog"
PHOTOS = "SELECT COUNT(*) FROM schedules_logphoto"


def wait_for(happened) -> None:
    end = monotonic() + 3 * PATIENCE / 1000
    while not happened():
        assert monotonic() < end
        sleep(0.02)


def slow(network: CDPSession, *, latency: int, bytes_a_second: int = -1) -> None:
    """Makes sending last long enough to be cut off in the middle; `latency` is milliseconds an answer."""
    network.send("Network.enable")
    speed = {"latency": latency, "downloadThroughput": -1, "uploadThroughput": bytes_a_second}
    network.send("Network.emulateNetworkConditions", {"offline": False, **speed})
