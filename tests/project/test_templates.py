"""Templates keep to the content policy, and every word in them can be translated."""

import re

import pytest

from tests.project.source import modules, templates

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


@pytest.mark.parametrize("path", templates(), ids=lambda path: path.stem)
def test_nothing_in_a_page_breaks_the_policy(path):
    text = path.read_text(encoding="utf-8")
    assert [what for what, pattern in INLINE.items() if re.search(pattern, text, re.IGNORECASE)] == []


def untranslated(text: str) -> list[str]:
    """Words of a template that no translation can reach."""
    bare = NOT_WORDS.sub(" ", TRANSLATED.sub(" ", text))
    spoken = " ".join(SPOKEN.findall(bare))
    shown = re.sub(r"<[^>]*>", " ", bare) + " " + spoken
    shown = re.sub(r"&[a-z]+;", " ", shown)
    return sorted(set(re.findall(r"[^\W\d_]{2,}", shown)) - NAMES)


@pytest.mark.parametrize("path", templates(), ids=lambda path: path.stem)
def test_every_word_can_be_translated(path):
    assert untranslated(path.read_text(encoding="utf-8")) == []


def test_a_planted_word_is_found():
    assert untranslated('<p title="hi">{% translate "in" %} out {{ x }}</p>') == ["hi", "out"]


@pytest.mark.parametrize("module", modules(), ids=lambda module: module.name)
def test_no_code_declares_text_safe(module):
    names = [name for _line, name in module.imports() if name.endswith(("mark_safe", ".SafeString"))]
    assert names == []
