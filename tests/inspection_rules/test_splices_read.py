"""What is counted and measured on each kind of splice. Common practice, no source, unless a test names one."""

import pytest

from inspection_rules.words import Answer, Door

from .building import case, judged, ruling
from .splices import MADE, answer, looked, past, read, spliced

SERVICEABLE, WATCH, HOLD, REMOVE = Answer


def study(look, part, observation):
    """Let only the number decide: a measurement study so good that its doubt is none."""
    for entry in look["readings"]:
        if (entry["part"], entry["observation"]) == (part, observation):
            entry |= {"u": "0.001 mm", "u_study": "test of the bare number"}
    return look


def told(splice, rule, on, observation, value, **changed):
    """The ruling of this rule on a periodic reading of this value on the part `on`."""
    item = spliced(splice, **changed)
    look = looked(item, readings={(on, observation): [value]})
    return ruling(answer(item, study(look, on, observation)), rule, on)


# --- two tails, two lengths ------------------------------------------------------------------------------


@pytest.mark.criterion("bury-length")
@pytest.mark.parametrize("splice", ["tuck-and-bury eye", "locked eye", "end-to-end splice"])
@pytest.mark.parametrize(
    ("value", "expected"), [("1727 mm", REMOVE), ("1728 mm", SERVICEABLE), ("1729 mm", SERVICEABLE)]
)
def test_a_bury_is_judged_as_made_against_its_own_instruction(splice, value, expected):
    item = spliced(splice)
    part = item["parts"][0]["id"]
    judgement = answer(item, looked(item), readings={(part, "bury"): [value]})

    assert ruling(judgement, "remaining-bury", part).answer is expected


@pytest.mark.criterion("bury-length")
@pytest.mark.parametrize(("core", "expected"), [("575 mm", REMOVE), ("576 mm", SERVICEABLE), ("577 mm", SERVICEABLE)])
def test_the_core_of_a_double_braid_has_its_own_length(core, expected):
    item = spliced("double-braid eye")
    judgement = answer(item, looked(item), readings={("A", "core_bury"): [core]})

    assert ruling(judgement, "remaining-core-bury").answer is expected


@pytest.mark.criterion("bury-length")
def test_confirmed_slip_comes_off_both_tails_of_a_double_braid():
    item = spliced("double-braid eye")
    made = {("A", "bury"): ["560 mm"], ("A", "core_bury"): ["580 mm"]}
    look = looked(item, readings={("A", "mark_offset"): ["15 mm", "15 mm"]})

    judgement = answer(item, look, readings=made)

    assert [ruling(judgement, rule).value for rule in ("remaining-bury", "remaining-core-bury")] == [545, 565]
    assert ruling(judgement, "remaining-bury").answer is SERVICEABLE
    assert ruling(judgement, "remaining-core-bury").answer is REMOVE


@pytest.mark.criterion("bury-length")
def test_a_core_length_that_no_instruction_gives_is_referred_and_gets_no_rule_of_thumb():
    item = spliced("double-braid eye")
    del item["parts"][0]["required_core_bury"]

    core = ruling(answer(item, looked(item)), "remaining-core-bury")

    assert (core.answer, core.door, core.limit) == (HOLD, Door.REFER, None)


@pytest.mark.criterion("bury-length")
def test_the_shorter_tail_of_an_end_to_end_splice_counts():
    item = spliced("end-to-end splice")
    judgement = answer(item, looked(item), readings={("J", "other_bury"): ["1700 mm"]})

    assert ruling(judgement, "remaining-bury", "J").value == 1700


@pytest.mark.criterion("bury-length")
def test_an_end_to_end_splice_with_one_tail_on_record_is_referred():
    item = spliced("end-to-end splice")
    judgement = answer(item, looked(item), without=(("J", "other_bury"),))

    assert ruling(judgement, "remaining-bury", "J").door is Door.REFER


@pytest.mark.criterion("slip")
@pytest.mark.parametrize("splice", ["buried eye", "tuck-and-bury eye", "double-braid eye"])
def test_marks_that_moved_hold_every_splice_that_has_them(splice):
    moved, still = read(splice, "mark_offset", ["12 mm", "12 mm"]), read(splice, "mark_offset", ["1 mm", "1 mm"])

    assert ruling(moved, "slip").answer is HOLD
    assert ruling(still, "slip").answer is SERVICEABLE


# --- tucks and strand tails ------------------------------------------------------------------------------


@pytest.mark.criterion("tuck-count")
@pytest.mark.parametrize(("fewest", "expected"), [("3", HOLD), ("4", SERVICEABLE), ("5", SERVICEABLE)])
def test_a_short_splice_of_a_synthetic_grommet_has_four_tucks_each_side(fewest, expected):
    for side in ("tucks_one_side", "tucks_other_side"):
        assert told("tucked short splice", "tucks-slings", "J", side, fewest).answer is expected


@pytest.mark.criterion("tuck-count")
def test_a_short_splice_counted_on_one_side_only_is_held():
    item = spliced("tucked short splice")
    look = looked(item, without=(("J", "tucks_other_side"),))
    made = looked(item, "as made", "2026-01-05", without=(("J", "tucks_other_side"),))

    half = ruling(judged(case(item, look, [made], regimes=[])), "tucks-slings", "J")

    assert (half.answer, half.door) == (HOLD, Door.LOOK_AGAIN)


@pytest.mark.criterion("tuck-count")
@pytest.mark.parametrize(("count", "expected"), [("2", HOLD), ("3", SERVICEABLE), ("4", SERVICEABLE)])
def test_a_manila_sling_has_three_tucks(count, expected):
    assert told("tucked eye", "tucks-least", "A", "tucks", count, kind="rope sling", fibre="manila").answer is expected


@pytest.mark.criterion("tuck-count")
@pytest.mark.parametrize("kind", ["line", "lanyard", "mooring tail", "hitch cord"])
def test_fewer_than_four_tucks_are_watched_where_nothing_is_lifted(kind):
    assert told("tucked eye", "tucks-advised", "A", "tucks", "3", kind=kind).answer is WATCH
    assert told("tucked eye", "tucks-advised", "A", "tucks", "4", kind=kind).answer is SERVICEABLE


@pytest.mark.criterion("tail-projection")
@pytest.mark.parametrize("construction", ["laid, three-strand", "laid, four-strand", "plaited, eight-strand"])
@pytest.mark.parametrize(("value", "expected"), [("95.9 mm", HOLD), ("96 mm", HOLD), ("96.3 mm", SERVICEABLE)])
def test_a_short_splices_tails_stand_out_six_diameters(construction, value, expected):
    """16 mm: 96 mm. At the limit itself a reading with any doubt at all cannot show that it conforms."""
    assert told("tucked short splice", "tail-slings", "J", "tail", value, construction=construction).answer is expected


@pytest.mark.criterion("buried-tail")
@pytest.mark.parametrize(("count", "expected"), [("1", HOLD), ("2", SERVICEABLE), ("3", SERVICEABLE)])
def test_tapered_tails_of_a_sling_have_two_more_tucks(count, expected):
    part = {"tails_buried": True}
    assert told("tucked eye", "extra-tucks-slings", "A", "extra_tucks", count, kind="rope sling", part=part).answer is (
        expected
    )


@pytest.mark.criterion("buried-tail")
def test_tapered_tails_of_a_line_are_advised_to_have_two_more_tucks():
    part = {"tails_buried": True}
    assert told("tucked eye", "extra-tucks-advised", "A", "extra_tucks", "1", part=part).answer is WATCH
    assert told("tucked eye", "extra-tucks-advised", "A", "extra_tucks", "2", part=part).answer is SERVICEABLE


@pytest.mark.criterion("buried-tail")
def test_tapered_tails_are_asked_for_no_length():
    item = spliced("tucked eye", part={"tails_buried": True})
    look = looked(item)

    assert "tail" not in {reading["observation"] for reading in look["readings"]}
    assert not {"tail-advised", "tail-slings"} & {one.rule for one in answer(item, look).rulings}


# --- clear rope between the splices ----------------------------------------------------------------------


@pytest.mark.criterion("clear-length")
@pytest.mark.parametrize(("value", "expected"), [("159.9 mm", HOLD), ("160 mm", HOLD), ("160.3 mm", SERVICEABLE)])
def test_a_sling_has_ten_diameters_of_clear_rope_between_its_eyes(value, expected):
    """16 mm: 160 mm. At the limit itself a reading with any doubt at all cannot show that it conforms."""
    item = spliced("tucked eye", kind="rope sling")
    look = looked(item, "as found", readings={("body", "clear_length"): [value]})

    judgement = answer(item, study(look, "body", "clear_length"))

    assert ruling(judgement, "clear-length-slings", "body").answer is expected


@pytest.mark.criterion("clear-length")
def test_clear_rope_that_is_hard_to_judge_is_held():
    item = spliced("tucked eye", kind="rope sling")
    unsure = looked(item, seen={("body", "clear_rope"): "hard_to_say"})
    made = {"without": (("body", "clear_length"),)}
    assert ruling(answer(item, unsure, **made), "clear-rope-unsure", "body").answer is HOLD


@pytest.mark.criterion("clear-length")
@pytest.mark.parametrize(("value", "expected"), [("900 mm", SERVICEABLE), ("120 mm", REMOVE)])
def test_under_the_law_the_tape_decides_on_clear_rope_that_is_hard_to_judge(value, expected):
    """16 mm: the law asks for 160 mm."""
    item, law = spliced("tucked eye", kind="rope sling"), ("US lifting",)
    unsure = looked(item, seen={("body", "clear_rope"): "hard_to_say"}, regimes=law)
    unsure["readings"].append({"observation": "clear_length", "part": "body", "values": [value], "method": "tape"})

    judgement = judged(case(item, unsure, [looked(item, "as made", MADE, regimes=law)]))

    assert ruling(judgement, "clear-rope-unsure", "body").answer is WATCH
    assert ruling(judgement, "clear-length", "body").answer is expected


@pytest.mark.criterion("clear-length")
def test_less_than_ten_diameters_seen_holds_a_sling():
    item = spliced("tucked eye", kind="rope sling")
    look = looked(item, seen={("body", "clear_rope"): "less"})

    assert ruling(answer(item, look), "clear-rope-less", "body").answer is HOLD


# --- adjustable eye --------------------------------------------------------------------------------------


@pytest.mark.criterion("bury-length")
@pytest.mark.parametrize(
    ("size", "value", "expected"),
    [
        ("24 mm", "143.9 mm", HOLD), ("24 mm", "144 mm", HOLD), ("24 mm", "144.3 mm", SERVICEABLE),
        ("10 mm", "99.9 mm", HOLD), ("10 mm", "100.3 mm", SERVICEABLE),
    ],
)  # fmt: skip
def test_an_adjustable_eye_keeps_tail_beyond_its_bury(size, value, expected):
    """Six diameters and 100 mm at least: common practice, no source."""
    found = told("adjustable eye", "adjustable-free-tail", "A", "free_tail", value, diameter=size)

    assert found.answer is expected


def test_an_adjustable_eye_slides_by_design_and_is_asked_for_no_marks():
    item = spliced("adjustable eye")

    names = {
        entry["observation"] for one in (looked(item), *past(item)) for entry in (*one["readings"], *one["findings"])
    }

    assert not {"throat_marks", "mark_offset", "bury_feel"} & names
