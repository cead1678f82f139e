"""`manage.py access`: who may do what, as one table."""

from __future__ import annotations

import csv
import io
import re
from argparse import ArgumentParser
from collections.abc import Iterator
from typing import Any

from django.core.management.base import BaseCommand
from django.urls import URLPattern, URLResolver, get_resolver

from plots.doors import DOORS, Answer, Who, answers, answers_at_shared, power_of

METHODS = ("GET", "POST")


def rows() -> Iterator[list[str]]:
    """Each address by each method it answers: method, address, power, what each kind of visitor gets."""
    for name, route in addresses():
        for method, rule in zip(METHODS, DOORS[name], strict=True):
            got, at_shared = answers(rule), answers_at_shared(rule)
            if Answer.NO_METHOD in got.values():
                continue
            where, power = _readable(route), power_of(rule) or ""
            yield [method, where, power, *(got[who].value for who in Who)]
            if at_shared != got:
                where += " of what all garden"
                yield [method, where, power, *(at_shared[who].value for who in Who)]


def addresses(
    resolver: URLResolver | None = None, route: str = "", space: str = ""
) -> Iterator[tuple[str, str]]:
    """Name and path of every address of the installation."""
    for pattern in (resolver or get_resolver()).url_patterns:
        path = f"{route}{pattern.pattern}"
        if isinstance(pattern, URLPattern):
            yield f"{space}{pattern.name}", path
        else:
            yield from addresses(pattern, path, f"{pattern.namespace}:" if pattern.namespace else space)


def _readable(route: str) -> str:
    return "/" + re.sub(r"<\w+:(\w+)>", r"<\1>", route)


class Command(BaseCommand):
    help = "Prints who may read (GET) and send (POST) at each address: yes, 403, 404 or the sign-in page."

    def add_arguments(self, parser: ArgumentParser) -> None:
        parser.add_argument("--csv", action="store_true", help="as comma-separated values")

    def handle(self, *args: Any, **options: Any) -> None:
        table = [["method", "address", "power", *(who.value for who in Who)], *rows()]
        if options["csv"]:
            out = io.StringIO()
            csv.writer(out, lineterminator="\n").writerows(table)
            self.stdout.write(out.getvalue(), ending="")
            return
        widths = [max(map(len, column)) for column in zip(*table, strict=True)]
        for row in table:
            line = "  ".join(cell.ljust(width) for cell, width in zip(row, widths, strict=True))
            self.stdout.write(line.rstrip())
