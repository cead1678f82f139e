"""Files and functions stay small enough to read at one sitting."""

import ast

import pytest

from tests.project.source import modules, templates

FILE, FUNCTION, VIEW, TEMPLATE = 400, 50, 25, 150


WRITTEN_BY_US = [module for module in modules() if module.room != "migrations"]


@pytest.mark.parametrize("module", WRITTEN_BY_US, ids=lambda module: module.name)
def test_python_is_short(module):
    limit = VIEW if module.room == "views" else FUNCTION
    long = [
        f"{node.name}: {length}"
        for node in ast.walk(module.tree)
        if isinstance(node, ast.FunctionDef)
        and (length := node.end_lineno - node.lineno + 1 - _docstring_lines(node)) > limit
    ]
    assert long == []
    assert len(module.path.read_text(encoding="utf-8").splitlines()) <= FILE


@pytest.mark.parametrize("path", templates(), ids=lambda path: path.stem)
def test_templates_are_short(path):
    assert len(path.read_text(encoding="utf-8").splitlines()) < TEMPLATE


def _docstring_lines(node: ast.FunctionDef) -> int:
    text = ast.get_docstring(node, clean=False)
    return 0 if text is None else len(text.splitlines())
