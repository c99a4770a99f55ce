"""Folding texts into the words an item is found by, and tags into the order people count in."""

import re
import unicodedata
from collections.abc import Iterable

_WORD = re.compile(r"[^\W_]+")
_PIECE = re.compile(r"[0-9]+|[^\W\d_]+")
_DIGITS = re.compile(r"[0-9]+")


def fold(text: str) -> str:
    """Return a text without case and accents."""
    apart = unicodedata.normalize("NFKD", text.casefold())
    return "".join(letter for letter in apart if not unicodedata.combining(letter)).casefold()


def words(text: str) -> list[str]:
    """Return the folded words of what a person looks for."""
    return list(dict.fromkeys(_WORD.findall(fold(text))))


def index_words(texts: Iterable[str]) -> frozenset[str]:
    """Return the folded words of some texts; `ML12` is also found by `12`."""
    whole = {word for text in texts for word in words(text)}
    return frozenset(whole | {piece for word in whole for piece in _PIECE.findall(word)})


def order_key(tag: str) -> str:
    """Return a key that sorts `line 2` before `line 10`."""
    return _DIGITS.sub(lambda found: found.group().zfill(12), fold(tag))
