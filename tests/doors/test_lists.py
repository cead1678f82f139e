"""Every list of the project, sorted by every column, filtered by every word, and as a spreadsheet."""

from itertools import zip_longest

import pytest
from django.db import transaction
from django.urls import reverse

from tests.doors.addresses import arguments
from tests.factories import MembershipFactory, PlotFactory, WaitingFactory
from tests.project.source import templates

# The template with the list's tools: the address where it is asked.
LISTS = {
    "crops/crops.html": "crops:crops",
    "plots/_map_table.html": "plots:site_map",
    **{
        f"plots/{name}.html": f"plots:{name}"
        for name in (
            "agreement_versions", "care_pauses", "care_rounds", "dates", "dues", "dues_part", "duties",
            "history", "hours", "hours_person", "households", "interest", "make_up_jobs", "matters",
            "members", "notices", "people_left", "proposals", "round", "signatures", "waiting",
            "waiting_left", "whereabouts", "workday_people", "workdays",
        )
    },
    "schedules/care_round.html": "plots:care_round",
    "schedules/dates_before.html": "schedules:dates_before",
    "schedules/dates_moved.html": "schedules:dates_moved",
    "schedules/diary.html": "schedules:diary",
    "schedules/figures.html": "schedules:figures",
    "schedules/plots.html": "plots:plots",
    "schedules/printed.html": "schedules:printed",
    "schedules/readings_all.html": "schedules:readings_all",
    "schedules/sightings.html": "schedules:sightings",
    "schedules/treatments.html": "schedules:treatments",
    "schedules/waters.html": "schedules:waters",
    "schedules/workshops.html": "schedules:workshops",
}  # fmt: skip


def test_no_list_is_forgotten_here():
    tools = {name for name, text in templates().items() if '"_list_tools.html"' in text}
    assert {name.removeprefix("templates/") for name in tools} == set(LISTS)


@pytest.fixture
def run(cast, as_user):
    """The coordinator's browser, in a garden with something on most lists."""
    PlotFactory(garden=cast.garden, label="Z1", left_m=0, top_m=0)
    MembershipFactory(garden=cast.garden, user__email="una@example.org")
    cast.garden.duties.create(name="Compost", holder=cast.member)
    cast.garden.whereabouts.create(thing="Lease", place="Folder")
    cast.garden.work_tasks.create(name="Pots", minutes=60)
    cast.garden.notices.create(subject="Water", body="It is on.")
    cast.garden.agreements.create(number=1)
    cast.garden.readings.create(day=cast.garden.today(), tmin_c=1.0)
    hours = {"day": cast.garden.today(), "minutes": 90, "what": "Paths"}
    cast.garden.hours_done.create(person=cast.member, **hours)
    cast.garden.care_rounds.create(day=cast.garden.today())
    cast.assignment.pauses.create(why="travel", from_on=cast.garden.today())
    return as_user(cast.coordinator)


def asked_of(page):
    """Each column once, backwards, and each word of each filter, in as few questions as will do."""
    words = [(one.key, word) for one in page.context["shown"].filters for word, _title in one.choices]
    sorts = [("sort", f"-{head.key}") for head in page.context["shown"].heads]
    return [dict(filter(None, pair)) for pair in zip_longest(words, sorts)]


def test_every_list_filters_sorts_and_goes_into_a_spreadsheet(cast, run):
    wrong, rows = {}, 0
    for name in LISTS.values():
        with transaction.atomic():
            if name == "plots:waiting":
                WaitingFactory(garden=cast.garden)
            address = reverse(name, kwargs=arguments(name, cast))
            page = run.get(address)
            rows += page.context["shown"].total
            for query in [{}, *asked_of(page)]:
                answer = run.get(address, {**query, "as": "csv"})
                if (answer.status_code, answer["Content-Type"]) != (200, "text/csv; charset=utf-8"):
                    wrong[name, str(query)] = answer.status_code
                found = page.context["shown"].found if not query else None
                if found is not None and answer.content.count(b"\r\n") < found + 1:
                    wrong[name, "rows"] = found
            transaction.set_rollback(True)
    assert wrong == {}
    assert rows > len(LISTS) / 2
