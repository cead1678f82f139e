"""`manage.py firstvisit`: the code for setting a fresh installation up, once more."""

from __future__ import annotations

from typing import Any

from django.core.management.base import BaseCommand, CommandError

from plots.management.database import NeedsDatabase
from plots.service.first_visit import invitation


class Command(NeedsDatabase, BaseCommand):
    help = "Prints where to set this installation up, and the code that it asks for."

    def handle(self, *args: Any, **options: Any) -> None:
        text = invitation()
        if text is None:
            raise CommandError("This installation is set up already. To let somebody in, use signinlink.")
        self.stdout.write(text)
