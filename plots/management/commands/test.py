"""`manage.py test [pytest options]`: the whole suite, by pytest."""

from __future__ import annotations

import os
import subprocess
import sys

from django.conf import settings
from django.core.management.base import BaseCommand

DOORS = "tests/doors"
BROWSER = "tests/browser"
NOTHING_COLLECTED = 5
# The suite states the settings that it tests; only the database is the caller's choice.
_NOT_OURS = (
    "SITE_URL",
    "TRUSTED_PROXIES",
    "DEBUG",
    "SECRET_KEY",
    "SECRET_KEY_FILE",
    "HSTS_DAYS",
    "DEFAULT_LANGUAGE",
    "LOG_LEVEL",
    "PYTHONDONTWRITEBYTECODE",  # each worker and each command that a test starts would compile all anew
)


class Command(BaseCommand):
    help = "Runs the tests; every option goes to pytest."
    requires_system_checks = ()

    def run_from_argv(self, argv: list[str]) -> None:
        """Hands all arguments on: they are pytest's, not Django's."""
        sys.exit(self.handle(arguments=argv[2:]))

    def handle(self, *_args: object, arguments: list[str], **_options: object) -> int:
        """Runs what is quick first, then every address asked by every kind of visitor, then the browser.

        The browser tests have their own process: a driven browser leaves a running loop behind.
        """
        paths = [argument for argument in arguments if _is_path(argument)]
        options = [argument for argument in arguments if argument not in paths]
        browser = [path for path in paths if path.startswith(BROWSER)]
        calls = [[path for path in paths if path not in browser], browser]
        if not paths:
            workers = _workers(options)
            quick = ["tests", f"--ignore={DOORS}", f"--ignore={BROWSER}"]
            calls = [[*quick, *workers], [DOORS, *workers], [BROWSER]]
        codes = [_pytest([*call, *options]) for call in calls if call]
        ran = [code for code in codes if code != NOTHING_COLLECTED]
        return max(ran, default=NOTHING_COLLECTED)


def _is_path(argument: str) -> bool:
    return (settings.BASE_DIR / argument.split("::")[0]).exists()


def _workers(options: list[str]) -> list[str]:
    """One worker a processor, unless the options already say how, or want to stop and look."""
    chosen = any(option.startswith(("-n", "--numprocesses", "--pdb", "-s", "--dist")) for option in options)
    return [] if chosen else ["-n", "auto", "--dist", "worksteal"]


def _pytest(arguments: list[str]) -> int:
    environment = {name: value for name, value in os.environ.items() if name not in _NOT_OURS}
    command = [sys.executable, "-m", "pytest", *arguments]
    return subprocess.run(command, cwd=settings.BASE_DIR, env=environment, check=False).returncode  # noqa: S603
