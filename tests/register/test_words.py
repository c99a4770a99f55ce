"""Folding and ordering."""

import pytest

from app.register.words import LONGEST, code, fold, index_words, order_key, words


@pytest.mark.parametrize(
    ("written", "typed"),
    [("Âncora", "ancora"), ("Straße", "STRASSE"), ("Ærø", "ærø"), ("ﬁd", "FID"), ("２４", "24"), ("Ǆ", "dž")],
)
def test_case_accents_and_letter_forms_do_not_matter(written: str, typed: str) -> None:
    assert fold(written) == fold(typed)


def test_words_are_letters_and_digits_each_once() -> None:
    assert words("SP-101 / tail_end tail-end (SP)") == ["sp101", "tailend", "sp"]


@pytest.mark.parametrize("typed", ["ML-04", "ml4", "ml 4", "ML04", "m", "ml-0", "4", "04", "0", "ml4/a", "a"])
def test_separators_and_leading_zeros_are_ignored(typed: str) -> None:
    found = index_words(["ML-04/A"])
    assert all(any(word.startswith(one) for word in found) for one in words(typed))


@pytest.mark.parametrize("typed", ["ml5", "l4", "ml40", "14"])
def test_another_number_is_not_found(typed: str) -> None:
    found = index_words(["ML-04"])
    assert not all(any(word.startswith(one) for word in found) for one in words(typed))


def test_a_code_keeps_where_its_figures_end() -> None:
    assert code("ML-04") == code("ml 4")
    assert code("1-12") != code("11-2")


def test_a_long_run_without_spaces_makes_no_longer_words_than_count() -> None:
    assert max(map(len, index_words(["x1" * 300]))) == LONGEST
    assert len(words("x1" * 300)[0]) == LONGEST


def test_tags_sort_as_people_count() -> None:
    assert sorted(["line 10", "Line 2", "line 1", "líne 3"], key=order_key) == ["line 1", "Line 2", "líne 3", "line 10"]
