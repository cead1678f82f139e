"""One word for one thing, on every page and in every sentence."""

import ast
import re

import pytest

from tests.project.source import modules, templates
from tests.project.test_templates import NOT_WORDS

OTHER_WORDS = {
    r"allotments?|parcels?": "plot",
    r"log[ -]?in|log[ -]?on|login|signin": "sign in",
    r"log[ -]?out|logout": "sign out",
    r"usernames?|user names?": "sign-in name",
    r"users?": "member, person",
    r"wait ?lists?": "waiting list",
    r"work ?parties|working bees?": "workday",
    r"admins?|administrators?": "coordinator",
    r"cultivars?": "variety",
    r"dashboards?": "",
    r"plot ?holders?|lease ?holders?|tenants?": "member, holder",
}
PATTERN = re.compile(r"\b(?:" + "|".join(OTHER_WORDS) + r")\b", re.IGNORECASE)
TRANSLATE = re.compile(r"""\{%\s*translate\s+(?:"([^"]*)"|'([^']*)')""")
BLOCK = re.compile(r"\{%\s*blocktranslate\b[^%]*%\}(.*?)\{%\s*endblocktranslate", re.DOTALL)


def sentences_of_template(text: str) -> list[str]:
    return [a or b for a, b in TRANSLATE.findall(text)] + [NOT_WORDS.sub(" ", b) for b in BLOCK.findall(text)]


def sentences_of_module(tree: ast.Module) -> list[str]:
    """Every text that is handed to a translation function."""
    calls = [node for node in ast.walk(tree) if isinstance(node, ast.Call)]
    translated = [
        call for call in calls if getattr(call.func, "id", "") in ("_", "gettext", "ngettext", "pgettext")
    ]
    texts = [argument for call in translated for argument in call.args if isinstance(argument, ast.Constant)]
    return [str(text.value) for text in texts]


@pytest.mark.parametrize("path", templates(), ids=lambda path: path.stem)
def test_pages_use_our_words(path):
    found = [
        PATTERN.findall(sentence) for sentence in sentences_of_template(path.read_text(encoding="utf-8"))
    ]
    assert [words for words in found if words] == []


@pytest.mark.parametrize("module", modules(), ids=lambda module: module.name)
def test_sentences_use_our_words(module):
    found = [PATTERN.findall(re.sub(r"%\(\w+\)s|\{\w+\}", "", s)) for s in sentences_of_module(module.tree)]
    assert [words for words in found if words] == []


def test_a_planted_word_is_found():
    assert PATTERN.findall("Log in as a user of this allotment") == ["Log in", "user", "allotment"]
    assert sentences_of_template(
        '{% translate "a" %}{% blocktranslate %}b {{ c }}{% endblocktranslate %}'
    ) == ["a", "b  "]
