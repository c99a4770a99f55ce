"""Cases for the tests: a sound item and a full inspection of it, changed one thing at a time."""

import json
from typing import Any

from inspection_rules.book import shipped
from inspection_rules.case import Case
from inspection_rules.item import Item
from inspection_rules.judge import judge
from inspection_rules.judgement import Judgement, Ruling
from inspection_rules.walk import walk

EXAMINER = {"name": "yard examiner", "competence": "competent person"}
MATE = {"name": "mate", "competence": "user"}
YARD_HAND = {"name": "yard hand", "competence": "competent person"}
LIFTING = ("US lifting",)

SOUND = {
    "mark_offset": ["0 mm", "0 mm"],
    "bury": ["1776 mm"],
    "tucks": ["5"],
    "tail": ["110 mm"],
    "core_bury": ["600 mm"],
    "other_bury": ["1776 mm"],
    "tucks_one_side": ["5"],
    "tucks_other_side": ["5"],
    "extra_tucks": ["2"],
    "free_tail": ["400 mm"],
    "clear_length": ["3000 mm"],
    "laid_out": ["1866.9 mm"],
    "strands_ended": ["6"],
    "passes": ["2"],
    "pairs_beside": ["3"],
    "picks_between": ["4"],
    "girth_worst": ["74 mm", "74 mm", "74 mm"],
    "girth_sound": ["75 mm", "75 mm", "75 mm"],
    "gauge_length": ["2000 mm", "2000 mm"],
    "hook_throat": ["30 mm", "30 mm"],
    "fitting_thickness": ["20 mm", "20 mm"],
}


def buried_sling(**changed: Any) -> dict[str, Any]:
    """A two-eye sling of twelve-strand HMPE, 24 mm, lock-stitched, 1728 mm of bury asked for."""
    eyes = [
        {
            "id": end, "kind": "termination", "end": end, "splice": "buried eye", "lock_stitched": True,
            "required_bury": "1728 mm", "required_by": "splice instruction", "marks_at": "48 mm",
        }
        for end in "AB"
    ]  # fmt: skip
    item = {
        "id": "sling", "tag": "RS-03", "kind": "rope sling", "duty": "lifting", "fibre": "HMPE",
        "construction": "hollow braid, twelve-strand", "diameter": "24 mm",
        "parts": [eyes[0], {"id": "body", "kind": "body"}, eyes[1]],
    }  # fmt: skip
    return item | changed


def laid_sling(**changed: Any) -> dict[str, Any]:
    """A three-strand polyester sling, 16 mm, with two tucked eyes."""
    eyes = [{"id": end, "kind": "termination", "end": end, "splice": "tucked eye"} for end in "AB"]
    item = {
        "id": "laid", "tag": "RS-11", "kind": "rope sling", "duty": "lifting", "fibre": "polyester",
        "construction": "laid, three-strand", "diameter": "16 mm",
        "parts": [eyes[0], {"id": "body", "kind": "body"}, eyes[1]],
    }  # fmt: skip
    return item | changed


def inspection(
    item: dict[str, Any],
    kind: str,
    on: str,
    by: dict[str, str] = EXAMINER,
    *,
    readings: dict[tuple[str, str], list[str]] | None = None,
    seen: dict[tuple[str, str], str] | None = None,
    without: tuple[tuple[str, str], ...] = (),
    regimes: tuple[str, ...] = LIFTING,
    **changed: Any,
) -> dict[str, Any]:
    """Everything the rules need for this kind of inspection, sound but for what is named."""
    readings, seen = readings or {}, seen or {}
    one: dict[str, Any] = {
        "id": f"{kind} {on}", "item": item["id"], "kind": kind, "at": f"{on}T08:00:00Z", "by": by,
        "readings": [], "findings": [],
    }  # fmt: skip
    for step in walk(Item.model_validate(item), kind, regimes, shipped()):  # type: ignore[arg-type]
        observation = step.observation
        if step.key in without:
            continue
        head = {"observation": observation.id, "part": step.part}
        if observation.kind == "reading":
            values = readings.get(step.key, SOUND[observation.id])
            how = {"method": observation.methods[0], "tension": "hand-taut", "moisture": "dry"}
            one["readings"].append({**head, "values": values, **how})
        elif step.key in seen:
            one["findings"].append({**head, "seen": "present", "conditions": [seen[step.key]]})
        else:
            one["findings"].append({**head, "seen": "absent"})
    return one | changed


def baselines(item: dict[str, Any], **as_made: Any) -> list[dict[str, Any]]:
    """As made on 5 January 2026 and, for buried eyes, bedded in on the 19th."""
    made = inspection(item, "as made", "2026-01-05", **as_made)
    if item["parts"][0].get("splice") != "buried eye":
        return [made]
    return [made, inspection(item, "bedded in", "2026-01-19")]


def case(item: dict[str, Any], one: dict[str, Any], past: list[dict[str, Any]] | None = None, **changed: Any) -> Case:
    """A case judged on the day of the inspection, under the US lifting regime unless told otherwise."""
    raw = {
        "on": one["at"][:10], "item": item, "inspection": one, "regimes": list(LIFTING),
        "baselines": baselines(item) if past is None else past,
    }  # fmt: skip
    return Case.model_validate_json(json.dumps(raw | changed), strict=True)


def judged(built: Case) -> Judgement:
    """Judge by the shipped packs."""
    return judge(built, shipped())


def ruling(judgement: Judgement, rule: str, part: str = "A") -> Ruling:
    """The one ruling of this rule on this part."""
    (found,) = [r for r in judgement.rulings if (r.rule, r.part) == (rule, part)]
    return found
