"""`manage.py signinlink NAME`: lets somebody in who is locked out, a coordinator above all."""

from __future__ import annotations

from argparse import ArgumentParser
from datetime import timedelta
from typing import Any

from django.core.management.base import BaseCommand, CommandError

from plots import service
from plots.management.database import NeedsDatabase
from plots.models import User


class Command(NeedsDatabase, BaseCommand):
    help = "Prints a one-time link that signs the person in."

    def add_arguments(self, parser: ArgumentParser) -> None:
        parser.add_argument("name", help="their sign-in name or email address")
        parser.add_argument("--hours", type=int, default=24, help="how long the link works (24)")

    def handle(self, *args: Any, name: str, hours: int, **options: Any) -> None:
        try:
            user = User.objects.get_by_natural_key(name)
        except User.DoesNotExist:
            raise CommandError(f"Nobody signs in as “{name}”.") from None
        if not user.is_active:
            raise CommandError(f"The account of {user} is closed.")
        if hours < 1:
            raise CommandError("A link has to work for at least one hour.")
        self.stdout.write(service.make_link(user=user, lasts=timedelta(hours=hours)))
