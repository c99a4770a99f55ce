"""Design factors, and that a breaking force tested without its splices is never taken for the spliced one."""

import pytest

from ..uses import climbing_line, outcome, rope_sling, roundsling, rulings

LOAD = {"load": "10 kN", "hitch": "straight"}


def test_the_factor_is_the_breaking_force_over_what_a_leg_carries():
    item = rope_sling(breaking_force="120 kN", breaking_spliced=True)
    use = {"load": "24 kN", "hitch": "straight", "legs": 2, "leg_angle": "90° from horizontal"}
    assert rulings(item, use, "Canada Alberta")["alberta-load-limit"].value == 10


@pytest.mark.parametrize(("spliced", "says"), [(False, "without its eyes"), (None, "not said to be of spliced rope")])
@pytest.mark.parametrize(
    ("regime", "rule"), [("Canada Alberta", "alberta-load-limit"), ("US lifting", "us-design-factor")]
)
def test_a_force_tested_unspliced_is_not_comparable_however_large(spliced, says, regime, rule):
    item = rope_sling(breaking_force="1000 kN", breaking_spliced=spliced)

    told = rulings(item, LOAD, regime)[rule]

    assert outcome(told) == "not for it"
    assert says in told.sentence
    assert "not comparable" in told.sentence


def test_what_has_no_splice_needs_no_word_of_it():
    item = roundsling(breaking_force="100 kN")
    assert outcome(rulings(item, LOAD, "Canada Alberta")["alberta-load-limit"]) == "for it"


def test_without_a_breaking_force_on_record_the_part_of_it_is_not_known():
    told = rulings(rope_sling(), LOAD, "Canada Alberta")["alberta-load-limit"]
    assert outcome(told) == "not for it"
    assert "not on record" in told.sentence


def test_without_a_breaking_force_on_record_the_tag_is_taken_on_its_makers_word():
    assert "us-design-factor" not in rulings(rope_sling(), LOAD, "US lifting")


def test_a_person_without_a_load_is_asked_about():
    item = rope_sling(breaking_force="1000 kN", breaking_spliced=True)
    told = rulings(item, {"persons": True}, "Canada Alberta")["alberta-load-limit-persons"]
    assert outcome(told) == "too near"
    assert "load" in told.sentence


def test_the_doubt_about_a_lift_counts_against_the_factor():
    """5 × 20 kN is just what is asked; at 19.9 kN the default doubt of the load leaves it open."""
    item = roundsling(breaking_force="100 kN")
    told = [rulings(item, {"load": kn, "hitch": "straight"}, "Canada Alberta")["alberta-load-limit"] for kn in
            ("20.1 kN", "20 kN", "19.9 kN", "19 kN")]  # fmt: skip
    assert [outcome(one) for one in told] == ["not for it", "too near", "too near", "for it"]


@pytest.mark.criterion("persons")
def test_gear_for_life_support_holds_a_person_from_22_kn_on():
    """Common practice, no source."""
    told = [
        rulings(climbing_line(breaking_force=kn, breaking_spliced=True), {"persons": True})["person-on-life-support"]
        for kn in ("21.9 kN", "22 kN", "22.1 kN")
    ]
    assert [outcome(one) for one in told] == ["not for it", "for it", "for it"]


@pytest.mark.parametrize(
    ("use", "rule"),
    [(LOAD, "us-design-factor"), (LOAD, "leg-tension"), ({"persons": True}, "person-on-life-support")],
)
def test_a_working_load_limit_above_the_breaking_force_is_for_no_use(use, rule):
    make = climbing_line if "persons" in use else rope_sling
    item = make(breaking_force="90 kN", breaking_spliced=True, working_load_limit="100 kN")

    told = rulings(item, use, "US lifting")[rule]

    assert outcome(told) == "not for it"
    assert told.sentence.startswith(
        "The tag cannot be right: it says 100 kN, above the breaking force on record, 90 kN"
    )


def test_a_climbing_line_whose_strength_with_its_eye_is_not_known_is_not_for_a_person():
    told = rulings(climbing_line(breaking_force="30 kN"), {"persons": True})["person-on-life-support"]
    assert outcome(told) == "not for it"
