"""Rules in plain words: every rule that ships can be said, and says what its data says."""

import pytest

from app import rule_words
from inspection_rules.book import shipped
from inspection_rules.judgement import Source
from inspection_rules.quantity import parse
from inspection_rules.rule import Formula, Rule

RULES = {rule.id: rule for pack in shipped().packs for rule in pack.rules}
PRACTICE = {"document": "Common practice", "kind": "common practice", "verified": "none"}


def rule(**body: object) -> Rule:
    told = {"fires": "It is so.", "action": "Do this.", "title": "a rule", "id": "a-rule", "source": PRACTICE}
    return Rule.model_validate({**told, **body})


@pytest.mark.parametrize("name", sorted(RULES))
def test_every_rule_says_what_it_asks_without_a_programmers_word(name: str) -> None:
    one = RULES[name]
    said = [*rule_words.asks(one, shipped()), rule_words.brief(one, shipped()), rule_words.applies_to(one.applies)]
    assert said[0]
    assert not any("_" in text or "None" in text or "True" in text for text in said)


def test_a_limit_that_grows_with_the_rope_names_diameter_and_turning_point() -> None:
    limit = Formula.model_validate({"formula": "diameters", "times": "6", "below": "1 in", "otherwise": "6 in"})
    assert rule_words.bound(limit) == "6 × the nominal diameter; 6 in from 1 in diameter on"


def test_a_fixed_limit_is_written_as_the_pack_has_it() -> None:
    assert rule_words.bound(parse("60° included", "angle")) == "60° included"


def test_an_age_is_counted_from_the_day_the_rule_names() -> None:
    one = rule(age={"since": "first_used", "longest": "10 years", "outcome": "remove"})
    assert list(rule_words.asks(one, shipped())) == ["No longer than 10 years from the day it was first used."]


def test_one_year_is_singular() -> None:
    one = rule(interval={"since": ["periodic"], "longest": {"normal": "1 years"}})
    assert list(rule_words.asks(one, shipped())) == ["Since the last look periodic: no longer than 1 year."]


def test_what_a_use_must_not_meet_is_named() -> None:
    one = rule(scope="use", meets={"chemicals": ["caustic"], "persons": True})
    assert list(rule_words.asks(one, shipped())) == ["In use it must not meet: caustic; lifting persons."]
    assert rule_words.outcome_words(one) == "not for this use"
    assert rule_words.outcome(one) is None


@pytest.mark.parametrize(
    ("kind", "verified", "said"),
    [
        ("regulation", "read", "somebody has read the clause"),
        ("standard", "secondary", "another publication repeats it"),
        ("standard", "memory", "nobody has read the clause yet"),
        ("common practice", "none", "no published source"),
        ("maker", "none", "maker's document"),
        ("site", "none", "Set by the site"),
    ],
)
def test_how_well_a_source_was_verified_is_said_in_a_sentence(kind: str, verified: str, said: str) -> None:
    assert said in rule_words.standing(Source(document="a book", kind=kind, verified=verified))


def test_a_citation_names_document_clause_edition_and_kind() -> None:
    source = Source(document="29 CFR 1910.184", clause="(h)(3)", edition="2010", kind="regulation", verified="read")
    assert rule_words.citation(source) == "29 CFR 1910.184(h)(3) (2010) · regulation"
