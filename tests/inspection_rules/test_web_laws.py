"""The laws of the judgement over web slings, webbing lanyards and roundslings in every state of damage.

A damage is worse when it is larger, or warp damage nearer to the edge. A regime whose numbers decide over damage that
was read may be milder than common practice, which holds it for a competent person: so regimes are not compared here.
"""

from copy import deepcopy
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from inspection_rules.book import shipped
from inspection_rules.case import Case
from inspection_rules.judge import judge
from inspection_rules.words import Answer

from .webs import look, roundsling, web_sling, webbing_lanyard

Json = dict[str, Any]
several = settings(max_examples=60)
ITEMS = (web_sling(), webbing_lanyard(), roundsling(), web_sling(fibre="HMPE"), web_sling(duty="life support"))
SLINGS = tuple(item for item in ITEMS if item["kind"] != "lanyard")  # whose fittings have tests of their own
REGIMES = ((), ("US lifting",), ("Canada Alberta",), ("Canada Alberta", "US lifting"))
MM = {"edge_cut": 6, "warp_width": 14, "warp_edge": 25, "weft_width": 14, "weft_length": 120}
PER_CENT = {"web_abrasion_a": 20, "web_abrasion_b": 20, "warp_depth": 100}
TOGETHER = (("edge_cut",), ("web_abrasion_a", "web_abrasion_b"), ("warp_width", "warp_edge", "warp_depth"),
            ("weft_width", "weft_length"))  # fmt: skip


@st.composite
def damaged(draw: st.DrawFn) -> Json:
    """A look at one of the items, with some questions answered badly and some damages read."""
    item = draw(st.sampled_from(ITEMS))
    kind = draw(st.sampled_from(["before use", "periodic"]))
    case = look(item, kind, draw(st.sampled_from(REGIMES))).model_dump(mode="json", exclude_unset=True)
    now = case["inspection"]
    for found in now["findings"]:
        if draw(st.integers(0, 4)) == 0:
            found |= {"seen": "present", "conditions": [draw(st.sampled_from(answers(case, found)))]}
    if item.get("construction") == "webbing":
        for group in TOGETHER:
            if draw(st.booleans()):
                _read(draw, now, group)
    return case


def _read(draw: st.DrawFn, now: Json, group: tuple[str, ...]) -> None:
    count = draw(st.integers(1, 3))
    now["readings"] = [one for one in now["readings"] if one["observation"] not in group]
    for name in group:
        most, unit, method = (MM[name], "mm", "steel rule") if name in MM else (PER_CENT[name], "%", "by eye")
        values = [f"{most * draw(st.integers(0, 60)) / 60:.3f} {unit}" for _ in range(count)]
        places = [f"{draw(st.integers(0, 40))} m" for _ in range(count)] if draw(st.booleans()) else []
        now["readings"].append({"observation": name, "part": "body", "values": values, "places": places,
                                "method": method})  # fmt: skip


def answers(case: Json, found: Json) -> list[str]:
    """Every condition that can be answered there."""
    built = Case.model_validate(case)
    observation = shipped().observations[found["observation"]]
    return [condition.id for condition in observation.answers(built.item, found.get("part", ""))]


def severity(case: Json) -> int:
    """0 serviceable, 1 watch, 2 hold, 3 remove."""
    ranks = (Answer.SERVICEABLE, Answer.WATCH, Answer.HOLD, Answer.REMOVE)
    return ranks.index(judge(Case.model_validate(case), shipped()).answer)


@several
@given(damaged(), st.data())
def test_larger_damage_never_yields_a_better_answer(case: Json, data: st.DataObject) -> None:
    read = [one for one in case["inspection"]["readings"] if one["observation"] in (MM | PER_CENT)]
    if not read:
        return
    chosen = data.draw(st.sampled_from(read))
    better = deepcopy(case)
    index = data.draw(st.integers(0, len(chosen["values"]) - 1))
    number, unit = chosen["values"][index].split()
    step = data.draw(st.sampled_from([0.1, 0.5, 1.0, 3.0, 10.0]))
    worse = float(number) + (-step if chosen["observation"] == "warp_edge" else step)
    chosen["values"][index] = f"{max(worse, 0):.3f} {unit}"
    assert severity(case) >= severity(better)


@several
@given(damaged(), st.data())
def test_one_more_damage_never_yields_a_better_answer(case: Json, data: st.DataObject) -> None:
    cuts = [one for one in case["inspection"]["readings"] if one["observation"] in ("edge_cut", "web_abrasion_a")]
    if not cuts:
        return
    chosen, better = data.draw(st.sampled_from(cuts)), deepcopy(case)
    unit = chosen["values"][0].split()[1]
    chosen["values"].append(f"{data.draw(st.integers(0, 12)) / 2} {unit}")
    if chosen.get("places"):
        chosen["places"].append(f"{data.draw(st.integers(0, 40))} m")
    assert severity(case) >= severity(better)


@several
@given(damaged())
def test_not_knowing_the_places_never_yields_a_better_answer(case: Json) -> None:
    better = deepcopy(case)
    for one in case["inspection"]["readings"]:
        one.pop("places", None)
    assert severity(case) >= severity(better)


@several
@given(damaged(), st.data())
def test_naming_a_condition_never_yields_a_better_answer(case: Json, data: st.DataObject) -> None:
    found = data.draw(st.sampled_from(case["inspection"]["findings"]))
    better = deepcopy(case)
    same = next(
        one
        for one in better["inspection"]["findings"]
        if (one["observation"], one.get("part")) == (found["observation"], found.get("part"))
    )
    same.pop("conditions", None)
    same["seen"] = "absent"
    found |= {"seen": "present", "conditions": [data.draw(st.sampled_from(answers(case, found)))]}
    assert severity(case) >= severity(better)


@several
@given(damaged(), st.data())
def test_a_question_left_out_is_held_or_worse(case: Json, data: st.DataObject) -> None:
    findings = case["inspection"]["findings"]
    findings.remove(data.draw(st.sampled_from(findings)))
    assert severity(case) >= 2


@several
@given(damaged())
def test_order_of_entry_never_changes_an_answer(case: Json) -> None:
    turned = deepcopy(case)
    turned["inspection"]["readings"].reverse()
    turned["inspection"]["findings"].reverse()
    assert severity(turned) == severity(case)


@pytest.mark.parametrize("regimes", REGIMES)
@pytest.mark.parametrize("item", SLINGS, ids=lambda item: f"{item['kind']} {item['duty']} {item['fibre']}")
def test_a_sound_item_fully_examined_is_serviceable(item: Json, regimes: tuple[str, ...]) -> None:
    assert judge(look(item, "before use", regimes), shipped()).answer is Answer.SERVICEABLE
