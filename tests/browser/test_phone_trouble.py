"""A phone with trouble of its own: no store, a log that stumbles, an update, a page taken away."""

import json
import shutil
from urllib.parse import urlsplit

import pytest
from playwright.sync_api import Page, expect

from plots.models import PlotKind
from schedules.models import LogPhoto, WorkLog
from tests.browser.conftest import CHROMIUM, PHONE, SWITCHES
from tests.browser.looking import check
from tests.browser.pocket import LOG, WEEK, keep, line, listen, notes, open_form, pages_kept, until, visit
from tests.browser.real_server import RealServer
from tests.browser.test_offline import picture
from tests.factories import CropFactory, PlotFactory


@pytest.fixture
def phone(holders_phone) -> Page:
    return holders_phone


# A store that is gone, as browsers leave it behind now and then: it fails at once, before the press is over.
NO_STORE = """() => {
  IDBFactory.prototype.open = () => { throw new DOMException("gone", "UnknownError"); };
  IDBDatabase.prototype.transaction = () => { throw new DOMException("gone", "InvalidStateError"); };
}"""


def test_where_nothing_can_be_kept_a_log_goes_the_plain_way_and_stays_in_its_form_until_then(phone, cast):
    open_form(phone, cast.plot)
    phone.evaluate(NO_STORE)
    phone.context.service_workers[0].evaluate(NO_STORE)
    phone.context.set_offline(True)
    phone.locator("[name=note]").fill("nowhere to keep it")
    phone.locator("form[data-log] button.action").click()
    expect(phone.get_by_text("Not kept: this phone has no room for it")).to_be_visible()
    expect(line(phone, "This phone cannot keep logs just now")).to_be_visible()
    expect(phone.locator("[name=note]")).to_have_value("nowhere to keep it")
    phone.context.set_offline(False)
    phone.locator("form[data-log] button.action").click()
    phone.wait_for_url(f"**{WEEK}")
    expect(phone.get_by_text("Kept: Note")).to_be_visible()
    assert notes() == ["nowhere to keep it"]


def test_a_store_that_the_browser_closed_is_opened_again(phone, cast):
    open_form(phone, cast.plot)
    phone.evaluate("""() => {
      const { transaction } = IDBDatabase.prototype;
      let first = true;
      IDBDatabase.prototype.transaction = function begin(...asked) {
        if (first) { first = false; throw new DOMException("closing", "InvalidStateError"); }
        return transaction.apply(this, asked);
      };
    }""")
    keep(phone, "kept all the same")
    until(phone, notes, ["kept all the same"])


def test_what_a_log_cannot_be_without_is_asked_before_it_is_kept(phone, cast):
    CropFactory()
    open_form(phone, cast.plot, "hours")
    expect(phone.locator("[name=crop] option")).to_have_count(2)  # as the garden knows them now
    phone.context.set_offline(True)
    button = phone.locator("form[data-log] button.action")
    button.click()
    asked = "(field) => field.validationMessage"
    assert phone.locator("[name=minutes]").evaluate(asked) == "How long did you work?"
    phone.locator("[name=work]").select_option("harvest")
    phone.locator("[name=planting]").select_option("")
    button.click()
    assert phone.locator("[name=planting]").evaluate(asked) == "Which planting or crop was “picked”?"
    expect(phone.locator(".message.kept")).to_have_count(0)
    phone.locator("[name=crop]").select_option(index=1)
    button.click()
    expect(line(phone, "1 kept on this phone")).to_be_visible()


def test_a_log_that_the_garden_stumbles_over_does_not_hold_up_the_others(phone, cast, faults_meant):
    faults_meant.append("status of 500")
    context = phone.context
    sent: list[str] = []

    def stumble(route) -> None:
        sent.append("photo" if "/photos/" in route.request.url else "log")
        if b"poison" in (route.request.post_data_buffer or b""):
            route.fulfill(status=500, body="Server Error")
        else:
            route.continue_()

    context.route(lambda url: "/log/" in url and "?" not in url, stumble)
    context.set_offline(True)
    open_form(phone, cast.plot)
    for note in ("with a photo", "poison", "last"):
        photos = [picture(1)] if note == "with a photo" else []
        phone.locator("[name=photos]").set_input_files(photos)
        keep(phone, note)
        phone.get_by_role("button", name="Same again").click()
    sent.clear()
    context.set_offline(False)
    until(phone, notes, ["with a photo", "last"])
    until(phone, LogPhoto.objects.count, 1)
    expect(line(phone, "1 kept on this phone")).to_be_visible()
    assert sent[:4] == ["log", "log", "log", "photo"]
    context.unroute_all()
    phone.evaluate("dispatchEvent(new Event('online'))")
    until(phone, lambda: sorted(notes()), ["last", "poison", "with a photo"])
    assert WorkLog.objects.count() == 3


def test_a_stake_opens_the_kept_form_at_its_plot_without_signal(phone, open_phone, enter, cast):
    bed = PlotFactory(garden=cast.garden, label="B 2", kind=PlotKind.COMMUNAL)
    phone.goto(LOG)
    until(phone, lambda: phone.evaluate(STAKES), 2)
    phone.context.set_offline(True)
    for plot in (bed, cast.plot):
        phone.goto(f"/at/{plot.stake_code.lower()}/")
        assert urlsplit(phone.url).path == LOG
        until(phone, lambda: phone.evaluate(TICKED), [str(plot.pk)])
    phone.locator("[name=work]").select_option("note")
    keep(phone, "at its stake")
    phone.goto("/at/CDF34MRT7/")
    expect(line(phone, "this phone does not know the code on this stake")).to_be_visible()
    check(phone)
    phone.context.set_offline(False)
    phone.goto(f"/at/{bed.stake_code}/")
    assert phone.url.endswith(f"{LOG}?plots={bed.pk}")
    until(phone, lambda: list(WorkLog.objects.values_list("plot", flat=True)), [cast.plot.pk])

    # Somebody who logs everywhere is not offered every plot to tick: another is named.
    other = open_phone()
    enter(other, cast.coordinator)
    visit(other)
    other.context.set_offline(True)
    other.goto(f"/at/{cast.plot.stake_code}/")
    expect(other.locator("[name=labels]")).to_have_value("A1")


def test_a_photo_is_on_the_phone_before_its_log_and_goes_if_its_form_is_left(phone, cast):
    phone.context.set_offline(True)
    open_form(phone, cast.plot)
    phone.locator("[name=photos]").set_input_files([picture(1)])
    until(phone, lambda: phone.evaluate(LAID_IN), [1, 1])
    open_form(phone, cast.plot)
    phone.evaluate(
        """() => { const { now } = Date; Date.now = () => now() + 90000000; return self.outbox.sweep(); }"""
    )
    assert phone.evaluate(LAID_IN) == [0, 0]
    phone.locator("[name=photos]").set_input_files([picture(2)])
    keep(phone, "with its photo")
    assert phone.evaluate(LAID_IN) == [1, 0]
    phone.context.set_offline(False)
    phone.evaluate("dispatchEvent(new Event('online'))")
    until(phone, LogPhoto.objects.count, 1)


def test_what_is_typed_outlives_a_page_fetched_anew(phone, cast):
    note, work = phone.locator("[name=note]"), phone.locator("[name=work]")
    for has_signal in (True, False):
        phone.context.set_offline(not has_signal)
        open_form(phone, cast.plot, "water")
        work.select_option("note")
        note.fill("half a sentence")
        phone.reload()
        expect(note).to_have_value("half a sentence")
        assert work.input_value() == "note"
    keep(phone, "a whole one")
    phone.reload()
    expect(phone.get_by_text("No signal: this page is as it was on")).to_be_visible()
    expect(note).to_have_value("")


TICKED = "[...document.querySelectorAll('[name=plots]:checked')].map((one) => one.value)"
# How many stakes the kept form of a log knows.
STAKES = """async () => {
  const html = await (await caches.match(location.href, { ignoreVary: true }))?.text();
  return html?.match(/data-stakes="([^"]*)"/)?.[1].split("],").length;
}"""
# How many photos the phone has, and how many of them belong to no log yet.
LAID_IN = """async () => {
  const store = await new Promise((resolve) => {
    const request = indexedDB.open("trugbook", 1);
    request.onsuccess = () => resolve(request.result);
  });
  const count = (name, range) => new Promise((resolve) => {
    const request = store.transaction(name).objectStore(name).count(range);
    request.onsuccess = () => resolve(request.result);
  });
  const counts = [await count("bytes"), await count("facts", IDBKeyRange.bound("draft-", "draft-~"))];
  store.close();
  return counts;
}"""


def test_a_page_that_is_not_theirs_any_more_leaves_the_phone(phone, cast):
    plan = f"/g/linden-row/plots/{cast.plot.pk}/plan/"
    phone.goto(plan)
    until(phone, lambda: plan in pages_kept(phone), True)
    cast.plot.assignments.all().delete()
    phone.goto(plan)
    until(phone, lambda: plan in pages_kept(phone, own=False), False)


def test_after_an_update_kept_pages_keep_their_scripts_and_new_ones_get_theirs(tmp_path, chromium):
    """Against a server of its own, with files as they are named for keeps."""
    server = RealServer(tmp_path / "data")
    link = server.fill()
    static = server.gather()
    server.start()
    errors: list[str] = []
    context = chromium.launch_persistent_context(
        tmp_path / "profile", executable_path=CHROMIUM, args=SWITCHES, base_url=server.url, **PHONE
    )
    try:
        page = context.pages[0]
        listen(page, errors)
        page.goto(link)
        page.get_by_role("button", name="Sign in").click()
        page.wait_for_url(f"**{WEEK}")
        visit(page)
        server.kill()
        renew(static, "js/phone.js")
        server.start()
        page.goto("/g/linden-row/when/")
        assert page.evaluate("self.renewed")
        until(page, lambda: len(page.evaluate(VERSIONS)), 2)
        until(page, lambda: page.evaluate(TAKEN_OVER), True)

        # What was kept before the update works as it did, though the browser itself has forgotten all files.
        session = context.new_cdp_session(page)
        session.send("Network.clearBrowserCache")
        context.set_offline(True)
        open_form(page, 1)
        assert not page.evaluate("self.renewed")
        keep(page, "with the scripts of before")
        context.set_offline(False)
        page.evaluate("dispatchEvent(new Event('online'))")
        expect(line(page, "kept on this phone")).to_have_count(0)

        # A copy that is shown first gives way to the new page with its own scripts.
        with server.paused():
            page.goto(WEEK)
            assert not page.evaluate("self.renewed")
        new_script = page.locator("head script[src*='.0123456789ab.']")
        expect(new_script).to_have_count(1)
        page.goto(LOG)
        expect(new_script).to_have_count(1)
        page.goto(WEEK)
        until(page, lambda: len(page.evaluate(VERSIONS)), 1)
        assert server.count("SELECT COUNT(*) FROM schedules_worklog") == 1
    finally:
        context.close()
        server.kill()
    assert errors == []


# Whether the new worker is all there is: else the old one might show a page that the new one is asked about.
TAKEN_OVER = """async () => {
  const { installing, waiting, active } = await navigator.serviceWorker.getRegistration();
  return !installing && !waiting && active.state === "activated";
}"""
VERSIONS = "async () => (await caches.keys()).filter((name) => name.startsWith('files-'))"


def renew(static, name: str) -> None:
    """What an update does to one file: another text, another name."""
    manifest = static / "staticfiles.json"
    told = json.loads(manifest.read_text())
    before = static / told["paths"][name]
    told["paths"][name] = name.replace(".js", ".0123456789ab.js")
    manifest.write_text(json.dumps(told))
    after = static / told["paths"][name]
    shutil.copy(before, after)
    with after.open("a") as file:
        file.write("\nself.renewed = true;\n")
