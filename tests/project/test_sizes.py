"""Files and functions stay small enough to read at one sitting."""

import ast

from tests.project.source import Module, modules, templates, wanting

FILE, FUNCTION, VIEW, TEMPLATE = 400, 50, 25, 150


def too_long(module: Module) -> list[str]:
    limit = VIEW if module.room == "views" else FUNCTION
    lines = len(module.path.read_text(encoding="utf-8").splitlines())
    return [f"the file: {lines}"] * (lines > FILE) + [
        f"{node.name}: {length}"
        for node in module.nodes
        if isinstance(node, ast.FunctionDef)
        and (length := node.end_lineno - node.lineno + 1 - _docstring_lines(node)) > limit
    ]


def _docstring_lines(node: ast.FunctionDef) -> int:
    text = ast.get_docstring(node, clean=False)
    return 0 if text is None else len(text.splitlines())


def test_python_is_short():
    assert wanting(too_long, [module for module in modules() if module.room != "migrations"]) == {}


def test_templates_are_short():
    lengths = {name: len(text.splitlines()) for name, text in templates().items()}
    assert {name: lines for name, lines in lengths.items() if lines >= TEMPLATE} == {}
