"""How manage.py sees to its environment."""

import importlib.util
import os
import subprocess
import sys
import time
import venv
from concurrent.futures import ThreadPoolExecutor

import pytest

from tests.project.source import ROOT


@pytest.fixture
def manage(tmp_path, monkeypatch):
    """manage.py as a module, looking after an environment in a folder of its own."""
    spec = importlib.util.spec_from_file_location("manage_under_test", ROOT / "manage.py")
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    for name in ("DATABASE_URL", "DATABASE_URL_FILE"):  # the caller's own; the suite runs on either database
        monkeypatch.delenv(name, raising=False)
    monkeypatch.setattr(module, "VENV", tmp_path / ".venv")
    monkeypatch.setattr(module, "PYTHON", tmp_path / ".venv" / "bin" / "python")
    monkeypatch.setattr(module, "WHOLE", tmp_path / ".venv" / ".whole")
    return module


@pytest.fixture
def made(manage, monkeypatch):
    """The environment's making and filling, noted instead of done."""
    done = []

    def make():
        done.append("made")
        manage.PYTHON.parent.mkdir(parents=True, exist_ok=True)
        manage.PYTHON.touch()

    monkeypatch.setattr(manage, "venv_works", lambda: manage.WHOLE.exists())
    monkeypatch.setattr(manage, "make_venv", make)
    monkeypatch.setattr(manage, "install", lambda lock: (time.sleep(0.05), done.append(lock)))
    return done


def test_it_is_made_once_and_updated_when_its_list_changes(manage, made, monkeypatch):
    manage.see_to_environment("app")
    manage.see_to_environment("app")
    assert made == ["made", "app"]
    monkeypatch.setattr(manage, "fingerprint", lambda lock: f"changed {lock}")
    manage.see_to_environment("app")
    assert made == ["made", "app", "app"]


def test_the_development_set_covers_all_and_adds_to_what_is_there(manage, made):
    manage.see_to_environment("app")
    manage.see_to_environment("dev")
    manage.see_to_environment("postgres")
    assert made == ["made", "app", "dev"]


def test_two_first_starts_at_once_make_one(manage, made):
    with ThreadPoolExecutor(2) as pool:
        list(pool.map(manage.see_to_environment, ["app", "app"]))
    assert made == ["made", "app"]


def test_one_made_by_hand_is_made_anew(manage, made):
    manage.PYTHON.parent.mkdir(parents=True)
    manage.PYTHON.touch()
    manage.see_to_environment("dev")
    assert made == ["made", "dev"]


def test_one_whose_making_broke_off_does_not_work(manage):
    assert not manage.venv_works()
    venv.create(manage.VENV, with_pip=False)
    assert not manage.venv_works()
    manage.WHOLE.touch()
    assert not manage.venv_works()  # it has no pip


def test_an_installation_that_breaks_off_is_begun_from_nothing(manage, made, monkeypatch):
    manage.see_to_environment("app")
    with monkeypatch.context() as broken:
        broken.setattr(manage, "install", _interrupted)
        with pytest.raises(KeyboardInterrupt):
            manage.see_to_environment("dev")
    assert not manage.is_stamped("app")
    manage.see_to_environment("app")
    assert made == ["made", "app", "made", "app"]


def _interrupted(lock):
    raise KeyboardInterrupt


def test_an_installation_that_fails_says_so(manage, monkeypatch):
    monkeypatch.setattr(subprocess, "run", _failing)
    with pytest.raises(SystemExit) as ended:
        manage.install("app")
    assert ended.value.code == manage.NO_PACKAGES


def _failing(*arguments, **options):
    raise subprocess.CalledProcessError(1, "pip")


def test_without_venv_there_is_one_sentence(manage, monkeypatch):
    monkeypatch.setitem(sys.modules, "ensurepip", None)
    with pytest.raises(SystemExit) as ended:
        manage.make_venv()
    assert ended.value.code == manage.NO_VENV
    assert "apt install python3-venv" in ended.value.code


def test_an_old_python_is_told_so(manage, monkeypatch):
    monkeypatch.setattr(sys, "version_info", (3, 9, 2))
    with pytest.raises(SystemExit) as ended:
        manage.main()
    assert ended.value.code == "Trugbook needs Python 3.11 or newer; this is Python 3.9."


@pytest.mark.parametrize(("command", "lock"), [("check", "app"), ("test", "dev")])
def test_inside_an_active_environment_it_installs_nothing_and_names_what_is_missing(tmp_path, command, lock):
    venv.create(tmp_path / "bare", with_pip=False)
    python = tmp_path / "bare" / "bin" / "python"
    ended = subprocess.run(
        [python, ROOT / "manage.py", command],
        env={},  # a DATABASE_URL would ask for more
        capture_output=True,
        text=True,
        check=False,
        cwd=tmp_path,
    )
    assert (ended.returncode, ended.stdout) == (1, "")
    assert "lacks Django, django-htmx, whitenoise" in ended.stderr
    assert ("pytest, pytest-django" in ended.stderr) == (lock == "dev")
    assert f".lock/{lock}.txt" in ended.stderr


@pytest.mark.parametrize(
    ("command", "database", "lock"),
    [
        ("demo", "", "app"),
        ("migrate", "postgres://x/y", "postgres"),
        ("migrate", "postgresql://x/y", "postgres"),
        ("test", "postgres://x/y", "dev"),
    ],
)
def test_which_list_a_command_needs(manage, monkeypatch, command, database, lock):
    monkeypatch.setenv("DATABASE_URL", database)
    assert manage.needed_lock(command) == lock


def test_the_database_may_be_named_in_a_file(manage, monkeypatch, tmp_path):
    file = tmp_path / "url"
    monkeypatch.setenv("DATABASE_URL_FILE", str(file))
    assert manage.needed_lock("migrate") == "app"
    file.write_text("postgres://x/y\n")
    assert manage.needed_lock("migrate") == "postgres"


@pytest.mark.parametrize(
    ("options", "site"),
    [
        ([], "http://127.0.0.1:8000"),
        (["--port", "8123"], "http://127.0.0.1:8123"),
        (["--port=8123", "--no-serve"], "http://127.0.0.1:8123"),
    ],
)
def test_the_demo_keeps_to_a_database_and_an_address_of_its_own(manage, monkeypatch, tmp_path, options, site):
    monkeypatch.setenv("DATABASE_URL", "postgres://garden/real")
    monkeypatch.setenv("SITE_URL", "https://garden.example.org")
    monkeypatch.setenv("TRUSTED_PROXIES", "1")
    monkeypatch.setenv("DATA_DIR", str(tmp_path / "a b"))
    manage.use_demo_database(options)
    assert os.environ["SITE_URL"] == site
    assert os.environ["DATABASE_URL"] == f"sqlite:///{tmp_path}/a%20b/demo.sqlite3"
    assert "TRUSTED_PROXIES" not in os.environ
    assert manage.needed_lock("demo") == "app"


@pytest.mark.parametrize("port", ["high", "70000"])
def test_a_port_that_is_none_is_left_to_the_command_to_refuse(manage, monkeypatch, port):
    monkeypatch.setenv("SITE_URL", "http://127.0.0.1:8000")
    monkeypatch.setenv("DATABASE_URL", "")
    manage.use_demo_database(["--port", port])
    assert os.environ["SITE_URL"] == "http://127.0.0.1:8000"
