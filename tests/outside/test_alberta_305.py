"""Alberta OHS Code, section 305: how far a synthetic web sling may be cut and worn.

The numbers were read in a university safety office's page that does not name the law; that they are 305(1)(a) to (f)
is from memory. That section 305 adds damages up and has rejected slings destroyed was read in its explanation guide.

Every limit is tried at the limit, just inside and just outside, with a study so fine that only the number decides, and
then with the default doubt of a field reading. The web is 50 mm wide and 5 mm thick: a quarter of the width is
12.5 mm, an eighth 6.25 mm, two widths 100 mm.
"""

import pytest

from inspection_rules.words import Answer, Door

from ..inspection_rules.building import judged, ruling
from ..inspection_rules.webs import FINE, look, web_sling

ALBERTA = ("Canada Alberta",)
STITCHES = pytest.mark.criterion("load-bearing-stitches")
REMOVE, HOLD, FINE_BY_LAW = Answer.REMOVE, Answer.HOLD, Answer.SERVICEABLE


def told(rule, regimes=ALBERTA, item=None, fine=True, **readings):
    """The rule's ruling on the body, given values by observation."""
    given = {}
    for name, values in readings.items():
        by_eye = "%" in values[0]
        given["body", name] = {"values": values} | (FINE if fine and not by_eye else {})
    return ruling(judged(look(item or web_sling(), regimes=regimes, readings=given)), rule, "body")


# --- (a) an edge cut is no longer than the web is thick ---


@pytest.mark.criterion("web-edge-cut-lifting")
@pytest.mark.parametrize(("cut", "answer"), [("4.7 mm", FINE_BY_LAW), ("5.1 mm", REMOVE)])
def test_an_edge_cut_is_no_longer_than_the_web_is_thick(cut, answer):
    assert told("alberta-edge-cut", edge_cut=[cut]).answer is answer


@pytest.mark.criterion("web-edge-cut-lifting")
@pytest.mark.parametrize(
    ("cut", "answer", "door"),
    [
        ("4.1 mm", FINE_BY_LAW, None),       # 0.9 mm inside; ± 0.82 mm is 1.645 × 0.5 mm
        ("4.2 mm", HOLD, Door.LOOK_AGAIN),
        ("5.0 mm", HOLD, Door.LOOK_AGAIN),   # the law lets it stay; a rule that reads to half a millimetre cannot tell
        ("5.1 mm", REMOVE, None),
    ],
)  # fmt: skip
def test_a_field_reading_of_an_edge_cut_counts_its_doubt_against_the_web(cut, answer, door):
    ruled = told("alberta-edge-cut", fine=False, edge_cut=[cut])

    assert (ruled.answer, ruled.door) == (answer, door)
    assert float(ruled.limit) == 5


def test_five_millimetres_exactly_is_at_the_limit_and_not_over_it():
    ruled = told("alberta-edge-cut", edge_cut=["5 mm"])

    assert ruled.margin == 0
    assert (ruled.answer, ruled.door) == (HOLD, Door.LOOK_AGAIN)


def test_the_worst_of_several_edge_cuts_is_judged():
    assert told("alberta-edge-cut", edge_cut=["1 mm", "5.1 mm", "2 mm"]).answer is REMOVE


# --- (b), (c) both faces together are worn by no more than 15 % of the thickness ---


@pytest.mark.criterion("web-abrasion")
@pytest.mark.parametrize(
    ("face_a", "face_b", "answer"),
    [
        ("8 %", "0 %", FINE_BY_LAW),  # 7 points inside; by eye ± 7.0 points is 1.645 × √(3² + 3²)
        ("4 %", "4 %", FINE_BY_LAW),  # what is on one face or shared by both is the same loss
        ("5 %", "4 %", HOLD),
        ("15 %", "0 %", HOLD),
        ("7.5 %", "7.5 %", HOLD),     # the law lets exactly 15 % stay; the eye cannot tell
        ("15.1 %", "0 %", REMOVE),
        ("0 %", "15.1 %", REMOVE),
        ("7.6 %", "7.5 %", REMOVE),
    ],
)  # fmt: skip
def test_both_faces_together_are_worn_by_no_more_than_fifteen_per_cent(face_a, face_b, answer):
    assert told("alberta-abrasion", web_abrasion_a=[face_a], web_abrasion_b=[face_b]).answer is answer


# --- (d), (e) damaged warp by its width, depth and nearness to the edge ---


@pytest.mark.criterion("web-warp-damage")
@pytest.mark.parametrize(
    ("rule", "depth", "width", "answer"),
    [
        ("alberta-warp-shallow", "40 %", "12.2 mm", FINE_BY_LAW),
        ("alberta-warp-shallow", "40 %", "12.6 mm", REMOVE),
        ("alberta-warp-deep", "100 %", "5.9 mm", FINE_BY_LAW),
        ("alberta-warp-deep", "100 %", "6.3 mm", REMOVE),
        ("alberta-warp-deep", "60 %", "6.3 mm", REMOVE),  # between half and all: counted as all
        ("alberta-warp-shallow", "45 %", "6.3 mm", FINE_BY_LAW),
        ("alberta-warp-deep", "46 %", "6.3 mm", REMOVE),  # by eye ± 4.9 points: perhaps deeper than half
    ],
)
def test_damaged_warp_is_no_wider_than_its_depth_allows(rule, depth, width, answer):
    assert told(rule, warp_depth=[depth], warp_width=[width], warp_edge=["20 mm"]).answer is answer


@pytest.mark.criterion("web-warp-damage")
@pytest.mark.parametrize(("width", "answer"), [("4.6 mm", FINE_BY_LAW), ("4.7 mm", HOLD), ("6.3 mm", REMOVE)])
def test_a_field_reading_of_damaged_warp_counts_its_doubt_against_the_web(width, answer):
    """6.25 mm less 1.645 × 1 mm is 4.605 mm."""
    readings = {"warp_depth": ["100 %"], "warp_width": [width], "warp_edge": ["20 mm"]}

    assert told("alberta-warp-deep", fine=False, **readings).answer is answer


@pytest.mark.criterion("web-warp-damage")
@pytest.mark.parametrize(("edge", "answer"), [("12.4 mm", REMOVE), ("12.5 mm", REMOVE), ("12.8 mm", FINE_BY_LAW)])
@pytest.mark.parametrize("depth", ["20 %", "100 %"])
def test_damaged_warp_of_any_depth_stays_out_of_the_quarter_along_the_edge(depth, edge, answer):
    assert told("alberta-warp-edge", warp_depth=[depth], warp_width=["1 mm"], warp_edge=[edge]).answer is answer


@pytest.mark.criterion("web-warp-damage")
def test_each_place_of_damaged_warp_is_judged_by_its_own_depth():
    readings = {"warp_depth": ["20 %", "100 %"], "warp_width": ["11 mm", "5 mm"], "warp_edge": ["20 mm", "20 mm"]}

    assert told("alberta-warp-shallow", **readings).answer is FINE_BY_LAW
    assert told("alberta-warp-deep", **readings).answer is FINE_BY_LAW


@pytest.mark.criterion("web-warp-damage")
def test_a_place_without_its_depth_is_asked_for_again():
    ruled = told("alberta-warp-deep", warp_width=["1 mm", "2 mm"], warp_depth=["10 %"], warp_edge=["20 mm", "20 mm"])

    assert (ruled.answer, ruled.door) == (HOLD, Door.LOOK_AGAIN)


# --- (f) weft gone: both more than a quarter wide and more than two widths long ---


@pytest.mark.criterion("web-weft-damage")
@pytest.mark.parametrize(
    ("width", "length", "answer"),
    [
        ("12.6 mm", "100.8 mm", REMOVE),
        ("12.6 mm", "98 mm", FINE_BY_LAW),
        ("12.2 mm", "400 mm", FINE_BY_LAW),
        ("40 mm", "98 mm", FINE_BY_LAW),
        ("40 mm", "101 mm", REMOVE),
    ],
)
def test_weft_is_gone_only_where_the_warp_parts_both_wide_and_long(width, length, answer):
    assert told("alberta-weft", weft_width=[width], weft_length=[length]).answer is answer


# --- (g), (h), eyes: none at all ---


@pytest.mark.parametrize(
    ("rule", "part", "question", "condition"),
    [
        pytest.param("alberta-chemical", "body", "web_hurt", "flaking", marks=pytest.mark.criterion("chemical-burn")),
        pytest.param("alberta-melted", "body", "web_hurt", "melted", marks=pytest.mark.criterion("web-melted")),
        *(
            pytest.param(
                "alberta-stitches", "A", "stitching", one, marks=pytest.mark.criterion("load-bearing-stitches")
            )
            for one in ("worn", "broken")
        ),
        pytest.param("alberta-eye", "A", "sewn_eye", "cut", marks=pytest.mark.criterion("web-cuts")),
        pytest.param("alberta-eye-melted", "A", "sewn_eye", "melted", marks=pytest.mark.criterion("web-melted")),
    ],
)
def test_what_may_not_be_at_all_removes_the_sling(rule, part, question, condition):
    seen = judged(look(web_sling(), regimes=ALBERTA, seen={(part, question): condition}))

    assert ruling(seen, rule, part).answer is REMOVE
    assert ruling(judged(look(web_sling(), regimes=ALBERTA)), rule, part).answer is Answer.SERVICEABLE


# --- what a person sees ---


def test_a_sound_web_sling_is_serviceable():
    assert judged(look(web_sling(), regimes=ALBERTA)).answer is Answer.SERVICEABLE


@pytest.mark.parametrize(
    ("question", "condition", "readings"),
    [
        ("web_edges", "cut", {"edge_cut": ["2 mm"]}),
        ("web_face_a", "worn", {"web_abrasion_a": ["4 %"], "web_abrasion_b": ["0 %"]}),
        ("web_face_b", "cut", {"warp_width": ["2 mm"], "warp_depth": ["100 %"], "warp_edge": ["22 mm"]}),
        ("web_face_b", "weft", {"weft_width": ["5 mm"], "weft_length": ["40 mm"]}),
    ],
)
def test_damage_whose_extent_is_inside_its_limit_is_watched(question, condition, readings):
    given = {("body", name): values for name, values in readings.items()}

    judgement = judged(look(web_sling(), regimes=ALBERTA, seen={("body", question): condition}, readings=given))

    assert judgement.answer is Answer.WATCH
    assert judgement.next_due is not None


@pytest.mark.parametrize(("missing", "rule"), [("thickness", "alberta-web-thickness"), ("width", "alberta-web-width")])
@pytest.mark.criterion("web-edge-cut-lifting")
def test_an_examination_holds_a_web_whose_size_is_not_on_record(missing, rule):
    item = web_sling()
    del item[missing]

    judgement = judged(look(item, regimes=ALBERTA))

    assert ruling(judgement, rule, "").answer is HOLD
    assert ruling(judged(look(web_sling(), regimes=ALBERTA)), rule, "").answer is Answer.SERVICEABLE


def test_an_edge_cut_of_a_web_of_unknown_thickness_is_held_for_whoever_can_supply_it():
    item = web_sling()
    del item["thickness"]

    ruled = told("alberta-edge-cut", item=item, edge_cut=["1 mm"])

    assert (ruled.answer, ruled.door) == (HOLD, Door.REFER)


@pytest.mark.criterion("web-abrasion")
def test_an_examination_reads_the_wear_of_both_faces():
    judgement = judged(look(web_sling(), regimes=ALBERTA, without=(("body", "web_abrasion_b"),)))

    assert {m.observation for m in judgement.missing} == {"web_abrasion_b"}
    assert judgement.answer is HOLD


@pytest.mark.criterion("web-edge-cut-lifting")
def test_a_makers_instruction_turns_the_removal_for_an_edge_cut_into_a_hold():
    note = {"rules": ["alberta-edge-cut"], "document": "Maker's manual, page 4", "reason": "protective edge"}

    ruled = told("alberta-edge-cut", item=web_sling(instructions=[note]), edge_cut=["6 mm"])

    assert (ruled.answer, ruled.door) == (HOLD, Door.REFER)


def test_the_sources_say_what_was_not_verified():
    assert "source not verified" in str(told("alberta-edge-cut", edge_cut=["1 mm"]).source)


def test_the_law_speaks_of_web_slings_only():
    lanyard = web_sling(kind="lanyard")

    judgement = judged(look(lanyard, regimes=ALBERTA, readings={("body", "edge_cut"): ["6 mm"]}))

    assert not any(r.rule.startswith("alberta-edge") for r in judgement.rulings)


# --- beside a law that allows no cut at all ---


def test_beside_the_united_states_law_the_numbers_change_nothing_and_it_is_said():
    both = ("Canada Alberta", "US lifting")
    case = look(
        web_sling(), regimes=both, seen={("body", "web_edges"): "cut"}, readings={("body", "edge_cut"): ["1 mm"]}
    )

    judgement = judged(case)

    assert judgement.answer is REMOVE
    assert len([one for one in judgement.advisories if "makes nothing milder" in one and "edge" in one]) == 1


def test_each_number_that_changes_nothing_is_said_once_however_many_rules_are_stricter():
    readings = {"warp_width": ["2 mm"], "warp_depth": ["20 %"], "warp_edge": ["20 mm"]}
    case = look(
        web_sling(),
        regimes=("Canada Alberta", "US lifting"),
        readings={("body", name): values for name, values in readings.items()},
    )

    told = [one.split(" (")[0] for one in judged(case).advisories if "makes nothing milder" in one]

    assert "Warp damaged deeper than half" in told
    assert len(told) == len(set(told))


def test_alone_nothing_is_said_of_a_law_that_does_not_count():
    case = look(web_sling(), regimes=ALBERTA, readings={("body", "edge_cut"): ["1 mm"]})

    assert not any("makes nothing milder" in advice for advice in judged(case).advisories)
