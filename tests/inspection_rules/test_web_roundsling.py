"""Roundslings by common practice: cover, core by feel, heat and chemical."""

import pytest

from inspection_rules.words import Answer, Door, Seen

from .building import judged, ruling
from .webs import look, roundsling

HOLD, REMOVE = Answer.HOLD, Answer.REMOVE
CORE = pytest.mark.criterion("core-exposed")


# Common practice, no source.
@pytest.mark.parametrize(
    ("question", "condition", "rule", "answer"),
    [
        ("round_cover", "soiled", "round-soiled", HOLD),
        ("round_cover", "worn", "round-worn", HOLD),
        pytest.param("round_cover", "seam", "round-seam", HOLD, marks=CORE),
        pytest.param("round_cover", "hole", "round-hole", HOLD, marks=CORE),
        pytest.param("round_cover", "core_seen", "round-core-seen", REMOVE, marks=CORE),
        pytest.param("round_core", "hard", "round-core-hard", REMOVE, marks=CORE),
        pytest.param("round_core", "thin", "round-core-thin", REMOVE, marks=CORE),
        pytest.param("round_core", "lump", "round-core-lump", REMOVE, marks=CORE),
        pytest.param("round_hurt", "stained", "round-stained", HOLD, marks=pytest.mark.criterion("heat-damage")),
        pytest.param("round_hurt", "spatter", "round-spatter", HOLD, marks=pytest.mark.criterion("heat-damage")),
        pytest.param("round_hurt", "glazed", "round-glazed", HOLD, marks=pytest.mark.criterion("heat-damage")),
        pytest.param("round_hurt", "knot", "round-knot", REMOVE, marks=pytest.mark.criterion("knot")),
        pytest.param("round_hurt", "flaking", "round-flaking", REMOVE, marks=pytest.mark.criterion("chemical-burn")),
        pytest.param("round_hurt", "melted", "round-melted", REMOVE, marks=pytest.mark.criterion("web-melted")),
    ],
)
def test_what_is_seen_or_felt_on_a_roundsling_stops_it_and_its_absence_does_not(question, condition, rule, answer):
    seen = judged(look(roundsling(), "before use", seen={("body", question): condition}))

    assert seen.answer is answer
    assert ruling(seen, rule, "body").answer is answer
    assert ruling(judged(look(roundsling(), "before use")), rule, "body").answer is Answer.SERVICEABLE


@pytest.mark.parametrize("kind", ["as made", "as found", "before use", "periodic", "after an incident"])
def test_a_sound_roundsling_is_serviceable(kind):
    assert judged(look(roundsling(), kind)).answer is Answer.SERVICEABLE


@pytest.mark.parametrize("question", ["round_cover", "round_core", "round_hurt"])
def test_a_question_left_out_of_a_roundsling_is_held(question):
    judgement = judged(look(roundsling(), "before use", without=(("body", question),)))

    assert (judgement.answer, judgement.door) == (HOLD, Door.LOOK_AGAIN)


def test_a_core_that_could_not_be_felt_does_not_pass():
    case = look(roundsling(), "before use")
    findings = tuple(
        f.model_copy(update={"seen": Seen.NOT_EXAMINED, "reason": "frozen stiff"})
        if f.observation == "round_core"
        else f
        for f in case.inspection.findings
    )
    unfelt = case.model_copy(update={"inspection": case.inspection.model_copy(update={"findings": findings})})

    assert judged(unfelt).answer is HOLD
