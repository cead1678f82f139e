"""How long 400 calendars take, against a canvas that writes the same words; and a sheet of 24 stakes.

Run by hand: `python -m tests.benchmarks.paper`. The garden is made in a database of its own that is gone
afterwards: 400 members, each with a plot of eight crops, and the frost dates of a daily record. Measured is
the edition that the print table offers first, in full, out of the plans as they are reckoned. The canvas
beside it gets every string of that file with its place, and draws it in the same embedded font, page by
page, without marks, rules or layout. Ratios compare between machines; seconds do not.
"""

from __future__ import annotations

import os
from collections.abc import Callable, Sequence
from datetime import date
from io import BytesIO
from tempfile import TemporaryDirectory
from time import process_time
from typing import Any

MEMBERS, CROPS_EACH, YEAR, REPEATS = 400, 8, 2026, 3
MOST = 2.0
STATION = "fixtures/stations/champion_daily.csv"
Placed = tuple[float, float, str, float, str]


def seconds(work: Callable[[], object]) -> float:
    """The shortest of a few runs: the others measure what else the machine did."""
    times = []
    for _ in range(REPEATS):
        start = process_time()
        work()
        times.append(process_time() - start)
    return min(times)


def fill() -> None:
    """The garden, its people and their plans."""
    from crops.models import Crop, Method, Planting
    from crops.service import update_catalogue
    from plots.models import Assignment, Garden, Membership, Plot, Season, User
    from schedules.service import import_station
    from schedules.stations import read_station

    update_catalogue()
    garden = Garden.objects.create(name="Linden Row", slug="linden-row", latitude=40.4)
    with open(STATION, "rb") as file:
        import_station(garden=garden, station=read_station(file, today=date(YEAR, 1, 1)), name="Station")
    season = Season.objects.create(
        garden=garden, name="2026", starts_on=date(YEAR, 1, 1), ends_on=date(YEAR, 12, 31)
    )
    users = User.objects.bulk_create(
        User(name=f"Member {n} of the garden", sign_in_name=f"member{n}") for n in range(MEMBERS)
    )
    Membership.objects.bulk_create(Membership(garden=garden, user=user) for user in users)
    plots = Plot.objects.bulk_create(Plot(garden=garden, label=f"{n + 1}") for n in range(MEMBERS))
    Assignment.objects.bulk_create(
        Assignment(plot=plot, season=season, holder=user, began_on=season.starts_on)
        for plot, user in zip(plots, users, strict=True)
    )
    crops = list(Crop.objects.all())
    Planting.objects.bulk_create(
        Planting(
            plot=plot,
            crop=(crop := crops[(own * 7 + n * 5 + own // 10) % len(crops)]),
            year=YEAR,
            start="transplant" if crop.method == Method.TRANSPLANT else "sow",
            successions=1 + (own + n) % 2,
        )
        for own, plot in enumerate(plots)
        for n in range(CROPS_EACH)
    )


def plans() -> list[Any]:
    """The calendars of everybody, as values."""
    from plots.models import Garden, User
    from schedules.service.member_plans import holdings_of, member_plans

    garden, today = Garden.objects.get(), date(YEAR, 2, 3)
    planned = member_plans(
        garden,
        holdings_of(garden, User.objects.order_by("pk"), today),
        year=YEAR,
        today=today,
        paper=garden.paper,
    )
    return [one.plan for one in planned]


def written(known: Sequence[Any]) -> tuple[bytes, list[list[Placed]]]:
    """The file, and every string of its pages with its place, size and font."""
    from schedules.reports import fonts, leaves, member_calendar

    pages: list[list[Placed]] = []
    strings: dict[leaves.Leaf, list[Placed]] = {}
    text, add = leaves.Leaf.text, leaves.Leaves.add

    def noted(leaf: Any, x: float, y: float, words: str, size: float, **style: Any) -> None:
        shown = leaves.legible(words)
        font: str = style.get("font", fonts.BODY)
        wide = leaves.width_of(shown, size, font)
        left = x - {"start": 0.0, "middle": wide / 2, "end": wide}[style.get("anchor", "start")]
        strings.setdefault(leaf, []).append((left, y, shown, size, font))
        text(leaf, x, y, words, size, **style)

    def added(book: Any, made: Any) -> None:
        known_leaves = list(made)
        pages.extend(strings.pop(leaf, []) for leaf in known_leaves)
        add(book, known_leaves)

    leaves.Leaf.text, leaves.Leaves.add = noted, added  # type: ignore[method-assign, assignment]
    try:
        return member_calendar.member_calendars_pdf(known), pages
    finally:
        leaves.Leaf.text, leaves.Leaves.add = text, add  # type: ignore[method-assign]


def plain(pages: Sequence[Sequence[Placed]], size: tuple[float, float]) -> bytes:
    """The same strings at the same places, drawn one by one."""
    from reportlab.pdfgen.canvas import Canvas

    out = BytesIO()
    canvas = Canvas(out, pagesize=size, invariant=1)
    for strings in pages:
        for x, y, text, points, font in strings:
            canvas.setFont(font, points)
            canvas.drawString(x, y, text)
        canvas.showPage()
    canvas.save()
    return out.getvalue()


def measure() -> None:
    from schedules.reports.member_calendar import member_calendars_pdf
    from schedules.reports.sheet import PAPERS

    start = process_time()
    known = plans()
    reckoned = process_time() - start
    pdf, pages = written(known)
    count = sum(map(len, pages))
    print(
        f"{len(known)} calendars reckoned in {reckoned:.1f} s: "
        f"{len(pages)} pages, {count} strings, {len(pdf) / 1e6:.1f} MB"
    )
    drawn = seconds(lambda: member_calendars_pdf(known))
    bare = seconds(lambda: plain(pages, PAPERS["letter"]))
    print(
        f"drawn in {drawn:.2f} s, their strings alone in {bare:.2f} s: "
        f"{drawn / bare:.2f} times as long, at most {MOST} allowed"
    )


def main() -> None:
    with TemporaryDirectory() as folder:
        os.environ.update(DATA_DIR=folder, DJANGO_SETTINGS_MODULE="plots.settings")
        os.environ.pop("DATABASE_URL", None)
        import django
        from django.core.management import call_command

        from tests.benchmarks import stakes

        django.setup()
        call_command("migrate", verbosity=0)
        fill()
        measure()
        stakes.main()


if __name__ == "__main__":
    main()
