"""Criteria and rules, side by side."""

from inspection_rules.book import shipped
from inspection_rules.coverage import coverage


def test_every_criterion_has_a_rule_or_the_reason_why_it_has_none():
    for one in coverage(shipped()):
        assert bool(one.rules) is not bool(one.criterion.left_out), one.criterion.id


def test_every_criterion_of_the_file_is_listed_in_its_order():
    assert [one.criterion.id for one in coverage(shipped())] == list(shipped().criteria)
    assert {"cut-strand", "throat-angle", "combined-damage"} <= set(shipped().criteria)


def test_a_rule_of_a_regime_names_the_criterion_it_applies():
    nameless = [rule.id for pack in shipped().packs if pack.regime for rule in pack.rules if not rule.criterion]
    assert nameless == []


def test_no_rule_claims_to_be_better_verified_than_its_criterion():
    order = ["none", "memory", "secondary", "read"]
    for one in coverage(shipped()):
        for _, rule in one.rules:
            assert order.index(rule.source.verified) <= order.index(one.criterion.evidence), rule.id
