"""How the long lists grow from 100 plots to 2,000: twenty times the rows may cost twenty times, not more.

Run by hand: `python -m tests.benchmarks.lists`. It works in a database of its own that is gone afterwards.
`growth` is the time of the large garden over that of the small one, 20 where a list costs the same a row;
ratios compare between machines, seconds do not.
"""

from __future__ import annotations

import os
from collections.abc import Callable, Iterator
from datetime import UTC, date, datetime, timedelta
from functools import partial
from tempfile import TemporaryDirectory
from time import perf_counter
from typing import Any

SMALL, LARGE = 100, 2000
REPEATS = 3
YEAR = datetime.now(UTC).year
FREE_OF = 20  # every twentieth plot is free
PAGES = [
    "plots:plots", "plots:members", "plots:households", "plots:waiting", "plots:turn", "round", "proposals",
    "plots:dues", "plots:dues_part", "plots:hours", "plots:signatures", "plots:site_map", "plots:history",
    "plots:matters", "plots:make_up_jobs", "plots:people_left", "plots:notices", "notice",
    "plots:waiting_left", "care_round",
]  # fmt: skip


def seconds(work: Callable[[], object]) -> float:
    """The shortest of a few runs: the others measure what else the machine did."""
    times = []
    for _ in range(REPEATS):
        start = perf_counter()
        work()
        times.append(perf_counter() - start)
    return min(times)


def fill(plots: int) -> dict[str, Any]:
    """A garden of so many plots in its season turn, with a waiting list two thirds as long."""
    from plots.models import Garden, GardenRules, Season

    garden = Garden.objects.create(name=f"Garden {plots}", slug=f"g{plots}", latitude=40.4, time_zone="UTC")
    GardenRules.objects.filter(garden=garden).update(
        hours_owed=6, dues_per_plot=30, dues_part="days", renew_needs_hours=True, hours_owed_by="household"
    )
    season = Season.objects.create(
        garden=garden, name="Now", starts_on=date(YEAR - 1, 1, 1), ends_on=date(YEAR, 12, 31)
    )
    coming = Season.objects.create(
        garden=garden, name="Next", starts_on=date(YEAR + 1, 1, 1), ends_on=date(YEAR + 1, 12, 31)
    )
    people = _people(garden, plots)
    held = _ground(garden, season, people, plots)
    round = _turn(garden, season, coming, held)
    _work(garden, people, held)
    return {"garden": garden, "round": round, "coordinator": people[0], **_told(garden, people, held)}


def _people(garden: Any, plots: int) -> list[Any]:
    from plots.models import Household, Membership, User, WaitingEntry

    names = [f"Person {number} of {plots}" for number in range(plots + plots // 5)]
    User.objects.bulk_create(
        User(
            name=name, sign_in_name=name.casefold().replace(" ", "."), email=f"p{number}.{plots}@example.org"
        )
        for number, name in enumerate(names)
    )
    people = list(User.objects.filter(name__endswith=f"of {plots}").order_by("pk"))
    homes = Household.objects.bulk_create(
        Household(garden=garden, name=f"Home {number}") for number in range(plots // 4)
    )
    Membership.objects.bulk_create(
        Membership(
            garden=garden,
            user=person,
            role="member" if number else "coordinator",
            household=homes[number // 3] if number % 3 and number // 3 < len(homes) else None,
        )
        for number, person in enumerate(people)
    )
    WaitingEntry.objects.bulk_create(
        WaitingEntry(garden=garden, name=f"Waits {number}", phone=f"555 {number:04}")
        for number in range(plots * 2 // 3)
    )
    return people


def _ground(garden: Any, season: Any, people: list[Any], plots: int) -> list[Any]:
    from plots.models import Assignment, Plot

    made = Plot.objects.bulk_create(
        Plot(
            garden=garden,
            label=f"{number // 50 + 1}-{number % 50 + 1}",
            width_m=3,
            length_m=6,
            left_m=(number % 50) * 4.0,
            top_m=(number // 50) * 7.0,
        )
        for number in range(plots)
    )
    held = Assignment.objects.bulk_create(
        Assignment(
            plot=plot,
            season=season,
            holder=people[number],
            began_on=season.starts_on + timedelta(days=60 * (number % 10 == 0)),
        )
        for number, plot in enumerate(made)
        if number % FREE_OF
    )
    through = Assignment.co_gardeners.through
    through.objects.bulk_create(
        through(assignment=one, user=people[-1 - number % (plots // 5)])
        for number, one in enumerate(held)
        if number % 5 == 0
    )
    return held


def _turn(garden: Any, season: Any, coming: Any, held: list[Any]) -> Any:
    from plots.models import Due, Renewal, RenewalRound

    today = garden.today()
    days = {"opened_on": today - timedelta(days=30), "answer_by": today - timedelta(days=2)}
    round = RenewalRound.objects.create(season=coming, grace_days=14, **days)
    Renewal.objects.bulk_create(
        Renewal(
            round=round,
            assignment=one,
            wish=("keep", "keep", "leave", "move")[number % 4],
            answered_on=today - timedelta(days=3),
        )
        for number, one in enumerate(held)
        if number % 5 < 3
    )
    Due.objects.bulk_create(
        Due(
            garden=garden, season=season, person=one.holder, assignment=one, kind="plot", amount=30,
            due_on=today, paid_on=today if number % 3 else None,
        )
        for number, one in enumerate(held)
        if number % 2
    )  # fmt: skip
    return round


def _work(garden: Any, people: list[Any], held: list[Any]) -> None:
    from plots.models import Change, HoursDone, WorkTask

    today = garden.today()
    HoursDone.objects.bulk_create(
        HoursDone(garden=garden, person=one.holder, day=today - timedelta(days=number % 90), minutes=90)
        for number, one in enumerate(held * 3)
    )
    WorkTask.objects.bulk_create(
        WorkTask(garden=garden, name=f"Job {number}", minutes=60) for number in range(len(held) // 10)
    )
    Change.objects.bulk_create(
        Change(
            garden=garden, about_model="plots.plot", about_pk=one.plot_id, about_name=one.plot.label,
            what="plot-given", by=people[0], by_name=people[0].name,
            after={"holder": {"pk": one.holder_id, "name": one.holder.name}, "began_on": str(today)},
        )
        for one in held * 3
    )  # fmt: skip
    Change.objects.bulk_create(
        Change(garden=garden, about_model="plots.user", about_pk=0, about_name="x", what="member-left")
        for _one in held[: len(held) // 10]
    )


def _told(garden: Any, people: list[Any], held: list[Any]) -> dict[str, Any]:
    """The agreement and who signed it, a notice to everybody, and a care round with its matters."""
    from plots.models import Delivery, Finding, Matter, Notice, Signature

    today = garden.today()
    version = garden.agreements.create(number=1, in_force_on=today)
    text = version.texts.create(language="en", title="Agreement", body="We water by hand.")
    Signature.objects.bulk_create(
        Signature(version=version, text=text, person=person, how="screen", name=person.name, signed_on=today)
        for person in people[::2]
    )
    notice = Notice.objects.create(garden=garden, subject="Water", body="On.", given_at=datetime.now(UTC))
    Delivery.objects.bulk_create(Delivery(notice=notice, person=person, way="phone") for person in people)
    care_round = garden.care_rounds.create(day=today)
    Finding.objects.bulk_create(
        Finding(round=care_round, plot=one.plot, line=1 + number % 4, words="as found")
        for number, one in enumerate(held[::2])
    )
    Matter.objects.bulk_create(Matter(assignment=one, opened_on=today) for one in held[::10])
    return {"notice": notice, "care_round": care_round}


def addresses(made: dict[str, Any]) -> Iterator[tuple[str, str]]:
    from django.urls import reverse

    slug = made["garden"].slug
    for name in PAGES:
        keys = {"proposals": "round"}.get(name, name)
        full = name if ":" in name else f"plots:{name}"
        yield (
            name.partition(":")[2] or name,
            reverse(full, args=[slug, *([] if ":" in name else [made[keys].pk])]),
        )


def measure() -> None:
    from django.test import Client

    times: dict[str, list[float]] = {}
    for plots in (SMALL, LARGE):
        made = fill(plots)
        client = Client()
        client.force_login(made["coordinator"])
        for name, address in addresses(made):
            for kind, query in (("", {}), (" csv", {"as": "csv"})):
                answer = client.get(address, query)
                assert answer.status_code == 200, (address, answer.status_code)
                if kind and not answer["Content-Type"].startswith("text/csv"):
                    continue

                times.setdefault(name + kind, []).append(seconds(partial(client.get, address, query)))
    print(f"{'list':<22}{'growth':>8}{f'ms at {SMALL}':>12}{f'ms at {LARGE}':>12}")
    for name, (small, large) in sorted(times.items(), key=lambda row: -row[1][1]):
        print(f"{name:<22}{large / small:>8.1f}{small * 1000:>12.0f}{large * 1000:>12.0f}")


def main() -> None:
    with TemporaryDirectory() as folder:
        os.environ |= {"DJANGO_SETTINGS_MODULE": "plots.settings", "DATA_DIR": folder}
        os.environ.pop("DATABASE_URL", None)
        import django
        from django.core.management import call_command

        django.setup()
        from django.conf import settings

        settings.ALLOWED_HOSTS = ["testserver"]
        call_command("migrate", verbosity=0)
        measure()


if __name__ == "__main__":
    main()
