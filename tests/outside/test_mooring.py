"""Mooring lines and tails: IMO MSC.1/Circ.1620, mooring guidelines, club guidance.

Read: clauses 3.3, 4.3.1, 6.1, 6.2 of the circular; tails every 18 months unless inspection shows otherwise, as owners
discussed it. Secondary: 75 % of the ship design force, monthly over the full length, no short splice.
"""

from typing import Any

import pytest

from inspection_rules.case import Case
from inspection_rules.words import Answer, Door

from ..inspection_rules.building import EXAMINER, inspection, judged
from ..inspection_rules.fittings import examined, later, mooring, rules_of, said


def broken_at(*forces: str, **changed: Any) -> Case:
    """A line of which pieces broke at these forces in a test."""
    raw = examined(mooring(**changed), "Mooring").model_dump(mode="json", exclude_unset=True)
    raw["inspection"]["readings"].append({"observation": "break_test", "values": forces, "method": "break test"})
    return Case.model_validate(raw)


@pytest.mark.criterion("residual-strength")
@pytest.mark.parametrize(
    ("force", "answer"),
    [
        ("44.9 tf", Answer.REMOVE),
        ("45 tf", Answer.REMOVE),         # worked example: a ship design force of 60 t retires at 45 t
        ("45.1 tf", Answer.HOLD),         # beyond it by less than the machine is good to
        ("46 tf", Answer.SERVICEABLE),
        ("47.25 tf", Answer.SERVICEABLE), # 75 % of a 63 t line design force, which is not the base
    ],
)  # fmt: skip
def test_a_line_that_broke_at_75_percent_of_the_ship_design_force_or_less_is_removed(force, answer):
    assert said(broken_at(force, breaking_force="63 tf"), "mooring-residual-strength").answer is answer


@pytest.mark.criterion("residual-strength")
def test_the_weakest_piece_counts():
    assert said(broken_at("52 tf", "44 tf", "51 tf"), "mooring-residual-strength").answer is Answer.REMOVE


@pytest.mark.criterion("residual-strength")
def test_without_the_ship_design_force_no_other_base_is_taken():
    told = said(broken_at("58 tf", ship_design_force=None), "mooring-residual-strength")
    assert (told.answer, told.door) == (Answer.HOLD, Door.REFER)


def test_a_line_of_which_no_piece_was_broken_has_no_residual_strength():
    assert "mooring-residual-strength" not in rules_of(judged(examined(mooring(), "Mooring")))


# --- papers ---


@pytest.mark.criterion("maker-criteria")
@pytest.mark.parametrize(("kept", "answer"), [("", Answer.HOLD), ("line criteria", Answer.SERVICEABLE)])
@pytest.mark.parametrize("kind", ["line", "mooring tail"])
def test_the_makers_criteria_are_kept(kind, kept, answer):
    told = said(examined(mooring(kind, maker_criteria=kept), "Mooring"), "mooring-maker-criteria")
    assert told.answer is answer


@pytest.mark.criterion("certificate")
@pytest.mark.parametrize(("stated", "answer"), [(None, Answer.HOLD), ("62 tf", Answer.SERVICEABLE)])
def test_a_line_can_be_tied_to_its_certificate(stated, answer):
    told = said(examined(mooring(breaking_force=stated), "Mooring"), "mooring-certificate")
    assert told.answer is answer


def test_papers_are_asked_for_at_the_examination_and_not_before_every_use():
    look = examined(mooring(maker_criteria="", breaking_force=None), "Mooring", kind="before use")
    assert not {"mooring-maker-criteria", "mooring-certificate"} & rules_of(judged(look))


@pytest.mark.criterion("tag-illegible")
@pytest.mark.parametrize("seen", ["unreadable", "other_item"])
def test_a_line_that_cannot_be_told_from_others_is_removed(seen):
    look = examined(mooring(), "Mooring", kind="before use", seen={("", "tag"): seen})
    assert said(look, "mooring-unidentified").answer is Answer.REMOVE
    assert said(examined(mooring(), "Mooring"), "mooring-unidentified").answer is Answer.SERVICEABLE


# --- time ---


@pytest.mark.criterion("due-date")
@pytest.mark.parametrize(
    ("last", "on", "answer"),
    [
        ("2026-02-01", "2026-03-01", Answer.SERVICEABLE),
        ("2026-02-01", "2026-03-02", Answer.HOLD),
        ("2026-01-31", "2026-02-28", Answer.SERVICEABLE),
        ("2026-01-31", "2026-03-01", Answer.HOLD),
    ],
)
def test_a_line_is_inspected_over_its_full_length_every_month(last, on, answer):
    assert later(mooring(), "mooring-monthly", last, on, "Mooring").answer is answer


def accepted(until: str, rule: str = "mooring-tail-age") -> dict[str, Any]:
    return {
        "id": "acceptance", "item": "mooring", "at": "2027-07-08T08:00:00Z", "by": EXAMINER,
        "examined": [{"inspection": "before use 2027-07-07", "rule": rule}], "extent": "18 months, no wear",
        "reason": "little used, kept below deck", "until": until,
    }  # fmt: skip


def tail_on(day: str, *acceptances: dict[str, Any], **changed: Any):
    tail = mooring("mooring tail", first_used="2026-01-06", **changed)
    held = [inspection(tail, "before use", "2027-07-07", regimes=("Mooring",))] if acceptances else []
    look = examined(tail, "Mooring", kind="before use", on=day, case_accepted=list(acceptances), case_earlier=held)
    return said(look, "mooring-tail-age")


@pytest.mark.criterion("age")
@pytest.mark.parametrize(
    ("day", "answer"),
    [("2027-07-05", Answer.SERVICEABLE), ("2027-07-06", Answer.SERVICEABLE), ("2027-07-07", Answer.HOLD)],
)
def test_a_mooring_tail_is_replaced_at_18_months_from_its_first_use(day, answer):
    assert tail_on(day).answer is answer


@pytest.mark.criterion("age")
@pytest.mark.parametrize(
    ("day", "answer"), [("2027-12-31", Answer.WATCH), ("2028-01-01", Answer.HOLD)], ids=["last day", "day after"]
)
def test_unless_an_inspection_shows_otherwise_and_says_until_when(day, answer):
    assert tail_on(day, accepted("2027-12-31")).answer is answer


@pytest.mark.criterion("age")
def test_a_tail_whose_first_use_nobody_knows_is_held():
    tail = mooring("mooring tail", first_used=None)
    assert said(examined(tail, "Mooring", kind="before use"), "mooring-tail-age").answer is Answer.HOLD


def test_the_age_of_tails_says_nothing_of_lines():
    assert "mooring-tail-age" not in rules_of(judged(examined(mooring(), "Mooring")))


# --- the line itself ---


@pytest.mark.criterion("short-splice")
@pytest.mark.parametrize(
    ("splice", "answer"), [("tucked short splice", Answer.HOLD), ("end-to-end splice", Answer.SERVICEABLE)]
)
def test_a_mooring_line_has_no_short_splice_in_its_length(splice, answer):
    line = mooring()
    line["parts"].append({"id": "J", "kind": "joint", "splice": splice, "from_a": "30 m"})
    assert said(examined(line, "Mooring", case_past=[]), "mooring-short-splice").answer is answer


@pytest.mark.criterion("splice-drawing")
def test_a_splice_that_draws_is_taken_out_of_service():
    look = examined(mooring(), "Mooring", kind="before use", seen={("A", "strand_tails"): "shorter"})
    assert said(look, "mooring-drawing", "A").answer is Answer.REMOVE
    assert said(look, "mooring-drawing", "B").answer is Answer.SERVICEABLE


@pytest.mark.criterion("mooring-examination")
@pytest.mark.parametrize(
    "left",
    [("body", "drum_layers"), ("body", "contamination"), ("", "tail_joint"), ("", "bore_on")],
    ids=lambda k: k[1],
)
def test_the_examination_answers_for_drum_layers_contamination_the_tail_and_what_it_bore_on(left):
    without = judged(examined(mooring(), "Mooring", without=(left,)))
    assert left in {(one.part, one.observation) for one in without.missing}
    assert judged(examined(mooring(), "Mooring")).missing == ()
