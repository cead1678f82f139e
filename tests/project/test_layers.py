"""Imports run one way, and everything outside the named rooms is pure."""

import ast
from functools import cache
from pathlib import Path

import pytest

from tests.project.source import APPS, FOLDERS, PROJECT_WIDE, Module, modules, wanting

# Within an app each level may use those below it and its own.
LEVELS = {
    "pure": 0,
    "models": 1,
    "wording": 2,
    "access": 2,
    "queries": 2,
    "service": 2,
    "forms": 3,
    "feeds": 3,
    "templatetags": 3,
    "views": 4,
    "health": 4,
    "urls": 5,
    "apps": 5,
    "admin": 5,
    "checks": 5,
    "middleware": 5,
    "htmx": 3,
    "management": 5,
    "migrations": 5,
}
FRAMEWORK = ("django", "django_htmx", "whitenoise")
# Sheets are printed in the reader's language and its formats.
SHEETS_MAY = ("django.utils.translation", "django.utils.formats")


@cache
def by_name() -> dict[str, Module]:
    return {module.name: module for module in modules()}


def own_module(name: str) -> Module | None:
    """The module that an imported name is, or is taken from."""
    return by_name().get(name) or by_name().get(name.rpartition(".")[0])


def faults(module: Module) -> list[str]:
    found = []
    for line, name in module.imports():
        target = own_module(name)
        here = f"{module.path.name}:{line} imports {name}"
        if module.room == "pure" and name.split(".")[0] in FRAMEWORK:
            sheet = module.name.startswith("schedules.reports") and name.startswith(SHEETS_MAY)
            if not sheet:
                found.append(f"{here}, but is pure")
        if target is None or module.name in PROJECT_WIDE:
            continue
        if module.room == "pure" and target.room != "pure":
            found.append(f"{here}, but is pure")
        if APPS.index(target.app) > APPS.index(module.app):
            found.append(f"{here}, which lies above it")
        if target.room == "project":
            found.append(f"{here}, which is for the whole project")
        elif target.app == module.app and LEVELS[target.room] > LEVELS[module.room]:
            found.append(f"{here}, a {target.room} module from a {module.room} module")
    return found


def test_imports_run_one_way():
    assert wanting(faults, modules()) == {}


@pytest.mark.parametrize(
    ("name", "text", "fault"),
    [
        ("schedules.frost", "from django.utils import timezone", "but is pure"),
        ("schedules.frost", "def f():\n    import django.db", "but is pure"),
        ("schedules.frost", "from plots.models import Garden", "but is pure"),
        ("schedules.reports.x", "from django.db import models", "but is pure"),
        ("plots.views.x", "from crops.facts import CropFacts", "which lies above it"),
        ("crops.models.x", "from plots.settings import DEBUG", "which is for the whole project"),
        ("plots.models.x", "from plots.service import make_link", "a service module from a models module"),
        ("plots.service.x", "from plots.views import home", "a views module from a service module"),
    ],
)
def test_a_planted_fault_is_found(name, text, fault):
    planted = Module(Path("x.py"), name, ast.parse(text))
    assert [found for found in faults(planted) if fault in found] != []


def test_every_folder_of_an_app_is_a_room_or_pure():
    rooms = {module.room for module in modules()}
    assert rooms - {"pure", "project"} <= set(LEVELS)
    assert set(FOLDERS) <= set(LEVELS)
