"""The pinned lists are in step with pyproject.toml, complete with hashes, and name no index."""

import re
import tomllib

import pytest
from packaging.requirements import Requirement
from packaging.utils import canonicalize_name

from tests.project.source import ROOT, kept_files

PROJECT = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))
LINE = re.compile(
    r"^([a-z0-9-]+)==([^ ;]+)([^\\]*)\\\n((?:    --hash=sha256:[0-9a-f]{64}(?: \\)?\n)+)", re.MULTILINE
)


def pins(name: str) -> dict[str, str]:
    return {pin: version for pin, version, *_rest in LINE.findall(text_of(name))}


def text_of(name: str) -> str:
    return (ROOT / ".lock" / f"{name}.txt").read_text(encoding="utf-8")


def wanted(*groups: str) -> list[Requirement]:
    listed = list(PROJECT["project"]["dependencies"])
    for group in groups:
        listed += [entry for entry in PROJECT["dependency-groups"][group] if isinstance(entry, str)]
    return [Requirement(entry) for entry in listed]


@pytest.mark.parametrize(
    ("name", "groups"), [("app", []), ("postgres", ["postgres"]), ("dev", ["postgres", "dev"])]
)
def test_every_requirement_is_pinned_within_its_bounds(name, groups):
    pinned = pins(name)
    for requirement in wanted(*groups):
        version = pinned[canonicalize_name(requirement.name)]
        assert requirement.specifier.contains(version), requirement


@pytest.mark.parametrize("name", ["app", "postgres", "dev"])
def test_every_line_has_hashes(name):
    assert LINE.sub("", text_of(name)).strip() == ""


def test_the_lists_agree_where_they_overlap():
    app, postgres, dev = pins("app"), pins("postgres"), pins("dev")
    assert app.items() <= postgres.items() <= dev.items()
    assert set(postgres) - set(app) >= {"psycopg", "psycopg-binary"}


INDEX = re.compile(
    r"pypi\.org|pythonhosted|--(?:extra-)?index-url|--find-links|registry\.|npmjs", re.IGNORECASE
)


def test_no_file_names_an_index():
    ours = [path for path in kept_files() if path.name != "test_locks.py"]
    assert [
        path.name for path in ours if INDEX.search(path.read_text(encoding="utf-8", errors="replace"))
    ] == []
