"""ANSI Z133, tree work: climbing lines of 24 kN (5,400 lbf) and 12.7 mm nominal, connectors of 5,000 lbf.

As restated by suppliers and training pages (secondary).
"""

import pytest

from inspection_rules.words import Answer

from ..inspection_rules.building import judged
from ..inspection_rules.fittings import climbing, connector, examined, rules_of, said

REGIME = "Tree work"


@pytest.mark.criterion("breaking-force")
@pytest.mark.parametrize("kind", ["line", "lanyard", "hitch cord"])
@pytest.mark.parametrize(
    ("force", "answer"),
    [
        ("23.9 kN", Answer.REMOVE), ("24 kN", Answer.SERVICEABLE), ("5400 lbf", Answer.SERVICEABLE),
        ("5000 lbf", Answer.REMOVE),
    ],
)  # fmt: skip
def test_climbing_lines_split_tails_and_lanyards_break_at_24_kn_or_more(kind, force, answer):
    assert said(examined(climbing(kind, breaking_force=force), REGIME), "tree-line-strength").answer is answer


@pytest.mark.criterion("breaking-force")
@pytest.mark.parametrize(("force", "answer"), [("4999 lbf", Answer.REMOVE), ("5000 lbf", Answer.SERVICEABLE)])
def test_connectors_break_at_5000_pounds_or_more(force, answer):
    look = examined(connector(breaking_force=force), REGIME, kind="before use")
    assert said(look, "tree-connector-strength").answer is answer


@pytest.mark.criterion("breaking-force")
@pytest.mark.parametrize(("force", "answer"), [(None, Answer.HOLD), ("24 kN", Answer.SERVICEABLE)])
def test_a_force_that_is_not_on_record_holds_at_the_examination(force, answer):
    assert said(examined(climbing(breaking_force=force), REGIME), "tree-strength-on-record").answer is answer


@pytest.mark.criterion("rope-size")
@pytest.mark.parametrize(
    ("size", "advised", "least"),
    [
        ("1/2 in", Answer.SERVICEABLE, Answer.SERVICEABLE),
        ("12.7 mm", Answer.SERVICEABLE, Answer.SERVICEABLE),
        ("12.6 mm", Answer.WATCH, Answer.SERVICEABLE),
        ("10.5 mm", Answer.WATCH, Answer.SERVICEABLE),
        ("10.4 mm", Answer.WATCH, Answer.HOLD),
    ],
)
def test_a_climbing_line_is_half_an_inch_and_a_thinner_one_only_for_those_trained_for_it(size, advised, least):
    look = examined(climbing(diameter=size), REGIME)
    assert said(look, "tree-line-size").answer is advised
    assert said(look, "tree-line-size-least").answer is least
    assert "trained" in said(look, "tree-line-size").action or advised is Answer.SERVICEABLE


def test_the_size_is_asked_of_climbing_lines_only():
    rules = rules_of(judged(examined(climbing("lanyard", diameter="10 mm"), REGIME)))
    rigging = rules_of(judged(examined(climbing(duty="tree rigging", diameter="10 mm"), REGIME)))
    assert not {"tree-line-size", "tree-line-size-least"} & (rules | rigging)


@pytest.mark.criterion("due-date")
@pytest.mark.parametrize("left", [("", "tag"), ("", "shock"), ("body", "body_surface")], ids=lambda key: key[1])
def test_before_each_use_the_rope_is_looked_at(left):
    look = examined(climbing(), REGIME, kind="before use", without=(left,))
    assert [r.answer for r in judged(look).rulings if r.rule == "tree-before-use"] == [Answer.HOLD]
