"""What the server says on its output until somebody has set the installation up."""

from __future__ import annotations

import sys

from django.conf import settings
from django.db import DatabaseError
from django.urls import reverse

from plots.first_visit import start_code
from plots.service.ground import is_founded


def invitation() -> str | None:
    """Where to go and which code to give; `None` when the installation is set up."""
    if is_founded():
        return None
    address = settings.SITE.origin + reverse("plots:first_visit")
    return (
        f"Nobody has set Trugbook up yet. Open {address} and give the code {start_code(settings.SECRET_KEY)}"
    )


def announce() -> None:
    """Called when a server process starts."""
    try:
        text = invitation()
    except DatabaseError:
        text = "The database is not ready. Run: python3 manage.py migrate"
    if text:
        print(text, file=sys.stderr, flush=True)
