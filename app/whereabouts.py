"""Where an item is that is not here, in words: one wording for the screens, in their language, and for the report."""

from collections.abc import Callable
from typing import TYPE_CHECKING

from app.language import mark, say

if TYPE_CHECKING:
    from inspection_rules.rounds import RoundEntry
    from inspection_rules.words import Where

NOTED = {
    "not found": mark("Not found; looked for in: {place}"),  # it does not lie there
    "ashore": mark("Ashore: {place}"),
    "on loan": mark("On loan to {place}"),
}
BARE = {"not found": mark("Not found"), "ashore": mark("Ashore"), "on loan": mark("On loan")}
NOT_TO_BE_USED = mark("not here to be used")
_MISSED = "Not found."
Words = Callable[..., str]


def plainly(text: str, /, **values: object) -> str:
    """Return a sentence in English, as the report has it, with `{name}` replaced by the value of that name."""
    return text.format(**values) if values else text


def where_words(where: "Where | str", note: str, words: Words = say) -> str:
    """Say where an item is, with what was said of the place.

    Args:
        where: ashore, on loan or not found.
        note: where it lies, who has it, or where it was looked for; as it was typed.
        words: `say` for a screen, `plainly` for the report.
    """
    known = str(where)
    if not note:
        return words(BARE[known])
    # "to the tree crew" answers the question to whom it is lent as well as "the tree crew" does.
    return words(NOTED[known], place=note.removeprefix("to ") if known == "on loan" else note)


def line_words(sentence: str, entry: "RoundEntry | None", told: Callable[[str], str], words: Words = say) -> list[str]:
    """Say why an item stops a round, or how it stands, with what was noted of it, in pieces.

    Args:
        sentence: of the item's line in the round.
        entry: what was said of it in the round.
        told: how the sentence is told in the language of `words`.
    """
    if entry is None or entry.inspection or not entry.note:
        return [told(sentence), entry.note if entry is not None else ""]
    place = where_words(entry.whereabouts.value, entry.note, words)
    if sentence.startswith(_MISSED):
        return [place, told(sentence.removeprefix(_MISSED).strip())]
    if sentence.endswith(f"; {NOT_TO_BE_USED}."):
        return [place, words(NOT_TO_BE_USED)]
    return [place, told(sentence)]
