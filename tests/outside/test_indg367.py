"""HSE INDG367, inspecting fall-arrest equipment of webbing or rope.

Six months, the defect list: as restated in a training text (secondary). Three months in arduous work, withdrawal of
what is unlabelled or was in a fall: from memory.
"""

import pytest

from inspection_rules.case import Case
from inspection_rules.words import Answer

from ..inspection_rules.building import judged
from ..inspection_rules.fittings import climbing, examined, fitting, later, rules_of, said, webbing


@pytest.mark.criterion("due-date")
@pytest.mark.parametrize(
    ("on", "answer"), [("2026-02-28", Answer.SERVICEABLE), ("2026-03-01", Answer.HOLD)], ids=["last day", "day after"]
)
def test_a_lanyard_without_a_detailed_inspection_in_six_months_is_withdrawn(on, answer):
    """From 31 August the six months end on the last day of February."""
    lanyard = climbing("lanyard", made="2025-01-05")
    assert later(lanyard, "uk-fall-detailed", "2025-08-31", on, "UK").answer is answer


@pytest.mark.criterion("due-date")
@pytest.mark.parametrize(("on", "answer"), [("2026-05-01", Answer.SERVICEABLE), ("2026-05-02", Answer.HOLD)])
def test_in_arduous_work_it_is_three_months(on, answer):
    """From memory."""
    lanyard = climbing("lanyard", service="severe")
    assert later(lanyard, "uk-fall-detailed-arduous", "2026-02-01", on, "UK").answer is answer


def test_three_months_are_asked_of_arduous_work_only():
    assert "uk-fall-detailed-arduous" not in rules_of(judged(examined(climbing("lanyard"), "UK")))


@pytest.mark.criterion("tag-illegible")
@pytest.mark.parametrize("seen", ["unreadable", "other_item"])
def test_what_is_not_identified_is_withdrawn(seen):
    """From memory."""
    look = examined(climbing("lanyard"), "UK", kind="before use", seen={("", "tag"): seen})
    assert said(look, "uk-fall-unlabelled").answer is Answer.REMOVE
    assert said(examined(climbing("lanyard"), "UK", kind="before use"), "uk-fall-unlabelled").answer is (
        Answer.SERVICEABLE
    )


@pytest.mark.criterion("fall-arrest")
def test_an_absorber_that_has_opened_in_part_is_withdrawn():
    lanyard = climbing("lanyard")
    lanyard["parts"].append(fitting("energy absorber"))
    opened = examined(lanyard, "UK", seen={("F", "fitting"): "deployed"})
    assert said(opened, "uk-fall-absorber").answer is Answer.REMOVE
    assert said(examined(lanyard, "UK"), "uk-fall-absorber").answer is Answer.SERVICEABLE


def edge_cut(length: str, **study: str) -> Case:
    raw = examined(webbing(), "UK", case_past=[]).model_dump(mode="json", exclude_unset=True)
    reading = {"observation": "edge_cut", "part": "body", "values": [length], "method": "steel rule"}
    raw["inspection"].setdefault("readings", []).append(reading | study)
    return Case.model_validate(raw)


@pytest.mark.criterion("web-edge-cut-fall-arrest")
@pytest.mark.parametrize(
    ("length", "answer"),
    [("0.7 mm", Answer.SERVICEABLE), ("1 mm", Answer.REMOVE), ("1.1 mm", Answer.REMOVE)],
)
def test_an_edge_cut_of_1_mm_or_more_withdraws_a_webbing_lanyard(length, answer):
    """With a study so good that only the number decides."""
    read = edge_cut(length, u="0.001 mm", u_study="test of the bare number")
    assert said(read, "uk-lanyard-edge-cut").answer is answer


@pytest.mark.criterion("web-edge-cut-fall-arrest")
def test_an_edge_cut_read_as_shorter_with_a_steel_rule_is_doubt():
    assert said(edge_cut("0.5 mm"), "uk-lanyard-edge-cut").answer is Answer.HOLD


@pytest.mark.criterion("web-edge-cut-fall-arrest")
def test_no_makers_instruction_makes_an_edge_cut_of_a_lanyard_milder():
    raw = edge_cut("2 mm").model_dump(mode="json", exclude_unset=True)
    told = {"rules": ["uk-lanyard-edge-cut"], "document": "instructions, first edition, page 3", "reason": "says so"}
    raw["item"]["instructions"] = [told]
    assert said(Case.model_validate(raw), "uk-lanyard-edge-cut").answer is Answer.REMOVE


DEFECTS = [
    ("stitching", "A", "worn", "uk-fall-stitches"),
    ("stitching", "A", "broken", "uk-fall-stitches"),
    ("web_hurt", "body", "glazed", "uk-fall-webbing-hurt"),
    ("web_hurt", "body", "flaking", "uk-fall-webbing-hurt"),
    ("web_hurt", "body", "knot", "uk-fall-webbing-hurt"),
]


@pytest.mark.criterion("load-bearing-stitches")
@pytest.mark.criterion("heat-damage")
@pytest.mark.parametrize(("asked", "part", "seen", "rule"), DEFECTS)
def test_a_defect_of_the_list_withdraws_a_webbing_lanyard(asked, part, seen, rule):
    look = examined(webbing(), "UK", seen={(part, asked): seen}, case_past=[])
    assert said(look, rule, part).answer is Answer.REMOVE
    assert said(examined(webbing(), "UK", case_past=[]), rule, part).answer is Answer.SERVICEABLE


@pytest.mark.criterion("heat-damage")
@pytest.mark.parametrize("seen", ["hard", "knot", "hole", "burnt"])
def test_before_use_too(seen):
    look = examined(webbing(), "UK", kind="before use", seen={("body", "webbing"): seen}, case_past=[])
    assert said(look, "uk-fall-webbing").answer is Answer.REMOVE


def kernmantle() -> dict[str, object]:
    ends = [{"id": end, "kind": "termination", "end": end, "splice": "sewn eye"} for end in "AB"]
    parts = [ends[0], {"id": "body", "kind": "body"}, ends[1]]
    return climbing(construction="kernmantle", cover_load="shared", parts=parts)


@pytest.mark.criterion("cut-fibres")
@pytest.mark.criterion("distortion")
@pytest.mark.parametrize(
    ("asked", "seen", "rule"),
    [
        ("cover", "core_seen", "uk-fall-sheath"), ("cover", "melted", "uk-fall-sheath-melted"),
        ("core_feel", "flat", "uk-fall-core"), ("core_feel", "necked", "uk-fall-core"),
    ],
)  # fmt: skip
def test_a_damaged_sheath_or_core_withdraws_a_rope(asked, seen, rule):
    look = examined(kernmantle(), "UK", kind="before use", seen={("body", asked): seen}, case_past=[])
    assert said(look, rule).answer is Answer.REMOVE
    assert said(examined(kernmantle(), "UK", kind="before use", case_past=[]), rule).answer is Answer.SERVICEABLE


@pytest.mark.criterion("fibre-inside")
@pytest.mark.parametrize("seen", ["powder", "broken"])
def test_internal_damage_withdraws_a_laid_rope(seen):
    look = examined(climbing(), "UK", seen={("body", "body_inside"): seen})
    assert said(look, "uk-fall-inside").answer is Answer.REMOVE
    assert said(examined(climbing(), "UK"), "uk-fall-inside").answer is Answer.SERVICEABLE


@pytest.mark.criterion("fall-arrest")
def test_after_a_fall_it_is_withdrawn():
    """From memory."""
    look = examined(webbing(), "UK", kind="before use", seen={("", "shock"): "fall"}, case_past=[])
    calm = examined(webbing(), "UK", kind="before use", case_past=[])
    assert said(look, "uk-fall-after-fall").answer is Answer.REMOVE
    assert said(calm, "uk-fall-after-fall").answer is Answer.SERVICEABLE
