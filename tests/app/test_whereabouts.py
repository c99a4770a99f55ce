"""Where an item is that is not here, in words that do not say more than was said."""

import pytest

from app.whereabouts import line_words, plainly, where_words
from inspection_rules.rounds import RoundEntry
from inspection_rules.words import Where


@pytest.mark.parametrize(
    ("where", "note", "said"),
    [
        (Where.NOT_FOUND, "sling loft, bin 3", "Not found; looked for in: sling loft, bin 3"),
        (Where.NOT_FOUND, "", "Not found"),
        (Where.ASHORE, "net loft", "Ashore: net loft"),
        (Where.ASHORE, "", "Ashore"),
        (Where.ON_LOAN, "the tree crew", "On loan to the tree crew"),
        (Where.ON_LOAN, "to the tree crew", "On loan to the tree crew"),
    ],
)
def test_words_of_a_place_say_what_was_said_of_it(where: Where, note: str, said: str) -> None:
    assert where_words(where, note) == said


@pytest.mark.parametrize(
    ("where", "sentence", "said"),
    [
        ("not found", "Not found.", ["Not found; looked for in: bin 3", ""]),
        (
            "not found",
            "Not found. The inspection due by 2050-01-01 has not been made.",
            ["Not found; looked for in: bin 3", "The inspection due by 2050-01-01 has not been made."],
        ),
        ("ashore", "Ashore; not here to be used.", ["Ashore: bin 3", "not here to be used"]),
        ("not found", "Condemned, and still listed here: take it away.",
         ["Not found; looked for in: bin 3", "Condemned, and still listed here: take it away."]),
    ],
)  # fmt: skip
def test_words_of_a_round_say_the_place_once_and_lose_nothing(where: str, sentence: str, said: list[str]) -> None:
    entry = RoundEntry.model_validate({"item": "one", "whereabouts": where, "note": "bin 3"})
    assert line_words(sentence, entry, str, plainly) == said
