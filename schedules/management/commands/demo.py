"""`manage.py demo`: a garden to look around in, with a database of its own."""

from __future__ import annotations

import os
import socket
import sys
from argparse import ArgumentParser
from datetime import date, timedelta
from hashlib import sha256
from pathlib import Path
from typing import Any

from django.conf import settings
from django.core.management import call_command
from django.core.management.base import BaseCommand, CommandError
from django.db import connection
from django.utils import timezone

from plots import service
from plots.models import User
from schedules.service.demo import NORTH, SOUTH, build_demo
from schedules.service.demo_photos import take_photos

FRESH_FOR = timedelta(days=7)


class Command(BaseCommand):
    help = "Sets up the demonstration garden and serves it on this machine."
    requires_system_checks = ()

    def add_arguments(self, parser: ArgumentParser) -> None:
        parser.add_argument("--port", type=int, default=8000, help="where to serve it (8000)")
        parser.add_argument("--no-serve", action="store_true", help="only set it up and print the links")

    def handle(self, *args: Any, port: int, no_serve: bool, **options: Any) -> None:
        database = Path(connection.settings_dict["NAME"])
        if connection.vendor != "sqlite" or database.name != "demo.sqlite3":
            raise CommandError("The demo is started with: python3 manage.py demo")
        if not no_serve:
            _keep_port_free(port)
        self._renew(database)
        self._tell_who_comes_in()
        if not no_serve:
            call_command("collectstatic", interactive=False, verbosity=0)
            self.stdout.write(f"Serving at {settings.SITE_URL} on this machine only, until you press Ctrl-C.")
            self.stdout.flush()
            _serve(port)

    def _renew(self, database: Path) -> None:
        """Makes the demo anew unless it is of these days and of this version."""
        stamp = database.with_name("demo.stamp")
        today = timezone.localdate()
        if _is_fresh(stamp, today) and database.exists():
            return
        self.stdout.write("Making the demo garden…")
        self.stdout.flush()
        connection.close()
        for file in [stamp, *database.parent.glob(f"{database.name}*")]:
            file.unlink(missing_ok=True)
        call_command("migrate", interactive=False, verbosity=0)
        build_demo(today=today)
        take_photos()
        stamp.write_text(f"{today.isoformat()} {_version()}", encoding="ascii")

    def _tell_who_comes_in(self) -> None:
        self.stdout.write(
            "\nOpen a link and press its button. Each link works once; started again, this command prints\n"
            "new ones (with --no-serve also while the demo is running).\n"
        )
        for what, person in (
            ("Coordinator of Linnet Lane Garden", NORTH[0]),
            ("Member there, with a plan for plot A1", NORTH[1]),
            ("Member of Quince Terrace, where it is the other half of the year", SOUTH[1]),
        ):
            link = service.make_link(user=User.objects.get(sign_in_name=person.sign_in_name))
            self.stdout.write(f"  {what}: {person.name}\n    {link}\n")


def _is_fresh(stamp: Path, today: date) -> bool:
    try:
        made, version = stamp.read_text(encoding="ascii").split()
        age = today - date.fromisoformat(made)
    except (OSError, ValueError):
        return False
    same_year = date.fromisoformat(made).year == today.year
    return timedelta(0) <= age < FRESH_FOR and same_year and version == _version()


def _version() -> str:
    """A digest of all that the demo is made from."""
    root = settings.BASE_DIR
    parts = sorted([*root.glob("*/migrations/*.py"), *(root / "fixtures").rglob("*.csv")])
    digest = sha256()
    for path in [*parts, *sorted((root / "schedules" / "service").glob("demo*.py"))]:
        digest.update(path.read_bytes())
    return digest.hexdigest()


def _keep_port_free(port: int) -> None:
    with socket.socket() as probe:
        probe.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        try:
            probe.bind(("127.0.0.1", port))
        except (OSError, OverflowError):
            raise CommandError(
                f"Port {port} cannot be used, perhaps because something is served there already. "
                f"Try another one, for instance: python3 manage.py demo --port {port % 60000 + 1}"
            ) from None


def _serve(port: int) -> None:
    if os.name == "nt":  # gunicorn is for Unix
        call_command("runserver", f"127.0.0.1:{port}", use_reloader=False)
        return
    options = [
        "--bind",
        f"127.0.0.1:{port}",
        "--threads",
        "8",
        "--no-control-socket",
        "--log-level",
        "warning",
    ]
    os.chdir(settings.BASE_DIR)
    os.execv(sys.executable, [sys.executable, "-m", "gunicorn", "plots.wsgi", *options])  # noqa: S606
