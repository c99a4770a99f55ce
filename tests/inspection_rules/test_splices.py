"""What is seen on each kind of splice, and what follows. Common practice, no source, unless a test names one."""

import pytest

from inspection_rules.book import questions_before_use, shipped
from inspection_rules.item import Item
from inspection_rules.words import Answer, Door, Mend

from .building import case, judged, ruling
from .splices import HOLLOW, MADE_IN, answer, looked, past, seen, spliced, where

SERVICEABLE, WATCH, HOLD, REMOVE = Answer
LOOKS = ("before use", "periodic", "after an incident", "as found")

SEEN = [
    pytest.param(*told, marks=pytest.mark.criterion(criterion) if criterion else (), id=f"{told[0]}-{told[2]}")
    for *told, criterion in (
        ("buried eye", "throat_marks", "not_level", HOLD, "slip"),
        ("tuck-and-bury eye", "throat_marks", "not_level", HOLD, "slip"),
        ("tuck-and-bury eye", "throat_entry", "strands_broken", REMOVE, "cut-fibres"),
        ("tuck-and-bury eye", "bury_feel", "tail_showing", REMOVE, "splice-drawing"),
        ("tuck-and-bury eye", "lock_stitching", "leaning", HOLD, "lock-stitch"),
        ("locked eye", "lock_seated", "shifted", HOLD, "splice-drawing"),
        ("locked eye", "lock_seated", "strands_broken", REMOVE, "cut-fibres"),
        ("locked eye", "tip_mark", "no_mark", HOLD, "slip"),
        ("locked eye", "tip_mark", "nearer", HOLD, "slip"),
        ("locked eye", "bury_feel", "hollow", HOLD, ""),
        ("double-braid eye", "throat_marks", "crossover", REMOVE, "splice-drawing"),
        ("double-braid eye", "throat_marks", "slack_cover", HOLD, "splice-drawing"),
        ("double-braid eye", "throat_marks", "not_level", HOLD, "slip"),
        ("double-braid eye", "lock_stitching", "broken", HOLD, "lock-stitch"),
        ("end-to-end splice", "crossing", "not_level", HOLD, "slip"),
        ("end-to-end splice", "crossing", "no_marks", HOLD, "slip"),
        ("end-to-end splice", "crossing", "open", HOLD, "splice-drawing"),
        ("end-to-end splice", "crossing", "strands_broken", REMOVE, "cut-fibres"),
        ("end-to-end splice", "bury_feel", "bunched", HOLD, ""),
        ("end-to-end splice", "lock_stitching", "broken", HOLD, "lock-stitch"),
        ("tucked short splice", "splice_middle", "opened", HOLD, "splice-drawing"),
        ("tucked short splice", "splice_middle", "hockled", HOLD, "distortion"),
        ("tucked short splice", "strand_tails", "shorter", HOLD, "splice-drawing"),
        ("tucked short splice", "strand_tails", "drawn", REMOVE, "splice-drawing"),
        ("adjustable eye", "sliding_part", "glazed", HOLD, "heat-damage"),
        ("adjustable eye", "sliding_part", "hollow", HOLD, ""),
        ("adjustable eye", "sliding_part", "cut", REMOVE, "cut-fibres"),
        ("adjustable eye", "tail_left", "crept", HOLD, "slip"),
        ("adjustable eye", "tail_left", "short", HOLD, "bury-length"),
        ("adjustable eye", "tail_left", "inside", REMOVE, "bury-length"),
        ("plain end", "end_sound", "frayed", WATCH, ""),
        ("plain end", "end_sound", "knot_worn", HOLD, "heat-damage"),
        ("plain end", "end_sound", "sheath_slipped", HOLD, "distortion"),
        ("plain end", "end_sound", "cut", REMOVE, "cut-fibres"),
    )
]


@pytest.mark.parametrize("kind", LOOKS)
@pytest.mark.parametrize("splice", MADE_IN)
def test_a_sound_and_fully_examined_splice_is_serviceable(splice, kind):
    item = spliced(splice)

    assert answer(item, looked(item, kind)).answer is SERVICEABLE


@pytest.mark.parametrize("splice", MADE_IN)
def test_a_splice_that_nobody_looked_at_is_held_whatever_else_was_seen(splice):
    item = spliced(splice)
    look = looked(item, "before use")
    look["findings"] = [finding for finding in look["findings"] if finding["part"] != where(item)]

    judgement = answer(item, look)

    assert (judgement.answer, judgement.door) == (HOLD, Door.LOOK_AGAIN)


@pytest.mark.parametrize(("splice", "question", "condition", "expected"), SEEN)
def test_what_is_seen_on_a_splice_gives_its_answer(splice, question, condition, expected):
    assert seen(splice, question, condition).answer is expected


@pytest.mark.parametrize(
    ("splice", "construction"),
    [
        ("buried eye", "laid, three-strand"), ("buried eye", "kernmantle"), ("tuck-and-bury eye", "double braid"),
        ("locked eye", "plaited, eight-strand"), ("tucked eye", HOLLOW), ("double-braid eye", "kernmantle"),
        ("end-to-end splice", "laid, four-strand"), ("tucked short splice", "double braid"),
        ("adjustable eye", "kernmantle"),
    ],
)  # fmt: skip
def test_a_splice_in_a_rope_it_cannot_be_made_in_is_not_covered(splice, construction):
    item = spliced(splice, construction=construction)

    told = ruling(judged(case(item, looked(item, "before use"), past(item))), "not-covered", where(item))

    assert (told.answer, told.door) == (HOLD, Door.REFER)


@pytest.mark.parametrize("thimble", ["none", "removable", "captive"])
@pytest.mark.parametrize("gear", [False, True])
@pytest.mark.parametrize("splice", [splice for splice in MADE_IN if "end" not in splice])
def test_no_more_than_four_questions_of_a_splice_before_use(splice, gear, thimble):
    item = Item.model_validate(spliced(splice, part={"thimble": thimble, "chafe_gear": gear}))

    asked = [name for part, name in questions_before_use(item, shipped(), ()) if part == where(spliced(splice))]

    assert 1 <= len(asked) <= 4


# --- the eye in its chafe gear ---------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("question", "condition", "expected"),
    [
        ("eye_under_gear", "chafed", HOLD), ("eye_under_gear", "cut", REMOVE), ("chafe_gear", "moved", WATCH),
        ("chafe_gear", "worn_through", HOLD), ("chafe_gear", "felt_below", HOLD),
    ],
)  # fmt: skip
def test_what_is_seen_of_an_eye_in_chafe_gear_gives_its_answer(question, condition, expected):
    assert seen("buried eye", question, condition, part={"chafe_gear": True}).answer is expected


def test_chafe_gear_that_cannot_slide_hides_the_eye_and_stands_in_for_it():
    item = spliced("buried eye", part={"chafe_gear": True})
    look = looked(item)
    next(f for f in look["findings"] if f["observation"] == "eye_under_gear")["seen"] = "hidden by design"

    assert answer(item, look).answer is SERVICEABLE


def test_an_eye_hidden_in_chafe_gear_that_nobody_looked_at_is_held():
    item = spliced("buried eye", part={"chafe_gear": True})
    look = looked(item, "before use")
    next(f for f in look["findings"] if f["observation"] == "eye_under_gear")["seen"] = "hidden by design"

    assert {one.observation for one in answer(item, look).missing} == {"eye_under_gear"}


# --- tips, tapered tails, knots --------------------------------------------------------------------------


@pytest.mark.parametrize("splice", ["locked eye", "end-to-end splice"])
def test_a_tapered_tip_that_is_not_felt_is_hidden_by_design_and_the_bury_stands_in(splice):
    item = spliced(splice)
    look = looked(item)
    for finding in look["findings"]:
        if finding["observation"] == "tip_mark":
            finding["seen"] = "hidden by design"

    assert answer(item, look).answer is SERVICEABLE


@pytest.mark.parametrize(
    ("condition", "expected"),
    [
        pytest.param("showing", HOLD, marks=pytest.mark.criterion("buried-tail")),
        pytest.param("drawn", REMOVE, marks=pytest.mark.criterion("splice-drawing")),
    ],
)
def test_tapered_strand_tails_are_looked_at_in_place_of_standing_ones(condition, expected):
    assert seen("tucked eye", "tails_covered", condition, part={"tails_buried": True}).answer is expected


@pytest.mark.criterion("knot")
def test_a_knot_in_place_of_a_splice_holds_a_rope_sling():
    item = spliced("plain end", kind="rope sling")
    look = looked(item, "before use", seen={("A", "end_sound"): "knot_for_splice"})

    assert ruling(answer(item, look), "end-knot-for-splice").answer is HOLD


def test_a_tied_termination_of_a_climbing_line_is_no_knot_in_a_sling():
    asked = shipped().observations["end_sound"].answers(Item.model_validate(spliced("plain end")), "A")

    assert "knot_for_splice" not in {condition.id for condition in asked}


def test_a_sheath_slips_only_where_there_is_one():
    asked = (
        shipped()
        .observations["end_sound"]
        .answers(Item.model_validate(spliced("plain end", construction="laid, three-strand", cover_load=None)), "A")
    )

    assert "sheath_slipped" not in {condition.id for condition in asked}


def test_a_splice_that_has_drawn_is_mended_by_a_new_one():
    judgement = seen("double-braid eye", "throat_marks", "crossover")

    assert ruling(judgement, "double-braid-crossover").mends is Mend.RE_SPLICE
