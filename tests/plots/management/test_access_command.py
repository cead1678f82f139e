"""The role table that `manage.py access` prints."""

import csv

from django.core.management import call_command

from plots.doors import DOORS, Answer, Who, answers, answers_at_shared


def table(capsys) -> list[dict[str, str]]:
    call_command("access", "--csv")
    return list(csv.DictReader(capsys.readouterr().out.splitlines()))


def test_every_address_that_answers_has_its_rows(capsys):
    """A second one where a plot that all garden is answered otherwise."""
    rules = [rule for pair in DOORS.values() for rule in pair]
    got = [rule for rule in rules if Answer.NO_METHOD not in answers(rule).values()]
    shared = [rule for rule in got if answers(rule) != answers_at_shared(rule)]
    rows = table(capsys)
    assert len(rows) == len(got) + len(shared)
    assert sum(row["address"].endswith(" of what all garden") for row in rows) == len(shared)
    assert list(rows[0]) == ["method", "address", "power", *Who]


def test_a_power_opens_its_door_and_no_other(capsys):
    (row,) = [
        row for row in table(capsys) if (row["method"], row["address"]) == ("POST", "/g/<slug>/plots/new/")
    ]
    assert row == {
        "method": "POST",
        "address": "/g/<slug>/plots/new/",
        "power": "plots",
        "signed out": "sign-in page",
        "member of another garden": "404",
        "keeper of the installation": "404",
        "coordinator of another garden": "404",
        "member": "403",
        "co-gardener": "403",
        "holder": "403",
        "helper without the power": "403",
        "helper with the power": "yes",
        "coordinator": "yes",
    }


def test_people_read_it_in_columns(capsys):
    call_command("access")
    lines = capsys.readouterr().out.splitlines()
    start = lines[0].index("coordinator", lines[0].index("helper with the power"))
    (row,) = [line for line in lines if line.startswith("GET     /g/<slug>/settings/")]
    assert row[start:] == "yes"
