"""A real browser, on a phone and on a desk; whatever it complains of fails the test."""

import os
import shutil
from pathlib import Path

# Playwright's synchronous calls leave a running loop in this thread, which Django would otherwise refuse.
os.environ.setdefault("DJANGO_ALLOW_ASYNC_UNSAFE", "1")

import pytest
from playwright.sync_api import (
    Browser,
    BrowserContext,
    BrowserType,
    ConsoleMessage,
    Page,
    expect,
    sync_playwright,
)

from plots import service
from tests.browser.pocket import PATIENCE, listen, visit
from tests.concurrency import shared_database

CHROMIUM = next(filter(None, map(shutil.which, ("chromium", "chromium-browser", "google-chrome"))), None)
REQUIRED = any(os.environ.get(name) not in (None, "", "0") for name in ("TRUGBOOK_REQUIRE_BROWSER", "CI"))
NO_BROWSER = "the browser tests need Chromium, and this machine has none"
SWITCHES = [
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
]
PHONE = {
    "viewport": {"width": 390, "height": 844},
    "device_scale_factor": 3,
    "is_mobile": True,
    "has_touch": True,
}
DESKTOP = {"viewport": {"width": 1280, "height": 900}}

expect.set_options(timeout=PATIENCE)


def pytest_collection_modifyitems(items):
    if CHROMIUM:
        return
    if REQUIRED:
        raise pytest.UsageError(f"{NO_BROWSER}, though it is required here")
    here = Path(__file__).parent
    for item in items:
        if here in item.path.parents:
            item.add_marker(pytest.mark.skip(reason=NO_BROWSER))


def pytest_terminal_summary(terminalreporter):
    if not CHROMIUM:
        terminalreporter.section("BROWSER TESTS SKIPPED", red=True, bold=True)
        terminalreporter.line(f"None of them ran: {NO_BROWSER}. On Debian and Ubuntu: apt install chromium")


@pytest.fixture(scope="session")
def database_in_a_file(django_db_setup, django_db_blocker, tmp_path_factory):
    """As in a garden: threads wait for each other, where memory would refuse them."""
    with django_db_blocker.unblock(), shared_database(tmp_path_factory.mktemp("database")):
        yield


@pytest.fixture(scope="session")
def live_server(database_in_a_file, live_server):
    return live_server


@pytest.fixture(scope="session")
def chromium():
    """To start browsers of one's own, with other switches or a profile that is kept."""
    with sync_playwright() as playwright:
        yield playwright.chromium


@pytest.fixture(scope="session")
def browser(chromium: BrowserType):
    started = chromium.launch(executable_path=CHROMIUM, args=SWITCHES)
    yield started
    started.close()


@pytest.fixture
def new_page(browser: Browser, live_server):
    """Opens pages in contexts of their own; at the end none may have written an error to its console."""
    contexts: list[BrowserContext] = []
    errors: list[str] = []

    def open_page(**options) -> Page:
        context = browser.new_context(base_url=live_server.url, service_workers="block", **options)
        contexts.append(context)
        page = context.new_page()
        page.on("console", lambda said: errors.append(said.text) if _is_wrong(said) else None)
        page.on("pageerror", lambda error: errors.append(str(error)))
        page.set_default_timeout(PATIENCE)
        return page

    yield open_page
    for context in contexts:
        context.close()
    assert errors == []


def _is_wrong(said: ConsoleMessage) -> bool:
    """Whether a message is an error; that a form came back with mistakes (422) is not one."""
    return said.type == "error" and "status of 422" not in said.text


@pytest.fixture
def phone(new_page) -> Page:
    return new_page(**PHONE)


@pytest.fixture
def desktop(new_page) -> Page:
    return new_page(**DESKTOP)


@pytest.fixture(params=["phone", "desktop"])
def page(request) -> Page:
    """Both, one after the other."""
    return request.getfixturevalue(request.param)


@pytest.fixture
def enter(live_server):
    """Signs a person in as they would: opens their link and presses the button."""

    def through_link(page: Page, user) -> None:
        path = service.make_link(user=user).split("/", 3)[3]
        page.goto(f"/{path}")
        page.get_by_role("button", name="Sign in").click()
        page.wait_for_url(lambda url: "/link/" not in url)

    return through_link


@pytest.fixture
def faults_meant() -> list[str]:
    """What a test itself lets go wrong, in the browser's words; it adds to it."""
    return []


@pytest.fixture
def open_phone(browser, live_server, faults_meant):
    """Phones whose service worker works; none may complain of anything but missing signal."""
    contexts: list[BrowserContext] = []
    errors: list[str] = []

    def opened(**options) -> Page:
        context = browser.new_context(base_url=live_server.url, **{**PHONE, **options})
        contexts.append(context)
        page = context.new_page()
        listen(page, errors, faults_meant)
        return page

    yield opened
    for context in contexts:
        context.close()
    assert errors == []


@pytest.fixture
def holders_phone(open_phone, enter, cast) -> Page:
    """A holder's phone that has been to this week's page once, with signal."""
    page = open_phone()
    enter(page, cast.holder)
    visit(page)
    return page
