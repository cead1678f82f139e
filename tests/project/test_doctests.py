"""The worked examples in pure modules are true."""

import doctest
import importlib

from tests.project.source import modules


def test_examples():
    tried = {
        module.name: doctest.testmod(
            importlib.import_module(module.name), optionflags=doctest.NORMALIZE_WHITESPACE | doctest.ELLIPSIS
        )
        for module in modules()
        if module.room == "pure" and ">>> " in module.path.read_text(encoding="utf-8")
    }
    assert tried["plots.spelling"].attempted > 0
    assert [name for name, result in tried.items() if result.failed or not result.attempted] == []
