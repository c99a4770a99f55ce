"""What is said of each thing that can be seen on the body of a rope, with and without the US rules for slings.

Common practice where no regime is named: no source.
"""

import pytest

from inspection_rules.book import CaseError
from inspection_rules.words import Answer, Door, Mend

from .bodies import BODY, TODAY, climbing_line, covered_sling, looked_at, natural_sling, said, soft_shackle
from .building import buried_sling, case, inspection, judged, laid_sling

HOLD, REMOVE, WATCH = Answer.HOLD, Answer.REMOVE, Answer.WATCH


def table(criterion, *rows):
    """Rows of: the item, the question, the condition, the answer in common practice, the answer under US lifting."""
    return [pytest.param(*row, marks=pytest.mark.criterion(criterion), id=f"{row[1]}-{row[2]}") for row in rows]


SEEN = [
    *table(
        "fuzz",
        (buried_sling, "body_surface", "fuzzy", HOLD, REMOVE),
        (covered_sling, "cover", "fuzzy", HOLD, REMOVE),
    ),
    *table(
        "powder",
        (laid_sling, "body_surface", "distorted", HOLD, REMOVE),
        (laid_sling, "body_inside", "powder", HOLD, REMOVE),
        (buried_sling, "body_inside", "powder", HOLD, HOLD),
    ),
    *table(
        "distortion",
        (buried_sling, "body_surface", "distorted", HOLD, REMOVE),
        (covered_sling, "cover", "slack", HOLD, REMOVE),
        (covered_sling, "core_feel", "lump", HOLD, REMOVE),
        (covered_sling, "core_feel", "flat", HOLD, REMOVE),
    ),
    *table(
        "cut-fibres",
        (laid_sling, "body_surface", "abraded", HOLD, REMOVE),
        (buried_sling, "body_surface", "abraded", HOLD, REMOVE),
        (covered_sling, "cover", "cut", HOLD, REMOVE),
        (covered_sling, "cover", "core_seen", REMOVE, REMOVE),
    ),
    *table("cut-strand", (buried_sling, "body_surface", "cut", HOLD, REMOVE)),
    *table(
        "sunlight",
        (buried_sling, "body_fibre", "faded", WATCH, WATCH),
        (buried_sling, "body_fibre", "powdery", HOLD, HOLD),
        (buried_sling, "body_fibre", "brittle", HOLD, REMOVE),
    ),
    *table(
        "heat-damage",
        (buried_sling, "body_surface", "hard", HOLD, HOLD),
        (buried_sling, "body_fibre", "glazed", HOLD, HOLD),
        (buried_sling, "body_fibre", "melted", HOLD, HOLD),
        (buried_sling, "body_fibre", "melted_more", HOLD, REMOVE),
        (covered_sling, "cover", "melted", HOLD, REMOVE),
        (covered_sling, "core_feel", "hard", HOLD, REMOVE),
    ),
    *table(
        "discoloration",
        (buried_sling, "body_fibre", "discoloured", HOLD, HOLD),
        (natural_sling, "body_fibre", "discoloured", HOLD, REMOVE),  # the law speaks of three-strand rope
        (natural_sling, "body_fibre", "rotten", REMOVE, REMOVE),
    ),
    *table(
        "dirt-inside",
        (buried_sling, "body_inside", "grit", WATCH, HOLD),
        (buried_sling, "body_inside", "soaked", HOLD, REMOVE),
    ),
    *table("fibre-inside", (buried_sling, "body_inside", "broken", HOLD, REMOVE)),
    *table(
        "knot",
        (laid_sling, "body_surface", "knot", REMOVE, REMOVE),
        (covered_sling, "core_feel", "knot", REMOVE, REMOVE),
    ),
    *table("overload", (covered_sling, "core_feel", "necked", HOLD, REMOVE)),
]


@pytest.mark.parametrize(("make", "question", "condition", "practice", "us"), SEEN)
def test_what_is_seen_on_a_slings_body_is_answered(make, question, condition, practice, us):
    seen = {(BODY, question): condition}

    assert looked_at(make(), seen, regimes=[]).answer is practice
    assert looked_at(make(), seen).answer is us


@pytest.mark.parametrize("make", [laid_sling, natural_sling, buried_sling, covered_sling, climbing_line, soft_shackle])
@pytest.mark.parametrize("kind", ["before use", "periodic"])
def test_a_sound_body_of_every_make_is_passed(make, kind):
    # What is made asks nothing of a soft shackle: its first examination is as found.
    found = [inspection(make(), "as found", "2026-01-05")] if make is soft_shackle else None
    assert looked_at(make(), kind=kind, regimes=[], past=found).answer is Answer.SERVICEABLE


@pytest.mark.parametrize(
    "construction",
    [
        "laid, four-strand", "plaited, eight-strand", "hollow braid, eight-strand", "double braid", "kernmantle",
        "parallel core",
    ],
)  # fmt: skip
@pytest.mark.parametrize("kind", ["line", "mooring tail", "lanyard", "hitch cord"])
def test_the_rules_speak_for_the_body_of_every_construction_and_kind(construction, kind):
    judgement = looked_at(climbing_line(kind=kind, construction=construction, duty="tree rigging"), regimes=[])

    assert not [one for one in judgement.rulings if one.rule == "not-covered" and one.part == BODY]


# --- covers ------------------------------------------------------------------------------------------------


@pytest.mark.criterion("cut-fibres")
@pytest.mark.parametrize(
    ("carries", "practice", "us"), [("none", HOLD, HOLD), ("shared", HOLD, REMOVE), ("all", HOLD, REMOVE)]
)
def test_what_a_cut_cover_means_hangs_on_how_much_of_the_load_it_carries(carries, practice, us):
    seen = {(BODY, "cover"): "cut"}

    assert looked_at(covered_sling(cover_load=carries), seen, regimes=[]).answer is practice
    assert looked_at(covered_sling(cover_load=carries), seen).answer is us


@pytest.mark.criterion("cut-fibres")
def test_a_cut_cover_that_carries_nothing_sends_the_hand_to_the_core_under_it():
    judgement = looked_at(covered_sling(cover_load="none"), {(BODY, "cover"): "cut"})

    assert "look at the core under the place" in said(judgement, "cover-cut-no-load").action


@pytest.mark.criterion("cut-fibres")
@pytest.mark.parametrize(("carries", "answer"), [("shared", HOLD), ("all", REMOVE)])
def test_a_climbing_lines_cut_cover_condemns_it_where_the_cover_carries_all(carries, answer):
    line = climbing_line(cover_load=carries)

    assert looked_at(line, {(BODY, "cover"): "cut"}, kind="before use", regimes=[]).answer is answer


def test_a_covered_rope_whose_cover_may_carry_load_or_not_is_held_at_its_examination():
    item = covered_sling()
    del item["cover_load"]

    judgement = looked_at(item, regimes=[])

    assert said(judgement, "cover-load-on-record").door is Door.REFER
    assert looked_at(item, kind="before use", regimes=[]).answer is Answer.SERVICEABLE


@pytest.mark.parametrize(
    ("question", "condition", "answer"),
    [
        pytest.param("cover", "glazed", WATCH, marks=pytest.mark.criterion("heat-damage")),
        pytest.param("cover", "melted", REMOVE, marks=pytest.mark.criterion("heat-damage")),
        pytest.param("cover", "core_seen", REMOVE, marks=pytest.mark.criterion("cut-fibres")),
        pytest.param("core_feel", "lump", HOLD, marks=pytest.mark.criterion("distortion")),
        pytest.param("core_feel", "flat", REMOVE, marks=pytest.mark.criterion("distortion")),
        pytest.param("core_feel", "hard", HOLD, marks=pytest.mark.criterion("heat-damage")),
        pytest.param("core_feel", "necked", REMOVE, marks=pytest.mark.criterion("overload")),
    ],
)
def test_a_climbing_line_before_the_climb(question, condition, answer):
    judgement = looked_at(climbing_line(), {(BODY, question): condition}, kind="before use", regimes=[])

    assert judgement.answer is answer


def test_a_core_that_cannot_be_opened_is_hidden_by_design_and_the_bend_stands_in_for_it():
    line = climbing_line()
    judgement = _with_the_inside_hidden(line)
    felt = _with_the_inside_hidden(line, core_feel={"seen": "could not be examined", "reason": "frozen"})

    assert judgement.answer is Answer.SERVICEABLE
    assert {("body", "body_inside"), ("body", "core_feel")} <= {(one.part, one.observation) for one in felt.missing}


def _with_the_inside_hidden(item, **changed):
    one = inspection(item, "periodic", TODAY)
    for finding in one["findings"]:
        if finding["observation"] == "body_inside":
            finding["seen"] = "hidden by design"
        finding.update(changed.get(finding["observation"], {}))
    return judged(case(item, one, regimes=[]))


def test_a_knot_is_no_answer_on_a_climbing_line():
    with pytest.raises(CaseError, match="'knot' is not known"):
        looked_at(climbing_line(), {(BODY, "core_feel"): "knot"}, kind="before use", regimes=[])


@pytest.mark.criterion("knot")
def test_the_way_back_from_a_knot_is_a_competent_look():
    judgement = looked_at(laid_sling(), {(BODY, "body_surface"): "knot"})

    assert said(judgement, "body-knot").mends is Mend.LOOK
    assert said(judgement, "us-knot").mends is Mend.LOOK


# --- soft shackles -----------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("question", "condition", "answer"),
    [
        ("shackle_eye", "chafed", HOLD),
        ("shackle_eye", "open", HOLD),
        pytest.param("shackle_eye", "cut", REMOVE, marks=pytest.mark.criterion("cut-fibres")),
        ("shackle_knot", "loose", HOLD),
        pytest.param("shackle_knot", "shorter", HOLD, marks=pytest.mark.criterion("splice-drawing")),
        pytest.param("shackle_knot", "cut", REMOVE, marks=pytest.mark.criterion("cut-fibres")),
    ],
)
def test_a_soft_shackle_is_judged_by_its_eye_and_its_knot(question, condition, answer):
    judgement = looked_at(soft_shackle(), {(BODY, question): condition}, kind="before use", regimes=[])

    assert judgement.answer is answer


# --- a maker's written instruction -------------------------------------------------------------------------


def by_the_makers_instruction(item, rules, seen):
    """This item with an instruction that speaks of these rules, and this seen on its body under US lifting."""
    said_so = {"rules": rules, "document": "Users' sheet, edition 3, page 4", "reason": "surface wear only"}
    return looked_at(item | {"instructions": [said_so]}, {(BODY, "body_surface"): seen}).answer


@pytest.mark.parametrize(
    ("make", "condition", "rules"),
    [
        pytest.param(buried_sling, "fuzzy", ["uniform-fuzz"], marks=pytest.mark.criterion("fuzz")),
        pytest.param(buried_sling, "abraded", ["cuts-and-abrasion"], marks=pytest.mark.criterion("cut-fibres")),
        pytest.param(buried_sling, "cut", ["cut-strand"], marks=pytest.mark.criterion("cut-strand")),
    ],
)
def test_a_makers_instruction_turns_wear_and_cuts_from_removal_to_a_competent_persons_hold(make, condition, rules):
    assert by_the_makers_instruction(make(), rules, condition) is HOLD


@pytest.mark.criterion("knot")
def test_no_makers_instruction_lets_a_knot_go():
    assert by_the_makers_instruction(laid_sling(), ["body-knot", "us-knot"], "knot") is REMOVE
