"""The other routes to slip: the eye that grows and the felt tip, by themselves and beside the marks.

Numbers are of 24 mm rope: a perimeter read twice is good to 4.5 mm each time, two of them differ by 12.8 mm (2 u); a
flat length by twice that in slip; a felt tip read twice by 83 mm. Signs: design of the splice; u: common practice.
"""

from typing import Any

import pytest

from inspection_rules.words import Answer, Door

from .building import baselines, buried_sling, case, inspection, judged

TODAY = "2026-07-01"
PERIMETER, LENGTH, TIP = "eye_perimeter", "eye_length", "tip_step"
THEN = {PERIMETER: "800 mm", LENGTH: "400 mm", TIP: "1776 mm"}


def reading(name: str, value: str, **changed: Any) -> dict[str, Any]:
    method = "felt by hand" if name == TIP else "tape"
    how = {"method": method, "tension": "hand-taut", "moisture": "dry"}
    return {"observation": name, "part": "A", "values": [value] * 2, **how, **changed}


def said(name: str, now: str, marks: str = "0 mm", kind: str = "periodic", item: Any = None, **changed: Any) -> Any:
    """What the route's rule says of eye A, read now and at the bedded-in record; None where it says nothing."""
    item = item or buried_sling()
    past = baselines(item)
    past[-1]["readings"].append(reading(name, THEN[name]))
    look = inspection(item, kind, TODAY, readings={("A", "mark_offset"): [marks] * 4})
    look["readings"].append(reading(name, now, **changed))
    rule = "slip-by-tip" if name == TIP else "slip-by-eye"
    return next((r for r in judged(case(item, look, past=past)).rulings if (r.rule, r.part) == (rule, "A")), None)


@pytest.mark.criterion("slip")
@pytest.mark.parametrize(
    ("name", "inside", "beyond"),
    [
        (PERIMETER, "812 mm", "813 mm"),  # grows by s
        (LENGTH, "412 mm", "413 mm"),  # grows by s / 2
        (TIP, "1694 mm", "1692 mm"),  # comes toward the throat by s
    ],
)
def test_a_route_that_by_itself_shows_slip_is_referred(name, inside, beyond):
    near, far = said(name, inside, marks="2 mm"), said(name, beyond, marks="2 mm")

    assert near.answer is Answer.SERVICEABLE
    assert (far.answer, far.door) == (Answer.HOLD, Door.REFER)
    assert "out" in far.sentence
    assert "No slip limit is published" in far.sentence


@pytest.mark.parametrize(
    ("name", "now", "slip"), [(PERIMETER, "820 mm", 20), (LENGTH, "410 mm", 20), (TIP, "1756 mm", 20)]
)
def test_each_route_reckons_slip_with_its_own_sign(name, now, slip):
    assert said(name, now).value == slip


@pytest.mark.parametrize(
    ("now", "begins"), [("800 mm", "0 mm by "), ("803 mm", "3 mm out by "), ("797 mm", "3 mm in by ")]
)
def test_a_slip_is_said_as_out_or_in_and_none_as_nothing(now, begins):
    assert said(PERIMETER, now).sentence.startswith(begins)


def test_marks_that_moved_where_the_eye_did_not_grow_are_doubted_too():
    told = said(PERIMETER, "800 mm", marks="20 mm")

    assert (told.answer, told.door) == (Answer.HOLD, Door.LOOK_AGAIN)
    assert "The marks show 20 mm out" in told.sentence


def test_a_route_that_agrees_never_clears_what_the_marks_show():
    item = buried_sling()
    past = baselines(item)
    past[-1]["readings"].append(reading(PERIMETER, "800 mm"))
    look = inspection(item, "periodic", TODAY, readings={("A", "mark_offset"): ["7 mm"] * 4})
    look["readings"].append(reading(PERIMETER, "800 mm"))

    judgement = judged(case(item, look, past=past))

    assert (judgement.answer, judgement.door) == (Answer.HOLD, Door.REFER)


def test_an_eye_that_shrank_beyond_doubt_is_read_again():
    told = said(PERIMETER, "780 mm")

    assert (told.answer, told.door) == (Answer.HOLD, Door.LOOK_AGAIN)


@pytest.mark.parametrize("changed", [{"moisture": "wet"}, {"tension": "slack"}])
def test_another_state_is_not_comparable_and_no_disagreement(changed):
    assert said(PERIMETER, "900 mm", **changed) is None


def part_a(**changed: Any) -> dict[str, Any]:
    item = buried_sling()
    item["parts"][0] |= changed
    return item


@pytest.mark.parametrize(
    "item", [buried_sling(fibre="nylon"), part_a(chafe_gear=True), part_a(thimble="captive")],
    ids=["nylon", "under chafe gear", "round a captive thimble"],
)  # fmt: skip
def test_the_eye_tells_nothing_where_it_grows_otherwise_or_cannot_grow(item):
    assert said(LENGTH, "500 mm", item=item) is None


def test_an_eye_that_is_not_bedded_in_grows_without_saying_anything():
    item = buried_sling()
    made = baselines(item)[0]
    made["readings"].append(reading(LENGTH, "400 mm"))
    look = inspection(item, "periodic", "2026-01-15")
    look["readings"].append(reading(LENGTH, "440 mm"))

    judgement = judged(case(item, look, past=[made]))

    assert "slip-by-eye" not in {r.rule for r in judgement.rulings}


def test_readings_of_the_tip_too_far_apart_are_read_again():
    told = said(TIP, "1776 mm", values=["1776 mm", "1600 mm"])

    assert (told.answer, told.door) == (Answer.HOLD, Door.LOOK_AGAIN)


@pytest.mark.parametrize(("now", "door"), [("1776 mm", None), ("1650 mm", Door.REFER)])
def test_the_tip_is_the_route_of_a_locked_eye_whose_marks_hardly_move(now, door):
    item = buried_sling()
    for eye in (item["parts"][0], item["parts"][2]):
        eye["splice"] = "locked eye"
    bedded = inspection(item, "bedded in", "2026-01-19")
    bedded["readings"].append(reading(TIP, THEN[TIP]))
    look = inspection(item, "periodic", TODAY)
    look["readings"].append(reading(TIP, now))

    judgement = judged(case(item, look, past=[inspection(item, "as made", "2026-01-05"), bedded]))
    told = next(r for r in judgement.rulings if (r.rule, r.part) == ("slip-by-tip", "A"))

    assert told.door is door
