"""The project's own files, read once for the tests that look at how they are written."""

from __future__ import annotations

import ast
import subprocess
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from functools import cache, cached_property
from pathlib import Path
from typing import Any

ROOT = Path(__file__).resolve().parents[2]
APPS = ("plots", "crops", "schedules")  # each may use those before it
PROJECT_WIDE = ("plots.settings", "plots.wsgi")
ROOMS = [
    "models",
    "access",
    "service",
    "queries",
    "forms",
    "views",
    "feeds",
    "urls",
    "admin",
    "apps",
    "checks",
    "middleware",
    "health",
    "htmx",
    "wording",
]
FOLDERS = ("migrations", "management", "templatetags")


@dataclass(frozen=True)
class Module:
    path: Path
    name: str
    tree: ast.Module

    @property
    def app(self) -> str:
        return self.name.split(".")[0]

    @property
    def room(self) -> str:
        """The room or folder it belongs to, or `pure`."""
        part = self.name.partition(".")[2].partition(".")[0]
        if self.name in PROJECT_WIDE:
            return "project"
        return part if part in (*ROOMS, *FOLDERS) else "pure"

    @cached_property
    def nodes(self) -> tuple[ast.AST, ...]:
        """All of its syntax, walked once for all who look for something in it."""
        return tuple(ast.walk(self.tree))

    def imports(self) -> list[tuple[int, str]]:
        """Line and full name of everything imported, wherever in the file."""
        found = []
        for node in self.nodes:
            if isinstance(node, ast.Import):
                found += [(node.lineno, alias.name) for alias in node.names]
            elif isinstance(node, ast.ImportFrom):
                base = node.module or ""
                if node.level:
                    package = self.name.split(".")[: -node.level or None]
                    base = ".".join([*package, *([base] if base else [])])
                found += [(node.lineno, f"{base}.{alias.name}") for alias in node.names]
        return found


@cache
def modules() -> tuple[Module, ...]:
    found = []
    for app in APPS:
        for path in sorted((ROOT / app).rglob("*.py")):
            parts = path.relative_to(ROOT).with_suffix("").parts
            name = ".".join(part for part in parts if part != "__init__")
            found.append(Module(path, name, ast.parse(path.read_text(encoding="utf-8"))))
    return tuple(found)


@cache
def templates() -> dict[str, str]:
    """The text of each page and partial, by its path."""
    paths = sorted((ROOT / "templates").rglob("*.html"))
    return {str(path.relative_to(ROOT)): path.read_text(encoding="utf-8") for path in paths}


def wanting(faults: Callable[..., list], things: Mapping[str, Any] | Iterable[Module]) -> dict[str, list]:
    """What is wrong with each, by its name: one test for all files, because a test of each takes longer."""
    named = things if isinstance(things, Mapping) else {module.name: module for module in things}
    return {name: found for name, thing in named.items() if (found := faults(thing))}


@cache
def kept_files() -> tuple[Path, ...]:
    """Every text file of the project that belongs in its history."""
    listed = subprocess.run(
        ["git", "ls-files", "--cached", "--others", "--exclude-standard"],
        cwd=ROOT,
        capture_output=True,
        text=True,
        check=True,
    ).stdout.splitlines()
    paths = [ROOT / name for name in listed]
    return tuple(path for path in paths if path.is_file() and b"\0" not in path.read_bytes()[:4096])
