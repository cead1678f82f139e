"""Trugbook as it runs for keeps, in a process of its own with its own database, so that it can be killed."""

from __future__ import annotations

import os
import signal
import socket
import sqlite3
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from time import monotonic, sleep
from urllib.error import URLError
from urllib.request import urlopen

ROOT = Path(__file__).resolve().parents[2]
# The cast of every test and, on the last line, a link to come in as its holder.
FILL = """
import django
django.setup()
from plots import service
from tests.cast import make_cast
print(service.make_link(user=make_cast().holder))
"""


class RealServer:
    def __init__(self, folder: Path) -> None:
        self.folder = folder
        with socket.socket() as probe:
            probe.bind(("127.0.0.1", 0))
            self.port = probe.getsockname()[1]
        self.url = f"http://127.0.0.1:{self.port}"
        here = {"DATA_DIR": str(folder), "SITE_URL": self.url, "DJANGO_SETTINGS_MODULE": "plots.settings"}
        # Gone: what the run of the tests may have set for itself.
        self.environment = {k: v for k, v in os.environ.items() if not k.startswith("DATABASE_URL")} | here
        self.process: subprocess.Popen[bytes] | None = None

    def _run(self, *words: str) -> str:
        done = subprocess.run(
            [sys.executable, *words],
            cwd=ROOT,
            env=self.environment,
            capture_output=True,
            text=True,
            check=True,
        )
        return done.stdout

    def gather(self) -> Path:
        """Gives style sheets and scripts the names under which browsers keep them; returns their folder."""
        self._run("manage.py", "collectstatic", "--noinput")
        return self.folder / "static"

    def fill(self) -> str:
        """Makes the database; returns the link."""
        self._run("manage.py", "migrate", "--verbosity", "0")
        return self._run("-c", FILL).split()[-1]

    def start(self) -> None:
        command = ["-m", "gunicorn", "plots.wsgi", "--bind", f"127.0.0.1:{self.port}", "--threads", "4"]
        self.process = subprocess.Popen(
            [sys.executable, *command, "--no-control-socket", "--log-level", "error"],
            cwd=ROOT,
            env=self.environment,
            start_new_session=True,
        )
        until = monotonic() + 90
        while True:
            try:
                urlopen(f"{self.url}/health/live", timeout=1).close()  # noqa: S310 (this machine)
                return
            except (URLError, OSError):
                assert monotonic() < until, "the server does not come up"
                sleep(0.1)

    def kill(self) -> None:
        """As a power cut would: at once, whatever it is doing."""
        if self.process is not None:
            os.killpg(self.process.pid, signal.SIGKILL)
            self.process.wait()
            self.process = None

    @contextmanager
    def paused(self) -> Iterator[None]:
        """It takes calls and answers none."""
        assert self.process is not None
        os.killpg(self.process.pid, signal.SIGSTOP)
        try:
            yield
        finally:
            os.killpg(self.process.pid, signal.SIGCONT)

    def count(self, sql: str) -> int:
        with sqlite3.connect(
            f"file:{self.folder}/trugbook.sqlite3?mode=ro", uri=True, timeout=20
        ) as database:
            return int(database.execute(sql).fetchone()[0])
