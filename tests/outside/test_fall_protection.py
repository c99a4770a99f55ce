"""29 CFR 1926.502(d) and 1910.140(c), personal fall protection, with Appendix C to Subpart M.

5,000 lbf: read as quoted in an agency's training page. Appendix C's list: as copied by a supplier (secondary).
Synthetic fibre, and out of service after a fall: from memory.
"""

import pytest

from inspection_rules.words import Answer, Door

from ..inspection_rules.building import judged
from ..inspection_rules.fittings import climbing, examined, fitting, rules_of, said, webbing

REGIME = "US fall protection"


@pytest.mark.criterion("breaking-force")
@pytest.mark.parametrize("kind", ["lanyard", "line", "hitch cord"])
@pytest.mark.parametrize(
    ("force", "answer"),
    [
        ("4999 lbf", Answer.REMOVE),
        ("5000 lbf", Answer.SERVICEABLE),
        ("22.2 kN", Answer.REMOVE),         # the text's rounding of 5,000 lbf, which are 22.241 kN
        ("22.25 kN", Answer.SERVICEABLE),
    ],
)  # fmt: skip
def test_a_lanyard_or_lifeline_breaks_at_5000_pounds_or_more(kind, force, answer):
    assert said(examined(climbing(kind, breaking_force=force), REGIME), "us-fall-strength").answer is answer


@pytest.mark.criterion("breaking-force")
def test_a_force_that_is_not_on_record_refers_at_the_examination():
    lanyard = climbing("lanyard", breaking_force=None)
    told = said(examined(lanyard, REGIME), "us-fall-strength-on-record")
    assert (told.answer, told.door) == (Answer.HOLD, Door.REFER)
    assert said(examined(climbing("lanyard"), REGIME), "us-fall-strength-on-record").answer is Answer.SERVICEABLE


@pytest.mark.criterion("synthetic-fibre")
@pytest.mark.parametrize(
    ("fibre", "answer"),
    [
        ("manila", Answer.REMOVE), ("sisal", Answer.REMOVE), ("hemp", Answer.REMOVE),
        ("nylon", Answer.SERVICEABLE), ("polyester", Answer.SERVICEABLE), ("aramid", Answer.SERVICEABLE),
    ],
)  # fmt: skip
def test_lanyards_and_lifelines_are_of_synthetic_fibre(fibre, answer):
    assert said(examined(climbing(fibre=fibre), REGIME), "us-fall-synthetic").answer is answer


@pytest.mark.criterion("fall-arrest")
def test_after_a_fall_it_is_out_of_service_until_a_competent_person_clears_it():
    fallen = examined(climbing(), REGIME, kind="before use", seen={("", "shock"): "fall"})
    told = said(fallen, "us-fall-after-fall")
    assert told.answer is Answer.REMOVE
    assert told.mends.value == "a competent look"
    assert judged(examined(climbing(), REGIME, kind="before use")).answer is Answer.SERVICEABLE


@pytest.mark.criterion("fitting")
@pytest.mark.parametrize("seen", ["gate", "deformed"])
def test_distorted_hooks_and_faulty_springs_are_withdrawn(seen):
    lanyard = climbing("lanyard")
    lanyard["parts"].append(fitting("connector"))
    assert said(examined(lanyard, REGIME, seen={("F", "fitting"): seen}), "us-fall-hardware").answer is Answer.REMOVE
    assert said(examined(lanyard, REGIME), "us-fall-hardware").answer is Answer.SERVICEABLE


@pytest.mark.criterion("fitting")
@pytest.mark.parametrize("seen", ["faulty", "deformed"])
def test_before_use_too(seen):
    lanyard = climbing("lanyard")
    lanyard["parts"].append(fitting("connector"))
    look = examined(lanyard, REGIME, kind="before use", seen={("", "fittings"): seen})
    assert said(look, "us-fall-hardware-spliced").answer is Answer.REMOVE


@pytest.mark.criterion("fibre-inside")
@pytest.mark.parametrize("seen", ["powder", "broken"])
def test_internal_deterioration_of_the_rope_is_withdrawn(seen):
    look = examined(climbing(), REGIME, seen={("body", "body_inside"): seen})
    assert said(look, "us-fall-body-inside").answer is Answer.REMOVE
    assert said(examined(climbing(), REGIME), "us-fall-body-inside").answer is Answer.SERVICEABLE


@pytest.mark.criterion("exposure")
@pytest.mark.parametrize("seen", ["heat", "chemical"])
def test_fire_acid_and_corrosives_stop_it(seen):
    look = examined(climbing(), REGIME, kind="before use", seen={("", "shock"): seen})
    assert said(look, "us-fall-heat-or-chemical").answer is Answer.HOLD
    assert said(examined(climbing(), REGIME), "us-fall-heat-or-chemical").answer is Answer.SERVICEABLE


def test_a_rope_that_lifts_no_person_is_not_asked_for_5000_pounds():
    rope = climbing(duty="tree rigging", breaking_force="10 kN")
    assert not {rule for rule in rules_of(judged(examined(rope, REGIME))) if rule.startswith("us-fall")}


@pytest.mark.criterion("due-date")
@pytest.mark.parametrize("left", ["tag", "shock"])
def test_before_each_use_it_is_looked_at(left):
    look = examined(climbing("lanyard"), REGIME, kind="before use", without=(("", left),))
    held = [r for r in judged(look).rulings if r.rule == "us-fall-before-use"]
    assert [r.answer for r in held] == [Answer.HOLD]


@pytest.mark.criterion("web-cuts")
@pytest.mark.criterion("chemical-burn")
@pytest.mark.criterion("load-bearing-stitches")
@pytest.mark.parametrize(
    ("kind", "part", "asked", "seen", "rule"),
    [
        ("before use", "body", "webbing", "hole", "us-fall-webbing"),
        ("before use", "body", "webbing", "edge_cut", "us-fall-webbing"),
        ("before use", "body", "webbing", "burnt", "us-fall-webbing-burnt"),
        ("periodic", "body", "web_face_a", "cut", "us-fall-web-face-a"),
        ("periodic", "body", "web_face_b", "cut", "us-fall-web-face-b"),
        ("periodic", "body", "web_edges", "cut", "us-fall-web-edges"),
        ("periodic", "body", "web_hurt", "flaking", "us-fall-web-hurt"),
        ("periodic", "body", "web_hurt", "melted", "us-fall-web-hurt"),
        ("periodic", "A", "stitching", "broken", "us-fall-stitching"),
    ],
)
def test_cuts_tears_and_damage_from_fire_or_acid_withdraw_webbing(kind, part, asked, seen, rule):
    look = examined(webbing(), REGIME, kind=kind, seen={(part, asked): seen}, case_past=[])
    assert said(look, rule, part).answer is Answer.REMOVE
    assert said(examined(webbing(), REGIME, kind=kind, case_past=[]), rule, part).answer is Answer.SERVICEABLE


@pytest.mark.criterion("cut-fibres")
@pytest.mark.parametrize(
    ("construction", "asked", "seen", "rule"),
    [
        ("laid, three-strand", "body_surface", "cut", "us-fall-body-surface"),
        ("kernmantle", "cover", "cut", "us-fall-cover"),
        ("kernmantle", "cover", "melted", "us-fall-cover-melted"),
        ("kernmantle", "core_feel", "necked", "us-fall-core-feel"),
    ],
)
def test_cuts_and_undue_stretching_withdraw_a_rope(construction, asked, seen, rule):
    eyes = [{"id": end, "kind": "termination", "end": end, "splice": "sewn eye"} for end in "AB"]
    parts = [eyes[0], {"id": "body", "kind": "body"}, eyes[1]]
    rope = climbing(construction=construction, cover_load="shared", parts=parts)
    look = examined(rope, REGIME, kind="before use", seen={("body", asked): seen}, case_past=[])
    assert said(look, rule).answer is Answer.REMOVE
    assert said(examined(rope, REGIME, kind="before use", case_past=[]), rule).answer is Answer.SERVICEABLE
