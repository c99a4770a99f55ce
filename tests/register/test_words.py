"""Folding and ordering."""

import pytest

from app.register.words import fold, index_words, order_key, words


@pytest.mark.parametrize(
    ("written", "typed"),
    [("Âncora", "ancora"), ("Straße", "STRASSE"), ("Ærø", "ærø"), ("ﬁd", "FID"), ("２４", "24"), ("Ǆ", "dž")],
)
def test_case_accents_and_letter_forms_do_not_matter(written: str, typed: str) -> None:
    assert fold(written) == fold(typed)


def test_words_are_letters_and_digits_each_once() -> None:
    assert words("SP-101 / tail_end (SP)") == ["sp", "101", "tail", "end"]


def test_a_number_inside_a_tag_is_a_word_of_its_own() -> None:
    assert {"ml12", "ml", "12"} <= index_words(["ML12"])


def test_tags_sort_as_people_count() -> None:
    assert sorted(["line 10", "Line 2", "line 1", "líne 3"], key=order_key) == ["line 1", "Line 2", "líne 3", "line 10"]
