"""Loads the crop catalogue, or brings it up to date."""

from __future__ import annotations

from argparse import ArgumentParser
from pathlib import Path
from typing import Any

from django.core.management.base import BaseCommand, CommandError

from crops.catalogue import FOLDER, CatalogueError, load_catalogue
from crops.service import update_catalogue
from plots.management.database import NeedsDatabase


class Command(NeedsDatabase, BaseCommand):
    help = (
        "Load the crop catalogue or bring it up to date. A garden's own crops and varieties stay as they are."
    )

    def add_arguments(self, parser: ArgumentParser) -> None:
        parser.add_argument(
            "folder", nargs="?", type=Path, default=FOLDER, help="folder with the five tables"
        )

    def handle(self, *args: Any, folder: Path, **options: Any) -> None:
        try:
            changes = update_catalogue(load_catalogue(folder))
        except CatalogueError as error:
            raise CommandError(f"Nothing was loaded. {error}.") from error
        for what, slugs in (
            ("added", changes.added),
            ("changed", changes.changed),
            ("removed, for the tables no longer list it and nothing uses it", changes.removed),
            ("kept, for it is in use though the tables no longer list it", changes.kept),
        ):
            for slug in slugs:
                self.stdout.write(f"{slug}: {what}")
        total = len(changes.added) + len(changes.changed) + len(changes.unchanged)
        self.stdout.write(f"{total} crops in the catalogue, {len(changes.unchanged)} of them as before.")
