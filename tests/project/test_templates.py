"""Templates keep to the content policy, and every word in them can be translated."""

import re

from tests.project.source import Module, modules, templates, wanting

INLINE = {
    "a style attribute": r"\sstyle\s*=",
    "a style element": r"<style\b",
    "an inline script": r"<script(?![^>]*\bsrc=)",
    "an event handler": r"\son[a-z]+\s*=",
    "an htmx handler": r"\shx-on",
    "a javascript address": r"javascript:",
    "something declared safe": r"\|\s*safe\b|\{%\s*autoescape\s+off",
}
TRANSLATED = re.compile(r"\{%\s*blocktrans(?:late)?\b.*?\{%\s*endblocktrans(?:late)?\s*%\}", re.DOTALL)
NOT_WORDS = re.compile(
    r"\{%\s*comment.*?endcomment\s*%\}|\{#.*?#\}|\{%.*?%\}|\{\{.*?\}\}|<!--.*?-->", re.DOTALL
)
SPOKEN = re.compile(r'\b(?:title|alt|placeholder|aria-label|data-label)="([^"]*)"')
NAMES = {"Trugbook"}


def inline(text: str) -> list[str]:
    """What of a template the content policy forbids."""
    return [what for what, pattern in INLINE.items() if re.search(pattern, text, re.IGNORECASE)]


def test_nothing_in_a_page_breaks_the_policy():
    assert wanting(inline, templates()) == {}


def test_a_planted_handler_is_found():
    assert inline('<p onclick="go()">{{ x|safe }}</p>') == ["an event handler", "something declared safe"]


def untranslated(text: str) -> list[str]:
    """Words of a template that no translation can reach."""
    bare = NOT_WORDS.sub(" ", TRANSLATED.sub(" ", text))
    spoken = " ".join(SPOKEN.findall(bare))
    shown = re.sub(r"<[^>]*>", " ", bare) + " " + spoken
    shown = re.sub(r"&[a-z]+;", " ", shown)
    return sorted(set(re.findall(r"[^\W\d_]{2,}", shown)) - NAMES)


def test_every_word_can_be_translated():
    assert wanting(untranslated, templates()) == {}


def test_a_planted_word_is_found():
    assert untranslated('<p title="hi">{% translate "in" %} out {{ x }}</p>') == ["hi", "out"]


def declared_safe(module: Module) -> list[str]:
    return [name for _line, name in module.imports() if name.endswith(("mark_safe", ".SafeString"))]


def test_no_code_declares_text_safe():
    assert wanting(declared_safe, modules()) == {}
