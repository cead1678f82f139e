"""`manage.py letters`: the weekly letter to whoever asked for it; run daily, sent on each garden's day.

What runs daily also sweeps up: sign-ins that ran out, and files (see `plots.service.photos.sweep_files`).
"""

from __future__ import annotations

from typing import Any

from django.contrib.sessions.backends.db import SessionStore
from django.core.management.base import BaseCommand, CommandError, CommandParser
from django.utils import timezone

from plots.management.database import NeedsDatabase
from plots.models import Garden
from plots.service import post
from plots.service.photos import sweep_files
from schedules.service.calendar import GardenDates
from schedules.service.letters import claim, due_on, readers_of, release, weekly_letter


class Command(NeedsDatabase, BaseCommand):
    """Sends, or without EMAIL_URL prints what it would send and marks nothing as sent."""

    help = "Send the weekly letter to members who asked for it."

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("--now", action="store_true", help="whatever the garden's day of the week is")
        parser.add_argument("--garden", metavar="NAME", help="the short name in addresses; all without it")

    def handle(self, *_args: Any, **options: Any) -> None:
        gardens = Garden.objects.select_related("rules").order_by("pk")
        if options["garden"]:
            gardens = gardens.filter(slug=options["garden"])
            if not gardens:
                raise CommandError(f"There is no garden called {options['garden']}.")
        for garden in gardens:
            if options["now"] or due_on(garden, garden.today()):
                self._garden(garden)
        SessionStore.clear_expired()
        if swept := sweep_files(now=timezone.now()):
            self.stdout.write(f"Files of photos that were never kept, deleted: {swept}")

    def _garden(self, garden: Garden) -> None:
        today, dates = garden.today(), GardenDates.of(garden)
        sent = failed = 0
        for membership in readers_of(garden):
            membership.garden = garden
            letter, address = weekly_letter(membership, today, dates), membership.user.email or ""
            if not post.can_send():
                self.stdout.write(f"To: {address}\nSubject: {letter.subject}\n\n{letter.body}\n")
            elif claim(membership, today):
                if post.send(to=address, subject=letter.subject, body=letter.body):
                    sent += 1
                else:
                    release(membership, today)
                    failed += 1
        if post.can_send():
            self.stdout.write(f"{garden.slug}: {sent} sent, {failed} not sent")
        else:
            self.stderr.write(f"{garden.slug}: nothing was sent, because EMAIL_URL is not set")
