"""Webbing and sewn eyes by common practice: each question, and what every answer to it leads to."""

from typing import Any

import pytest

from inspection_rules.book import questions_before_use, shipped
from inspection_rules.item import Item
from inspection_rules.words import Answer, Door, Mend, Seen

from .building import judged, ruling
from .webs import look, sewn_eyes, sewn_line, web_sling, webbing_lanyard

HOLD, REMOVE = Answer.HOLD, Answer.REMOVE

# Common practice, no source: part, question, what was seen, the rule that speaks, its answer, the criterion.
SEEN_ON_SLINGS = [
    ("A", "sewn_eye", "worn", "sewn-eye-worn", HOLD, ""),
    ("A", "sewn_eye", "glazed", "sewn-eye-glazed", HOLD, "heat-damage"),
    ("A", "sewn_eye", "cut", "sewn-eye-cut", REMOVE, "web-cuts"),
    ("A", "sewn_eye", "melted", "sewn-eye-melted", REMOVE, "web-melted"),
    ("A", "stitching", "loosening", "stitching-hurt", REMOVE, "load-bearing-stitches"),
    ("B", "stitching", "worn", "stitching-hurt", REMOVE, "load-bearing-stitches"),
    ("B", "stitching", "broken", "stitching-hurt", REMOVE, "load-bearing-stitches"),
    ("body", "web_face_a", "soiled", "web-face-a-soiled", HOLD, ""),
    ("body", "web_face_a", "soft", "web-face-a-soft", HOLD, ""),
    ("body", "web_face_a", "worn", "web-face-a-worn", HOLD, "web-abrasion"),
    ("body", "web_face_a", "weft", "web-face-a-weft", HOLD, "web-weft-damage"),
    ("body", "web_face_a", "cut", "web-face-a-cut", HOLD, "web-warp-damage"),
    ("body", "web_face_a", "tell_tale", "web-face-a-tell-tale", REMOVE, ""),
    ("body", "web_face_b", "soiled", "web-face-b-soiled", HOLD, ""),
    ("body", "web_face_b", "soft", "web-face-b-soft", HOLD, ""),
    ("body", "web_face_b", "worn", "web-face-b-worn", HOLD, "web-abrasion"),
    ("body", "web_face_b", "weft", "web-face-b-weft", HOLD, "web-weft-damage"),
    ("body", "web_face_b", "cut", "web-face-b-cut", HOLD, "web-warp-damage"),
    ("body", "web_face_b", "tell_tale", "web-face-b-tell-tale", REMOVE, ""),
    ("body", "web_edges", "worn", "web-edge-worn", HOLD, "web-abrasion"),
    ("body", "web_edges", "split", "web-edge-split", HOLD, ""),
    ("body", "web_edges", "cut", "web-edge-cut", HOLD, "web-edge-cut-lifting"),
    ("body", "web_hurt", "stained", "web-stained", HOLD, "heat-damage"),
    ("body", "web_hurt", "brittle", "web-brittle", HOLD, "heat-damage"),
    ("body", "web_hurt", "glazed", "web-glazed", HOLD, "heat-damage"),
    ("body", "web_hurt", "knot", "web-knot", REMOVE, "knot"),
    ("body", "web_hurt", "flaking", "web-flaking", REMOVE, "chemical-burn"),
    ("body", "web_hurt", "melted", "web-melted", REMOVE, "web-melted"),
]
SEEN_ON_LANYARDS = [
    ("A", "stitching", "eye_worn", "stitching-eye-worn", HOLD, ""),
    ("A", "stitching", "eye_cut", "stitching-eye-cut", REMOVE, "web-melted"),
    ("A", "stitching", "broken", "stitching-hurt", REMOVE, "load-bearing-stitches"),
    ("body", "webbing", "worn", "webbing-worn", HOLD, "web-abrasion"),
    ("body", "webbing", "hard", "webbing-hard", HOLD, "heat-damage"),
    ("body", "webbing", "edge_cut", "webbing-edge-cut", HOLD, "web-edge-cut-fall-arrest"),
    ("body", "webbing", "knot", "webbing-knot", REMOVE, "knot"),
    ("body", "webbing", "hole", "webbing-hole", REMOVE, "web-cuts"),
    ("body", "webbing", "burnt", "webbing-burnt", REMOVE, "web-melted"),
]


def marked(rows: list[tuple[Any, ...]]) -> list[Any]:
    """The rows as test parameters, each marked with its criterion where it has one."""
    return [
        pytest.param(*row[:-1], id=f"{row[1]}-{row[2]}", marks=[pytest.mark.criterion(row[-1])] if row[-1] else [])
        for row in rows
    ]


@pytest.mark.parametrize(("part", "question", "condition", "rule", "answer"), marked(SEEN_ON_SLINGS))
def test_what_is_seen_on_a_web_sling_stops_it_and_its_absence_does_not(part, question, condition, rule, answer):
    seen = judged(look(web_sling(), "before use", seen={(part, question): condition}))

    assert seen.answer is answer
    assert ruling(seen, rule, part).answer is answer
    assert ruling(judged(look(web_sling(), "before use")), rule, part).answer is Answer.SERVICEABLE


@pytest.mark.parametrize(("part", "question", "condition", "rule", "answer"), marked(SEEN_ON_LANYARDS))
def test_what_is_seen_on_a_webbing_lanyard_stops_it_and_its_absence_does_not(part, question, condition, rule, answer):
    seen = judged(look(webbing_lanyard(), "before use", seen={(part, question): condition}))

    assert ruling(seen, rule, part).answer is answer
    assert ruling(judged(look(webbing_lanyard(), "before use")), rule, part).answer is Answer.SERVICEABLE


@pytest.mark.parametrize("kind", ["as made", "as found", "before use", "periodic", "after an incident"])
@pytest.mark.parametrize("item", [web_sling, sewn_line, webbing_lanyard])
def test_a_sound_sewn_eye_and_web_pass_and_are_covered(item, kind):
    # A lanyard without its fittings here: what hangs on it has tests of its own.
    stopped = [r for r in judged(look(item(), kind)).rulings if r.answer is not Answer.SERVICEABLE]

    assert [(r.rule, r.part) for r in stopped if r.part != ""] == []


def test_a_sound_web_sling_is_serviceable():
    assert judged(look(web_sling(), "before use")).answer is Answer.SERVICEABLE


REGIONS = [
    ("A", "sewn_eye"), ("A", "stitching"), ("body", "web_face_a"), ("body", "web_face_b"), ("body", "web_edges"),
    ("body", "web_hurt"), ("B", "sewn_eye"), ("B", "stitching"),
]  # fmt: skip


@pytest.mark.parametrize("region", REGIONS)
def test_a_region_of_a_web_sling_that_was_not_looked_at_is_held(region):
    judgement = judged(look(web_sling(), "before use", without=(region,)))

    assert (judgement.answer, judgement.door) == (HOLD, Door.LOOK_AGAIN)
    assert [(m.part, m.observation) for m in judgement.missing] == [region]


@pytest.mark.parametrize("region", [("A", "stitching"), ("B", "stitching"), ("body", "webbing")])
def test_a_region_of_a_webbing_lanyard_that_was_not_looked_at_is_held(region):
    missing = judged(look(webbing_lanyard(), "before use", without=(region,))).missing

    assert region in {(m.part, m.observation) for m in missing}


def test_an_examination_of_a_lanyard_looks_at_each_region_of_its_webbing():
    regions = [region for region in REGIONS if region[0] in ("body", "A")]
    for region in regions:
        missing = judged(look(webbing_lanyard(), "periodic", without=(region,))).missing
        assert region in {(m.part, m.observation) for m in missing}


def test_a_web_sling_asks_at_most_twelve_questions_before_use():
    item = Item.model_validate(web_sling())

    asked = questions_before_use(item, shipped(), ["US lifting", "Canada Alberta"])

    assert set(REGIONS) <= set(asked)
    assert len(asked) <= 12


def test_stitches_under_a_fixed_sleeve_are_hidden_until_they_are_felt_through_it():
    a, b = sewn_eyes(chafe_gear=True)
    item = web_sling(parts=[a, web_sling()["parts"][1], b])
    case = look(item, "before use")
    hidden = case.inspection.finding("A", "stitching")
    findings = tuple(f.model_copy(update={"seen": Seen.HIDDEN}) if f is hidden else f for f in case.inspection.findings)
    felt = case.model_copy(update={"inspection": case.inspection.model_copy(update={"findings": findings})})
    unfelt = tuple(f for f in findings if (f.part, f.observation) != ("A", "stitching_feel"))
    not_felt = case.model_copy(update={"inspection": case.inspection.model_copy(update={"findings": unfelt})})

    assert {m.observation for m in judged(felt).missing} == set()
    assert {m.observation for m in judged(not_felt).missing} == {"stitching", "stitching_feel"}


@pytest.mark.criterion("load-bearing-stitches")
@pytest.mark.parametrize("condition", ["sleeve", "soft"])
def test_a_sleeve_or_a_sewn_part_that_feels_wrong_is_held_for_a_competent_look(condition):
    a, b = sewn_eyes(chafe_gear=True)
    item = web_sling(parts=[a, web_sling()["parts"][1], b])

    told = ruling(judged(look(item, "before use", seen={("A", "stitching_feel"): condition})), f"stitching-{condition}")

    assert (told.answer, told.door) == (HOLD, Door.REFER)
    assert ruling(judged(look(item, "before use")), f"stitching-{condition}").answer is Answer.SERVICEABLE


@pytest.mark.criterion("load-bearing-stitches")
def test_no_makers_instruction_makes_hurt_stitches_milder():
    note = {"rules": ["stitching-hurt"], "document": "Maker's manual, page 4", "reason": "outer stitches"}
    item = web_sling(instructions=[note])

    assert judged(look(item, "before use", seen={("A", "stitching"): "worn"})).answer is REMOVE


@pytest.mark.criterion("combined-damage")
def test_a_web_that_is_rejected_is_cut_up_and_never_derated():
    told = ruling(judged(look(web_sling(), seen={("A", "stitching"): "broken"})), "stitching-hurt")

    assert "cut up" in told.action
    assert "never derated" in told.action
    assert told.mends is Mend.NOTHING


# --- the cut in a life-support web: common practice, after the number that HSE INDG367 gives lanyards ---


@pytest.mark.criterion("web-edge-cut-fall-arrest")
@pytest.mark.parametrize(
    ("cut", "answer"),
    [
        ("0.1 mm", Answer.SERVICEABLE),  # 0.9 mm inside, 0.8 needed: 1.645 × 0.5 mm
        ("0.2 mm", HOLD),
        ("0.9 mm", HOLD),
        ("1 mm", REMOVE),  # the limit itself removes
        ("1.1 mm", REMOVE),
    ],
)
def test_an_edge_cut_in_life_support_webbing_stays_under_a_millimetre(cut, answer):
    case = look(webbing_lanyard(), seen={("body", "web_edges"): "cut"}, readings={("body", "edge_cut"): [cut]})

    assert ruling(judged(case), "webbing-edge-cut-practice", "body").answer is answer


def test_an_edge_cut_in_a_lifting_web_is_held_where_no_regimes_number_decides():
    case = look(web_sling(), seen={("body", "web_edges"): "cut"}, readings={("body", "edge_cut"): ["0.5 mm"]})

    assert (judged(case).answer, judged(case).door) == (HOLD, Door.REFER)


def test_an_edge_cut_whose_extent_no_one_read_is_held_under_every_regime():
    seen = {("body", "web_edges"): "cut"}

    told = ruling(judged(look(web_sling(), "before use", ("Canada Alberta",), seen=seen)), "web-edge-cut", "body")

    assert (told.answer, told.door) == (HOLD, Door.REFER)


QUESTIONS = (
    "sewn_eye", "stitching", "stitching_feel", "webbing", "web_face_a", "web_face_b", "web_edges", "web_hurt",
    "round_cover", "round_core", "round_hurt",
)  # fmt: skip


@pytest.mark.parametrize("question", QUESTIONS)
def test_common_practice_judges_every_answer_that_names_something_wrong(question):
    always = [rule.condition for pack in shipped().packs if not pack.regime for rule in pack.rules if rule.condition]
    judged_here = {name for condition in always if condition.observation == question for name in condition.when}

    assert {condition.id for condition in shipped().observations[question].conditions} == judged_here
