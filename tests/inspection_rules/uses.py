"""Uses for the tests: plain slings without an inspection worth the name, since only what is said of the use counts."""

import json
from typing import Any

from inspection_rules.book import shipped
from inspection_rules.case import Case
from inspection_rules.judge import judge
from inspection_rules.judgement import Judgement, Ruling
from inspection_rules.words import Answer, Door

MATE = {"name": "mate", "competence": "user"}


def rope_sling(**changed: Any) -> dict[str, Any]:
    """A three-strand polyester sling with two tucked eyes; its tag says 20 kN."""
    eyes = [{"id": end, "kind": "termination", "end": end, "splice": "tucked eye"} for end in "AB"]
    item = {
        "id": "sling", "tag": "RS-11", "kind": "rope sling", "duty": "lifting", "fibre": "polyester",
        "construction": "laid, three-strand", "diameter": "24 mm", "working_load_limit": "20 kN",
        "parts": [*eyes, {"id": "body", "kind": "body"}],
    }  # fmt: skip
    return item | changed


def braided_sling(**changed: Any) -> dict[str, Any]:
    """A twelve-strand HMPE sling with two buried eyes; its tag says 20 kN."""
    eyes = [{"id": end, "kind": "termination", "end": end, "splice": "buried eye"} for end in "AB"]
    braid = {"fibre": "HMPE", "construction": "hollow braid, twelve-strand"}
    return rope_sling(**braid, parts=[*eyes, {"id": "body", "kind": "body"}]) | changed


def web_sling(**changed: Any) -> dict[str, Any]:
    """A polyester web sling with two sewn eyes; its tag says 20 kN."""
    eyes = [{"id": end, "kind": "termination", "end": end, "splice": "sewn eye"} for end in "AB"]
    item = {
        "id": "web", "tag": "WS-02", "kind": "web sling", "duty": "lifting", "fibre": "polyester",
        "construction": "webbing", "width": "60 mm", "thickness": "6 mm", "working_load_limit": "20 kN",
        "parts": [*eyes, {"id": "body", "kind": "body"}],
    }  # fmt: skip
    return item | changed


def roundsling(**changed: Any) -> dict[str, Any]:
    """A polyester roundsling; its tag says 20 kN."""
    item = {
        "id": "round", "tag": "RO-01", "kind": "roundsling", "duty": "lifting", "fibre": "polyester",
        "working_load_limit": "20 kN", "parts": [{"id": "body", "kind": "body"}],
    }  # fmt: skip
    return item | changed


def climbing_line(**changed: Any) -> dict[str, Any]:
    """A climbing line with one sewn eye and a plain end."""
    ends = [
        {"id": "A", "kind": "termination", "end": "A", "splice": "sewn eye"},
        {"id": "B", "kind": "termination", "end": "B", "splice": "plain end"},
    ]
    item = {
        "id": "line", "tag": "CL-01", "kind": "line", "duty": "life support", "fibre": "polyester",
        "construction": "double braid", "diameter": "12 mm", "parts": [*ends, {"id": "body", "kind": "body"}],
    }  # fmt: skip
    return item | changed


def judged(item: dict[str, Any], use: dict[str, Any] | None, *regimes: str) -> Judgement:
    """Judge a use of the item under these regimes and common practice."""
    look = {"id": "look", "item": item["id"], "kind": "before use", "at": "2026-07-01T08:00:00Z", "by": MATE}
    raw = {"on": "2026-07-01", "item": item, "inspection": look, "regimes": list(regimes), "use": use}
    return judge(Case.model_validate_json(json.dumps(raw), strict=True), shipped())


def rulings(item: dict[str, Any], use: dict[str, Any], *regimes: str) -> dict[str, Ruling]:
    """Every ruling on the use, by its rule; of rules that speak of both ends, the one on end B."""
    judgement = judged(item, use, *regimes)
    return {one.rule: one for one in (*judgement.for_this_use, *judgement.not_for_this_use)}


def stops(item: dict[str, Any], use: dict[str, Any], *regimes: str) -> set[str]:
    """The rules by which it is not for this use."""
    return {one.rule for one in judged(item, use, *regimes).not_for_this_use}


def outcome(ruling: Ruling) -> str:
    """`for it`, `too near` (look again) or `not for it` (refer)."""
    if ruling.answer is Answer.SERVICEABLE:
        return "for it"
    return "too near" if ruling.door is Door.LOOK_AGAIN else "not for it"
