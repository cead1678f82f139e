"""One word for one thing, on every page and in every sentence."""

import ast
import re

from tests.project.source import Module, modules, templates, wanting
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


def sentences_of_module(module: Module) -> list[str]:
    """Every text that is handed to a translation function."""
    calls = [node for node in module.nodes if isinstance(node, ast.Call)]
    translated = [
        call for call in calls if getattr(call.func, "id", "") in ("_", "gettext", "ngettext", "pgettext")
    ]
    texts = [argument for call in translated for argument in call.args if isinstance(argument, ast.Constant)]
    return [str(text.value) for text in texts]


def other_words_on_page(text: str) -> list[str]:
    return [word for sentence in sentences_of_template(text) for word in PATTERN.findall(sentence)]


def other_words_in_code(module: Module) -> list[str]:
    bare = [re.sub(r"%\(\w+\)s|\{\w+\}", "", text) for text in sentences_of_module(module)]
    return [word for sentence in bare for word in PATTERN.findall(sentence)]


def test_pages_use_our_words():
    assert wanting(other_words_on_page, templates()) == {}


def test_sentences_use_our_words():
    assert wanting(other_words_in_code, modules()) == {}


def test_a_planted_word_is_found():
    assert PATTERN.findall("Log in as a user of this allotment") == ["Log in", "user", "allotment"]
    assert sentences_of_template(
        '{% translate "a" %}{% blocktranslate %}b {{ c }}{% endblocktranslate %}'
    ) == ["a", "b  "]
