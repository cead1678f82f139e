import subprocess

import pytest
from django.core.management import CommandError, call_command
from django.db import OperationalError

from plots.first_visit import start_code
from plots.management.commands import test as test_command
from plots.service import first_visit
from tests.factories import UserFactory


@pytest.mark.django_db
@pytest.mark.parametrize("name", ["Cora", "CORA@example.org"])
def test_a_link_lets_a_locked_out_person_in(client, capsys, name):
    UserFactory(sign_in_name="cora", email="cora@example.org")
    call_command("signinlink", name)
    link = capsys.readouterr().out.strip()
    assert client.post(link.removeprefix("http://127.0.0.1:8000")).headers["Location"] == "/"


@pytest.mark.django_db
@pytest.mark.parametrize(
    ("arguments", "sentence"),
    [
        (["nobody"], "Nobody signs in as “nobody”."),
        (["gone"], "The account of Gone is closed."),
        (["here", "--hours", "0"], "A link has to work for at least one hour."),
    ],
)
def test_why_there_is_no_link(arguments, sentence):
    UserFactory(name="Gone", sign_in_name="gone", is_active=False)
    UserFactory(sign_in_name="here")
    with pytest.raises(CommandError) as refused:
        call_command("signinlink", *arguments)
    assert str(refused.value) == sentence


@pytest.mark.django_db
def test_the_first_visit_is_announced_until_somebody_has_come(capsys, settings):
    sentence = (
        "Nobody has set Trugbook up yet. Open http://127.0.0.1:8000/start/ and give the code "
        f"{start_code(settings.SECRET_KEY)}\n"
    )
    call_command("firstvisit")
    first_visit.announce()
    assert capsys.readouterr() == (sentence, sentence)
    UserFactory()
    first_visit.announce()
    assert capsys.readouterr() == ("", "")
    with pytest.raises(CommandError, match="set up already"):
        call_command("firstvisit")


@pytest.mark.django_db
def test_a_database_that_is_not_ready_is_one_sentence(monkeypatch):
    def missing():
        raise OperationalError("no such table: plots_user")

    monkeypatch.setattr("plots.management.commands.firstvisit.invitation", missing)
    with pytest.raises(OperationalError):
        call_command("firstvisit")
    monkeypatch.setattr("plots.health.MigrationExecutor.migration_plan", lambda *args: ["one"])
    with pytest.raises(CommandError, match="Migrations have not been applied, with DATA_DIR /"):
        call_command("firstvisit")


ALL = ["tests", "--ignore=tests/doors", "--ignore=tests/browser"]
DOORS, BROWSER = "tests/doors", "tests/browser"
WORKERS = ["-n", "auto", "--dist", "worksteal"]


@pytest.mark.parametrize(
    ("arguments", "calls", "codes", "code"),
    [
        ([], [[*ALL, *WORKERS], [DOORS, *WORKERS], [BROWSER]], [0, 0, 0], 0),
        (
            ["-x", "-n", "0"],
            [[*ALL, "-x", "-n", "0"], [DOORS, "-x", "-n", "0"], [BROWSER, "-x", "-n", "0"]],
            [0, 0, 1],
            1,
        ),
        (
            ["-k", "odd"],
            [[*ALL, *WORKERS, "-k", "odd"], [DOORS, *WORKERS, "-k", "odd"], [BROWSER, "-k", "odd"]],
            [5, 0, 5],
            0,
        ),
        (["tests/plots", "-q"], [["tests/plots", "-q"]], [5], 5),
        (["tests/browser", "tests/plots::x"], [["tests/plots::x"], ["tests/browser"]], [2, 0], 2),
    ],
)
def test_the_suite_runs_in_three_parts_and_fails_with_any(monkeypatch, arguments, calls, codes, code):
    made, answers = [], iter(codes)
    monkeypatch.setattr(test_command, "_pytest", lambda call: (made.append(call), next(answers))[1])
    with pytest.raises(SystemExit) as ended:
        test_command.Command().run_from_argv(["manage.py", "test", *arguments])
    assert (made, ended.value.code) == (calls, code)


def test_the_suite_runs_with_its_own_settings_and_keeps_what_it_compiled(monkeypatch):
    given = {}

    def run(command, **how):
        given.update(how["env"])
        return subprocess.CompletedProcess(command, 0)

    monkeypatch.setattr(test_command.subprocess, "run", run)
    for name in ("SITE_URL", "PYTHONDONTWRITEBYTECODE", "DATABASE_URL"):
        monkeypatch.setenv(name, "x")
    assert test_command.Command().handle(arguments=["tests/plots"]) == 0
    assert given["DATABASE_URL"] == "x"
    assert given.keys().isdisjoint({"SITE_URL", "PYTHONDONTWRITEBYTECODE"})
