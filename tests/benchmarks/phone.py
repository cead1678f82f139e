"""How heavy and how quick Trugbook is on a phone: slow 4G and a processor four times slower, in Chromium.

Run by hand: `python -m tests.benchmarks.phone`. It serves a demo garden of its own, gone afterwards, and
prints each figure beside its budget. Chromium itself slows the network, by the figures of its developer
tools' “Slow 4G” (562.5 ms to the first byte, 1.44 Mbit/s down, 0.675 Mbit/s up), for pages and for the worker
behind them, and the processor of the pages. Bytes are counted by a relay between the two, so that nothing
that goes either way is missed: what the worker fetches, headers, forms that are sent.
"""

from __future__ import annotations

import json
import os
import re
import shutil
import signal
import socket
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from io import BytesIO
from itertools import product
from pathlib import Path
from statistics import median
from tempfile import TemporaryDirectory
from threading import Lock, Thread
from time import monotonic, sleep

from PIL import Image
from playwright.sync_api import Browser, BrowserContext, CDPSession, Page, sync_playwright

ROOT = Path(__file__).resolve().parents[2]
SLOW_4G = {"offline": False, "latency": 562.5, "downloadThroughput": 180_000, "uploadThroughput": 84_375}
PHONE = {
    "viewport": {"width": 390, "height": 844},
    "device_scale_factor": 3,
    "is_mobile": True,
    "has_touch": True,
}
CALM = 2500  # milliseconds without a request, after which a visit is over
ROUNDS = 5
LOOKED_AT = 1500  # milliseconds between choosing a photo and the press, as quick as a hand is
# From the press until the words stand on the screen, two frames after they were written.
WATCH = """() => { window.told = new Promise((resolve) => {
  let pressed = 0;
  addEventListener("click", (event) => { pressed = event.timeStamp; }, { capture: true, once: true });
  new MutationObserver(() => {
    if (!document.querySelector(".message.kept")) return;
    requestAnimationFrame(() => requestAnimationFrame(() => resolve(performance.now() - pressed)));
  }).observe(document.body, { childList: true, subtree: true });
}); }"""
PAINTED = "() => performance.getEntriesByName('first-contentful-paint')[0]?.startTime ?? 0"


class Relay:
    """Stands between browser and server, and counts the bytes that go up and down."""

    def __init__(self, server: int) -> None:
        self.server = server
        self.up = self.down = 0
        self.lock = Lock()
        self.door = socket.create_server(("127.0.0.1", 0))
        self.port = self.door.getsockname()[1]
        Thread(target=self._let_in, daemon=True).start()

    @property
    def both(self) -> int:
        return self.up + self.down

    def _let_in(self) -> None:
        while True:
            inside, _address = self.door.accept()
            outside = socket.create_connection(("127.0.0.1", self.server))
            Thread(target=self._carry, args=(inside, outside, True), daemon=True).start()
            Thread(target=self._carry, args=(outside, inside, False), daemon=True).start()

    def _carry(self, source: socket.socket, sink: socket.socket, up: bool) -> None:
        with suppress(OSError):
            while part := source.recv(65536):
                with self.lock:
                    self.up, self.down = self.up + len(part) * up, self.down + len(part) * (not up)
                sink.sendall(part)
        with suppress(OSError):
            sink.shutdown(socket.SHUT_WR)


class Wire:
    """Slows down everything that goes over the network, the service worker's part too."""

    def __init__(self, browser: Browser) -> None:
        self.root = browser.new_browser_cdp_session()
        self.root.on("Target.targetCreated", self._target)
        self.root.send("Target.setDiscoverTargets", {"discover": True})

    def _target(self, event: dict) -> None:
        about = event["targetInfo"]
        if about["type"] != "service_worker":
            return
        session = self.root.send("Target.attachToTarget", {"targetId": about["targetId"], "flatten": False})
        for number, (method, values) in enumerate(
            [("Network.enable", {}), ("Network.emulateNetworkConditions", SLOW_4G)], 1
        ):
            message = json.dumps({"id": number, "method": method, "params": values})
            self.root.send(
                "Target.sendMessageToTarget", {"sessionId": session["sessionId"], "message": message}
            )

    def slow(self, page: Page) -> CDPSession:
        session = page.context.new_cdp_session(page)
        session.send("Network.enable")
        session.send("Network.emulateNetworkConditions", SLOW_4G)
        session.send("Emulation.setCPUThrottlingRate", {"rate": 4})
        return session


def until_it_listens(port: int) -> None:
    """It says that it serves a moment before it does."""
    end = monotonic() + 30
    while True:
        try:
            return socket.create_connection(("127.0.0.1", port)).close()
        except OSError:
            assert monotonic() < end, "the demo does not answer"
            sleep(0.1)


@contextmanager
def demo() -> Iterator[tuple[str, Relay]]:
    """A demo garden on this machine; gives the link of a member, through a relay."""
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        port = probe.getsockname()[1]
    with TemporaryDirectory() as folder:
        environment = {**os.environ, "DATA_DIR": folder, "PYTHONUNBUFFERED": "1"}
        server = subprocess.Popen(
            [sys.executable, "manage.py", "demo", "--port", str(port)],
            cwd=ROOT,
            env=environment,
            stdout=subprocess.PIPE,
            text=True,
            start_new_session=True,
        )
        try:
            assert server.stdout is not None
            said = ""
            for line in server.stdout:
                said += line
                if line.startswith("Serving"):
                    break
            link = re.search(r"with a plan.*\n\s+(http\S+)", said)
            assert link, said
            until_it_listens(port)
            relay = Relay(port)
            yield link.group(1).replace(f":{port}/", f":{relay.port}/"), relay
        finally:
            os.killpg(server.pid, signal.SIGKILL)
            server.wait()


def tell(what: str, figure: float, budget: float, unit: str) -> None:
    verdict = "within" if figure <= budget else "OVER"
    print(f"{what}: {figure:,.0f} {unit}, {verdict} {budget:,.0f} {unit}")


def first_visit(context: BrowserContext, wire: Wire, relay: Relay, link: str) -> str:
    """From an empty browser by a link to the week, and what is fetched ahead; gives the week's address."""
    page = context.new_page()
    wire.slow(page)
    page.goto(link, wait_until="networkidle")
    page.get_by_role("button", name="Sign in").click()
    page.wait_for_url("**/week/")
    before = -1
    while relay.both != before:
        before = relay.both
        page.wait_for_timeout(CALM)
    address = page.url
    page.close()
    return address


def return_visit(context: BrowserContext, wire: Wire, address: str) -> float:
    """Milliseconds from opening the app to the week on the screen, with the service worker asleep."""
    page = context.new_page()
    session = wire.slow(page)
    session.send("ServiceWorker.enable")
    session.send("ServiceWorker.stopAllWorkers")
    page.goto(address)
    page.wait_for_url("**/week/")
    page.locator("h1").wait_for()
    page.wait_for_function(f"({PAINTED})() > 0")
    shown = page.evaluate(PAINTED)
    page.close()
    return shown


def as_from_a_phone() -> dict:
    """A photo of 12 megapixels and some 4 MB: grain over soft shapes, as cameras see leaves."""
    size = (4032, 3024)
    soft = Image.effect_noise((63, 47), 90).resize(size, Image.Resampling.BICUBIC)
    grain = Image.effect_noise(size, 22)
    picture = Image.merge("RGB", (Image.blend(soft, grain, 0.3), soft, Image.blend(soft, grain, 0.5)))
    file = BytesIO()
    picture.save(file, "JPEG", quality=88)
    return {"name": "leaves.jpg", "mimeType": "image/jpeg", "buffer": file.getvalue()}


def acknowledged(
    context: BrowserContext, wire: Wire, week: str, *, signal: bool, photo: dict | None = None
) -> float:
    """Milliseconds from the press that keeps a log to its words on the screen."""
    page = context.new_page()
    wire.slow(page)
    page.goto(f"{week.removesuffix('week/')}log/?work=water")
    page.wait_for_timeout(1500)
    context.set_offline(not signal)
    if photo:
        page.locator("[name=photos]").set_input_files([photo])
        page.wait_for_timeout(LOOKED_AT)
    page.evaluate(WATCH)
    page.locator("form[data-log] button.action").first.click()
    took = page.evaluate("() => window.told")
    page.wait_for_timeout(500)
    context.set_offline(False)
    page.close()
    return took


def main() -> None:
    with demo() as (link, relay), sync_playwright() as playwright:
        root = link.rpartition("/link/")[0] + "/"
        browser = playwright.chromium.launch(
            executable_path=shutil.which("chromium"), args=["--no-sandbox", "--disable-gpu"]
        )
        context = browser.new_context(**PHONE)
        wire = Wire(browser)
        week = first_visit(context, wire, relay, link)
        tell("First visit, from an empty browser to all that is kept", relay.both / 1000, 100, "kB")
        print(f"  of that {relay.down / 1000:,.0f} kB down, {relay.up / 1000:,.0f} kB up")
        for what, address in (("the app's start", root), ("the week itself", week)):
            times = [return_visit(context, wire, address) for _ in range(ROUNDS)]
            tell(f"Return visit, {what}, median of {ROUNDS}", median(times), 1000, "ms")
        large = as_from_a_phone()
        shot = f"Log with a photo of {len(large['buffer']) / 1e6:.1f} MB"
        for (what, photo), (how, has_signal) in product(
            (("Log", None), (shot, large)), (("with", True), ("without", False))
        ):
            times = [acknowledged(context, wire, week, signal=has_signal, photo=photo) for _ in range(ROUNDS)]
            slowest = f"median of {ROUNDS}, the slowest {max(times):.0f} ms"
            tell(f"{what} acknowledged {how} signal, {slowest}", median(times), 100, "ms")
        browser.close()


if __name__ == "__main__":
    main()
