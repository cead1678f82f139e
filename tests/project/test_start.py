"""How an installation starts: settings that are wrong stop it, right ones pass every check."""

import os
import re
import subprocess
import sys
from runpy import run_path

import pytest
from django.core.management import call_command
from django.test import override_settings

from tests.project.source import ROOT


def manage(*arguments: str, **environment: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, "manage.py", *arguments],
        cwd=ROOT,
        env={"PATH": os.environ["PATH"], **environment},
        capture_output=True,
        text=True,
        timeout=60,
        check=False,
    )


@pytest.mark.parametrize(
    ("environment", "sentence"),
    [
        (
            {"SITE_URL": "garden.example.org"},
            "SITE_URL must be an address such as https://garden.example.org, not “garden.example.org”.",
        ),
        (
            {"SECRET_KEY": "short"},
            "SECRET_KEY must be at least 50 characters long; leave it out to have one made.",
        ),
    ],
)
def test_a_wrong_setting_stops_the_start_with_one_sentence(environment, sentence, tmp_path):
    ended = manage("check", DATA_DIR=str(tmp_path), **environment)
    assert (ended.returncode, ended.stdout) == (1, "")
    assert ended.stderr == f"Trugbook cannot start: {sentence}\n"


def test_behind_https_every_check_for_deployment_passes(tmp_path):
    (tmp_path / "static").mkdir()
    (tmp_path / "static" / "staticfiles.json").write_text('{"paths": {}, "version": "1.1", "hash": ""}')
    ended = manage(
        "check",
        "--deploy",
        "--fail-level=WARNING",
        DATA_DIR=str(tmp_path),
        SITE_URL="https://garden.example.org",
    )
    assert (ended.returncode, ended.stderr) == (0, "")
    assert ended.stdout == "System check identified no issues (2 silenced).\n"


def test_a_site_below_another_address_keeps_to_its_own_path(tmp_path, monkeypatch):
    monkeypatch.setenv("DATA_DIR", str(tmp_path))
    monkeypatch.setenv("SITE_URL", "https://example.org/garden/")
    made = run_path(str(ROOT / "plots" / "settings.py"))
    assert (made["FORCE_SCRIPT_NAME"], made["STATIC_URL"]) == ("/garden", "/garden/static/")
    assert (made["SESSION_COOKIE_PATH"], made["SESSION_COOKIE_NAME"]) == ("/garden", "session")
    assert [bool(re.match(made["SECURE_REDIRECT_EXEMPT"][0], path)) for path in
            ("garden/health/ready", "health/ready", "garden/g/health/")] == [True, False, False]  # fmt: skip


@pytest.mark.django_db
@override_settings(MIGRATION_MODULES={})  # the tests' own database is made of the models, without them
def test_no_migration_is_missing():
    call_command("makemigrations", "--check", "--dry-run", verbosity=0)
