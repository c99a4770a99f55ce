"""The catalogues: complete, whole, and never milder than the English."""

import re
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest
from fontTools.ttLib import TTFont

from app.language import LANGUAGES
from app.resources import asset

sys.path.insert(0, str(Path(__file__).parents[1]))
import catalogue

LANGUAGE = pytest.mark.parametrize("language", catalogue.languages())
NOT = {
    "de": re.compile(r"\b(nicht|nie|niemals|niemand|kein\w*|nichts|ohne|weder|nein|ungesichert|unbeschädigt)\b", re.I)
}
ENGLISH_NOT = re.compile(r"\b(?<!yes or )(not|never|no|nobody|nothing|cannot|none|DO NOT USE)\b")


def pairs(language: str) -> Iterator[tuple[str, str]]:
    """Each message with its translation, plural forms one by one."""
    for message in catalogue.read(language):
        if not message.id:
            continue
        texts = message.id if isinstance(message.id, tuple) else (message.id,)
        said = message.string if isinstance(message.string, tuple) else (message.string,)
        yield from (pair for pair in zip(texts, said, strict=True) if pair[1])


def test_every_language_offered_has_its_catalogue() -> None:
    assert set(LANGUAGES) == {"en", *catalogue.languages()}


@LANGUAGE
def test_every_message_of_the_program_is_translated(language: str) -> None:
    current = catalogue.updated(catalogue.read(language), catalogue.messages())
    assert catalogue.missing(current) == []


@LANGUAGE
def test_what_ships_is_compiled_from_what_is_kept(language: str) -> None:
    assert asset(f"language/{language}.mo").read_bytes() == catalogue.compiled(language)


@LANGUAGE
def test_what_is_filled_in_is_the_same_in_both(language: str) -> None:
    wrong = [
        text
        for text, said in pairs(language)
        if sorted(re.findall(r"\{\w*\}", text)) != sorted(re.findall(r"\{\w*\}", said))
    ]
    assert wrong == []


@LANGUAGE
def test_no_denial_is_lost(language: str) -> None:
    """A translation without the 'not' of its original can hurt somebody."""
    lost = [
        (text, said) for text, said in pairs(language) if ENGLISH_NOT.search(text) and not NOT[language].search(said)
    ]
    assert lost == []


def test_do_not_use_is_as_heavy_in_german() -> None:
    said = dict(pairs("de"))
    heavy = [(text, said[text]) for text in said if "DO NOT USE" in text]
    assert heavy and all("NICHT BENUTZEN" in german for _, german in heavy)
    begun = [(text, said[text]) for text in said if text.startswith("Do not use it") and "tool's word" not in text]
    assert all(german.startswith("Nicht benutzen") for _, german in begun)


@LANGUAGE
def test_numbers_are_never_changed(language: str) -> None:
    """Counts written in words may be; figures with their signs never."""
    wrong = []
    for text, said in pairs(language):
        figures, kept = (sorted(re.findall(r"\d+(?:[.,/]\d+)*", one)) for one in (text, said))
        if figures != kept:
            wrong.append((text, said))
    assert wrong == []


@LANGUAGE
def test_the_fonts_have_every_sign_of_the_language(language: str) -> None:
    signs = {sign for _, said in pairs(language) for sign in said if not sign.isspace()} | set("äöüÄÖÜß„“")
    for weight in ("Regular", "SemiBold", "Bold"):
        with TTFont(asset(f"fonts/Inter-{weight}.ttf")) as font:
            assert signs - {chr(code) for code in font.getBestCmap()} == set()
