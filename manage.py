#!/usr/bin/env python3
"""Runs Trugbook's commands, after seeing to the packages they need.

Outside an active environment it always runs in `.venv`, which it makes from the hash-pinned lists in `.lock/`
and updates when those change. Inside an active environment it installs nothing and names what is missing.
"""

from __future__ import annotations

import os
import sys
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from hashlib import sha256
from pathlib import Path
from urllib.parse import quote

ROOT = Path(__file__).resolve().parent
VENV = ROOT / ".venv"
PYTHON = VENV / ("Scripts/python.exe" if os.name == "nt" else "bin/python")
WHOLE = VENV / ".whole"
LOCKS = ("app", "postgres", "dev")
NEEDS_DEV = ("test",)
NO_VENV = (
    "Trugbook needs Python's venv module to set itself up, and this machine lacks it. "
    "On Debian and Ubuntu, run: apt install python3-venv"
)
NO_PACKAGES = (
    "Trugbook could not install the packages it needs; pip's reason stands above. "
    "Look whether this machine reaches its package index, then run the command again."
)


def main() -> None:
    if sys.version_info < (3, 11):
        sys.exit("Trugbook needs Python 3.11 or newer; this is Python {}.{}.".format(*sys.version_info))
    command = sys.argv[1] if len(sys.argv) > 1 else ""
    if command == "demo":
        use_demo_database(sys.argv[2:])
    if sys.prefix == sys.base_prefix:
        see_to_environment(needed_lock(command))
        run_in_environment()
    name_what_is_missing(needed_lock(command))
    os.environ.setdefault("DJANGO_SETTINGS_MODULE", "plots.settings")
    from django.core.management import execute_from_command_line

    execute_from_command_line(sys.argv)


def needed_lock(command: str) -> str:
    """The list that covers the command: `postgres` is `app` and its driver, `dev` holds everything."""
    if command in NEEDS_DEV:
        return "dev"
    database = os.environ.get("DATABASE_URL", "")
    with suppress(KeyError, OSError):  # settings complain of a file that cannot be read
        database = Path(os.environ["DATABASE_URL_FILE"]).read_text(encoding="utf-8")
    return "postgres" if database.startswith("postgres") else "app"


def use_demo_database(options: list[str]) -> None:
    """The demo keeps to a database and an address of its own, whatever the environment says."""
    data = Path(os.environ.get("DATA_DIR") or ROOT / ".data").expanduser().resolve()
    port = next((option[7:] for option in options if option.startswith("--port=")), "8000")
    if "--port" in options[:-1]:
        port = options[options.index("--port") + 1]
    for name in ("DATABASE_URL_FILE", "TRUSTED_PROXIES", "DEBUG", "DEFAULT_LANGUAGE"):
        os.environ.pop(name, None)
    os.environ["DATABASE_URL"] = "sqlite:///" + quote(str(data / "demo.sqlite3"))
    if port.isdigit() and int(port) < 65536:  # of any other the command itself complains
        os.environ["SITE_URL"] = f"http://127.0.0.1:{port}"


def see_to_environment(lock: str) -> None:
    """Makes or updates `.venv` unless its stamp says that it holds what `lock` lists."""
    if is_stamped(lock):
        return
    with one_at_a_time():
        if is_stamped(lock):  # somebody else has just done it
            return
        print(
            "Trugbook is getting its environment in .venv ready; that takes half a minute.",
            file=sys.stderr,
            flush=True,
        )
        if not venv_works():
            make_venv()
        for stamp in (WHOLE, *map(stamp_of, LOCKS)):  # broken off from here on, it is made anew
            stamp.unlink(missing_ok=True)
        install(lock)
        WHOLE.touch()
        for covered in LOCKS if lock == "dev" else {"app", lock}:
            stamp_of(covered).write_text(fingerprint(covered))


def stamp_of(lock: str) -> Path:
    return VENV / f".installed-{lock}"


def fingerprint(lock: str) -> str:
    """What the environment was made from; another Python version makes another environment."""
    python = "{}.{}".format(*sys.version_info).encode()
    return sha256((ROOT / ".lock" / f"{lock}.txt").read_bytes() + python).hexdigest()


def is_stamped(lock: str) -> bool:
    stamp = stamp_of(lock)
    return PYTHON.exists() and stamp.exists() and stamp.read_text() == fingerprint(lock)


@contextmanager
def one_at_a_time() -> Iterator[None]:
    """Two first starts at once wait for each other; where the system has no such lock, nobody waits."""
    with open(__file__, "rb") as file:
        with suppress(ImportError, OSError):
            import fcntl

            fcntl.flock(file, fcntl.LOCK_EX)
        yield


def venv_works() -> bool:
    """Whether `.venv` is of this Python, and neither its making nor its filling was broken off."""
    import subprocess

    if not WHOLE.exists():
        return False
    probe = "import pip, sys; print(*sys.version_info[:2])"
    try:
        answer = subprocess.run([str(PYTHON), "-c", probe], capture_output=True, text=True, check=True)
    except (OSError, subprocess.CalledProcessError):
        return False
    return answer.stdout.split() == [str(part) for part in sys.version_info[:2]]


def make_venv() -> None:
    import subprocess

    try:
        import ensurepip  # noqa: F401 (Debian splits it from venv)
        import venv

        venv.create(VENV, with_pip=True, clear=VENV.exists())
    except (ImportError, subprocess.CalledProcessError):
        sys.exit(NO_VENV)
    except OSError as error:
        sys.exit(f"Trugbook could not make its environment in {VENV}: {error.strerror}.")


def install(lock: str) -> None:
    import subprocess

    pip = [str(PYTHON), "-m", "pip", "install", "--quiet", "--disable-pip-version-check"]
    pinned = ["--require-hashes", "--only-binary", ":all:", "-r", str(ROOT / ".lock" / f"{lock}.txt")]
    try:
        subprocess.run(
            pip + pinned, check=True, stdout=sys.stderr, env={**clean_environment(), "PIP_USER": "0"}
        )
    except subprocess.CalledProcessError:
        sys.exit(NO_PACKAGES)


def clean_environment() -> dict[str, str]:
    """Ours, without what would lead the environment's Python back to another one."""
    return {k: v for k, v in os.environ.items() if k not in ("PYTHONHOME", "__PYVENV_LAUNCHER__")}


def run_in_environment() -> None:
    command = [str(PYTHON), str(ROOT / "manage.py"), *sys.argv[1:]]
    if os.name == "nt":
        import subprocess

        sys.exit(subprocess.run(command, env=clean_environment()).returncode)
    os.execve(command[0], command, clean_environment())


def name_what_is_missing(lock: str) -> None:
    """Stops with the names of packages that the active environment lacks."""
    import re
    import tomllib
    from importlib.metadata import PackageNotFoundError, version

    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))
    wanted = list(project["project"]["dependencies"])
    for group in {"app": (), "postgres": ("postgres",), "dev": ("postgres", "dev")}[lock]:
        wanted += [entry for entry in project["dependency-groups"][group] if isinstance(entry, str)]
    missing = []
    for requirement in wanted:
        name = re.split(r"[^A-Za-z0-9_.-]", requirement)[0]
        try:
            version(name)
        except PackageNotFoundError:
            missing.append(name)
    if missing:
        sys.exit(
            f"The active environment {sys.prefix} lacks {', '.join(missing)}. Leave it (deactivate) and run "
            f"this again, or run: python -m pip install --require-hashes -r .lock/{lock}.txt"
        )


if __name__ == "__main__":
    main()
