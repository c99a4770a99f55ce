"""29 CFR 1910.184(i)(9) and what stands beside it: what removes a web sling or a roundsling in the United States.

Read: the law's list, word for word in 1926.251(e) (up.codes) and in a page that lists it; ASME B30.9-2010 clause
9-5.9.4 in an excerpt; Washington's WAC 296-155-55825 for roundslings. From memory: that a knot stands in that list.
The law covers webs of nylon, polyester and polypropylene.
"""

import pytest

from inspection_rules.words import Answer, Mend

from ..inspection_rules.building import judged, ruling
from ..inspection_rules.fittings import later
from ..inspection_rules.webs import look, roundsling, web_sling

US = ("US lifting",)
REMOVE, HOLD = Answer.REMOVE, Answer.HOLD


def row(clause, criterion, *values):
    """One line of a list as a test parameter."""
    return pytest.param(clause, *values, marks=pytest.mark.criterion(criterion), id=f"{values[0]}-{values[3]}")


LAW = [
    row("(i)(9)(i)", "chemical-burn", "us-web-chemical", "body", "web_hurt", "flaking"),
    row("(i)(9)(ii)", "web-melted", "us-web-melted", "body", "web_hurt", "melted"),
    row("(i)(9)(ii)", "web-melted", "us-web-eye-melted", "A", "sewn_eye", "melted"),
    row("(i)(9)(iii)", "web-cuts", "us-web-face-a-cut", "body", "web_face_a", "cut"),
    row("(i)(9)(iii)", "web-cuts", "us-web-face-b-cut", "body", "web_face_b", "cut"),
    row("(i)(9)(iii)", "web-cuts", "us-web-edge-cut", "body", "web_edges", "cut"),
    row("(i)(9)(iii)", "web-cuts", "us-web-eye-cut", "A", "sewn_eye", "cut"),
    row("(i)(9)(iv)", "load-bearing-stitches", "us-web-stitches", "A", "stitching", "worn"),
    row("(i)(9)(iv)", "load-bearing-stitches", "us-web-stitches", "B", "stitching", "broken"),
]


@pytest.mark.parametrize("fibre", ["nylon", "polyester", "polypropylene"])
@pytest.mark.parametrize(("clause", "rule", "part", "question", "condition"), LAW)
def test_what_the_law_lists_removes_a_web_sling_at_once(clause, rule, part, question, condition, fibre):
    item = web_sling(fibre=fibre)
    told = ruling(judged(look(item, "before use", US, seen={(part, question): condition})), rule, part)

    assert (told.answer, told.mends) == (REMOVE, Mend.NOTHING)
    assert str(told.source) == f"29 CFR 1910.184{clause} (text read in 1926.251(e))"
    assert ruling(judged(look(item, "before use", US)), rule, part).answer is Answer.SERVICEABLE


@pytest.mark.parametrize(("clause", "rule", "part", "question", "condition"), LAW)
def test_the_law_says_nothing_of_webs_of_other_fibres(clause, rule, part, question, condition):
    judgement = judged(look(web_sling(fibre="HMPE"), "before use", US, seen={(part, question): condition}))

    assert rule not in {r.rule for r in judgement.rulings}


# ASME B30.9-2010, 9-5.9.4.
STANDARD = [
    row("HMPE", "web-cuts", "us-web-any-cut-a", "body", "web_face_a", "cut", REMOVE),
    row("aramid", "web-cuts", "us-web-any-cut-b", "body", "web_face_b", "cut", REMOVE),
    row("HMPE", "web-cuts", "us-web-any-edge-cut", "body", "web_edges", "cut", REMOVE),
    row("nylon", "knot", "us-web-knot", "body", "web_hurt", "knot", REMOVE),
    row("nylon", "tag-illegible", "us-web-tag", "", "tag", "unreadable", REMOVE),
    row("polyester", "heat-damage", "us-web-discoloured", "body", "web_hurt", "stained", HOLD),
    row("polyester", "heat-damage", "us-web-brittle", "body", "web_hurt", "brittle", REMOVE),
    row("polyester", "heat-damage", "us-web-brittle", "body", "web_hurt", "glazed", REMOVE),
    row("polyester", "web-abrasion", "us-web-worn-a", "body", "web_face_a", "worn", HOLD),  # "excessive": no number
    row("polyester", "web-abrasion", "us-web-worn-b", "body", "web_face_b", "worn", HOLD),
    row("polyester", "web-cuts", "us-web-selvage", "body", "web_edges", "split", HOLD),  # 29 CFR 1926.251(e), read
]


@pytest.mark.parametrize(("fibre", "rule", "part", "question", "condition", "answer"), STANDARD)
def test_what_the_standard_lists_stops_a_web_sling(fibre, rule, part, question, condition, answer):
    item = web_sling(fibre=fibre)

    assert ruling(judged(look(item, "before use", US, seen={(part, question): condition})), rule, part).answer is answer
    assert ruling(judged(look(item, "before use", US)), rule, part).answer is Answer.SERVICEABLE


@pytest.mark.criterion("due-date")
@pytest.mark.parametrize(
    ("service", "on", "answer"),
    [
        ("normal", "2027-02-01", Answer.SERVICEABLE),
        ("normal", "2027-02-02", HOLD),
        ("severe", "2026-05-01", Answer.SERVICEABLE),
        ("severe", "2026-05-02", HOLD),
    ],
)
def test_a_web_sling_is_inspected_yearly_and_in_severe_service_every_three_months(service, on, answer):
    """ASME B30.9-2010, 9-5.9.3, read: at most a year; severe service monthly to quarterly."""
    found = later(web_sling(service=service), "us-web-periodic", "2026-02-01", on, "US lifting")
    assert found.answer is answer


@pytest.mark.criterion("core-exposed")
def test_weld_spatter_that_shows_no_core_is_held_and_not_removed():
    """WAC 296-155-55825, read: weld spatter removes where it exposes core yarns."""
    judgement = judged(look(roundsling(), "before use", US, seen={("body", "round_hurt"): "spatter"}))

    assert ruling(judgement, "us-round-spatter", "body").answer is HOLD
    assert judgement.answer is HOLD


# WAC 296-155-55825 as read; the knot from memory.
ROUND = [
    row("", "tag-illegible", "us-round-tag", "", "tag", "unreadable"),
    row("", "core-exposed", "us-round-core-seen", "body", "round_cover", "core_seen"),
    row("", "core-exposed", "us-round-core", "body", "round_core", "hard"),
    row("", "core-exposed", "us-round-core", "body", "round_core", "thin"),
    row("", "core-exposed", "us-round-core", "body", "round_core", "lump"),
    row("", "chemical-burn", "us-round-chemical", "body", "round_hurt", "flaking"),
    row("", "web-melted", "us-round-heat", "body", "round_hurt", "glazed"),
    row("", "web-melted", "us-round-heat", "body", "round_hurt", "melted"),
    row("", "knot", "us-round-knot", "body", "round_hurt", "knot"),
]


@pytest.mark.parametrize(("_", "rule", "part", "question", "condition"), ROUND)
def test_what_the_list_for_roundslings_names_removes_one(_, rule, part, question, condition):
    seen = judged(look(roundsling(), "before use", US, seen={(part, question): condition}))

    assert ruling(seen, rule, part).answer is REMOVE
    assert ruling(judged(look(roundsling(), "before use", US)), rule, part).answer is Answer.SERVICEABLE


@pytest.mark.criterion("core-exposed")
def test_a_hole_that_does_not_show_the_core_is_held_and_not_removed():
    """WAC 296-155-55825: holes and tears remove where they expose core yarns."""
    judgement = judged(look(roundsling(), "before use", US, seen={("body", "round_cover"): "hole"}))

    assert judgement.answer is HOLD


@pytest.mark.criterion("web-cuts")
def test_cut_yarns_of_an_outer_jacket_may_stay_for_a_competent_person_by_the_makers_instruction():
    """Interpretation letters of 19 November 1981 and 29 March 1982 on (i)(9)(iii)-(iv), read."""
    note = {"rules": ["us-web-face-a-cut"], "document": "Maker's manual, page 4", "reason": "outer jacket yarns"}
    item = web_sling(instructions=[note])

    judgement = judged(look(item, "before use", US, seen={("body", "web_face_a"): "cut"}))

    assert ruling(judgement, "us-web-face-a-cut", "body").answer is HOLD


@pytest.mark.criterion("web-cuts")
def test_any_edge_cut_removes_however_short_it_was_read():
    case = look(
        web_sling(), regimes=US, seen={("body", "web_edges"): "cut"}, readings={("body", "edge_cut"): ["0.2 mm"]}
    )

    assert judged(case).answer is REMOVE
