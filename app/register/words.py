"""Folding texts into the words an item is found by, and tags into the order people count in."""

import re
import unicodedata
from collections.abc import Iterable

_PIECE = re.compile(r"[0-9]+|[^\W_0-9]+")
_DIGITS = re.compile(r"[0-9]+")
LONGEST = 40  # letters of a word that count


def fold(text: str) -> str:
    """Return a text without case and accents."""
    apart = unicodedata.normalize("NFKD", text.casefold())
    return "".join(letter for letter in apart if not unicodedata.combining(letter)).casefold()


def words(text: str) -> list[str]:
    """Return the folded words of what a person looks for: `ML-04`, `ml 4` and `ml4` are found alike.

    What stands between letters and figures is left out, and zeros before a figure; a word that ends in nothing but
    zeros is still being typed and keeps them.
    """
    found = []
    for written in fold(text).split():
        pieces = _PIECE.findall(written)
        if pieces:
            *before, last = pieces
            tail = last if not last.strip("0") else _bare(last)
            found.append("".join((*map(_bare, before), tail))[:LONGEST])
    return list(dict.fromkeys(found))


def index_words(texts: Iterable[str]) -> frozenset[str]:
    """Return the words some texts are found by: from each run of letters or figures on, as written and without zeros.

    A search finds what begins one of these, so `sling 4`, `sling4` and `4` all find `RS sling-04`.
    """
    found: set[str] = set()
    for text in texts:
        pieces = _PIECE.findall(fold(text))
        for written in (pieces, [_bare(piece) for piece in pieces]):
            found |= {"".join(written[start : start + LONGEST])[:LONGEST] for start in range(len(written))}
    return frozenset(found)


def code(text: str) -> tuple[str, ...]:
    """Return what makes a tag that tag and no other: its runs of letters and figures, folded, without leading zeros."""
    return tuple(map(_bare, _PIECE.findall(fold(text))))


def _bare(piece: str) -> str:
    return piece.lstrip("0") or "0"


def order_key(tag: str) -> str:
    """Return a key that sorts `line 2` before `line 10`."""
    return _DIGITS.sub(lambda found: found.group().zfill(12), fold(tag))
