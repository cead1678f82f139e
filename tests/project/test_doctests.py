"""The worked examples in pure modules are true."""

import doctest
import importlib

import pytest

from tests.project.source import modules

WITH_EXAMPLES = [
    module.name
    for module in modules()
    if module.room == "pure" and ">>> " in module.path.read_text(encoding="utf-8")
]


def test_there_are_examples():
    assert "plots.spelling" in WITH_EXAMPLES


@pytest.mark.parametrize("name", WITH_EXAMPLES)
def test_examples(name):
    flags = doctest.NORMALIZE_WHITESPACE | doctest.ELLIPSIS
    result = doctest.testmod(importlib.import_module(name), optionflags=flags)
    assert (result.failed, result.attempted > 0) == (0, True)
