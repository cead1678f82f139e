"""What the tests of a phone that keeps logs and pages have in common."""

from collections.abc import Callable, Sequence
from time import monotonic

from playwright.sync_api import Locator, Page, expect

from plots.models import Plot
from schedules.models import WorkLog

LOG = "/g/linden-row/log/"
WEEK = "/g/linden-row/week/"
PATIENCE = 60_000  # milliseconds: how long a busy machine may take over one step
# What the browser itself says when there is no signal, or when a log is refused on purpose.
EXPECTED = (
    "net::ERR_",  # no signal, or a server killed before, in or after its answer
    "status of 4",
    "Manifest fetch",
)


def listen(page: Page, errors: list[str], more: Sequence[str] = ()) -> None:
    """Notes down every error of the page but those EXPECTED; what stands in `more` is expected too."""

    def heard(said) -> None:
        if said.type == "error" and not any(word in said.text for word in (*EXPECTED, *more)):
            errors.append(said.text)

    page.on("console", heard)
    page.on("pageerror", lambda error: errors.append(str(error)))
    page.set_default_timeout(PATIENCE)


# The paths of the pages that the phone has kept: for whoever this page was made for, or for anybody.
KEPT = """async ({ own }) => {
  const wanted = own ? `pages-${document.body.dataset.person}` : "pages-";
  const names = (await caches.keys()).filter((name) => (own ? name === wanted : name.startsWith(wanted)));
  const kept = await Promise.all(names.map(async (name) => (await caches.open(name)).keys()));
  return kept.flat().map((request) => new URL(request.url).pathname);
}"""


def pages_kept(page: Page, *, own: bool = True) -> set[str]:
    return set(page.evaluate(KEPT, {"own": own}))


def visit(page: Page) -> None:
    """Opens this week and waits until the phone has kept it and the log form."""
    page.goto(WEEK)
    until(page, lambda: {WEEK, LOG} - pages_kept(page), set())


def open_form(page: Page, plot: Plot | int, work: str = "note") -> None:
    """Opens the log form, and waits until it says what its address asks, for whatever work it was kept."""
    page.goto(f"{LOG}?work={work}&plot={plot if isinstance(plot, int) else plot.pk}")
    expect(page.locator("[name=work]")).to_have_value(work)


def keep(page: Page, note: str) -> None:
    """Fills the form in and presses its button; the phone says at once that it is kept."""
    page.locator("form[data-log] [name=note]").fill(note)
    page.locator("form[data-log] button.action").click()
    expect(page.locator(".message.kept")).to_be_visible()


def line(page: Page, text: str) -> Locator:
    """A sentence that can be seen; what is not said just now stands in the page too, hidden."""
    return page.get_by_text(text).filter(visible=True)


def until(page: Page, what: Callable[[], object], wanted: object) -> None:
    """Waits for what the garden has; the page goes on meanwhile."""
    end = monotonic() + PATIENCE / 1000
    while (now := what()) != wanted:
        assert monotonic() < end, f"{now}, not {wanted}"
        page.wait_for_timeout(50)


def notes() -> list[str]:
    return list(WorkLog.objects.standing().order_by("pk").values_list("note", flat=True))
