"""Cases for fittings, duties and regimes: sound items with hardware on them, judged by chosen regimes."""

from typing import Any

from inspection_rules.case import Case
from inspection_rules.judgement import Judgement, Ruling

from .building import EXAMINER, case, inspection, judged

MADE, LOOKED = "2026-01-05", "2026-02-01"


def fitting(kind: str, name: str = "F", **changed: Any) -> dict[str, Any]:
    """One fitting; a hook and what wears has its new sizes on record: 30 mm throat, 20 mm thick."""
    part = {"id": name, "kind": "fitting", "fitting": kind, "thickness": "20 mm"}
    return part | ({"throat_opening": "30 mm"} if kind == "hook" else {}) | changed


def hung(*fittings: dict[str, Any], **changed: Any) -> dict[str, Any]:
    """A polyester roundsling that these fittings hang on: nothing but them and its own body is asked about."""
    item = {
        "id": "hung", "tag": "RD-02", "kind": "roundsling", "duty": "lifting", "fibre": "polyester",
        "width": "60 mm", "thickness": "10 mm", "made": MADE, "parts": [{"id": "body", "kind": "body"}, *fittings],
    }  # fmt: skip
    return item | changed


def connector(**changed: Any) -> dict[str, Any]:
    """A connector of a climber's kit, an item of its own."""
    item = {
        "id": "connector", "tag": "CN-04", "kind": "connector", "duty": "life support", "fibre": "polyester",
        "made": MADE, "first_used": MADE, "maker_criteria": "instructions, first edition", "breaking_force": "25 kN",
        "parts": [fitting("connector")],
    }  # fmt: skip
    return item | changed


def web(**changed: Any) -> dict[str, Any]:
    """A polyester web sling with two sewn eyes."""
    eyes = [{"id": end, "kind": "termination", "end": end, "splice": "sewn eye"} for end in "AB"]
    own = {"id": "web", "tag": "WS-02", "kind": "web sling", "construction": "webbing", "thickness": "5 mm"}
    return hung(**own, parts=[eyes[0], {"id": "body", "kind": "body"}, eyes[1]]) | changed


def webbing(**changed: Any) -> dict[str, Any]:
    """A webbing lanyard of a climber's kit, its papers complete."""
    own = {"id": "webbing", "tag": "LY-02", "kind": "lanyard", "duty": "life support", "width": "30 mm",
           "thickness": "3 mm", "first_used": MADE, "maker_criteria": "instructions, first edition",
           "breaking_force": "25 kN"}  # fmt: skip
    return web() | own | changed


def mooring(kind: str = "line", **changed: Any) -> dict[str, Any]:
    """A mooring line, or its tail, of polyester with an eye tucked at each end, its papers complete."""
    eyes = [{"id": end, "kind": "termination", "end": end, "splice": "tucked eye"} for end in "AB"]
    item = {
        "id": "mooring", "tag": "ML-04", "kind": kind, "duty": "mooring", "fibre": "polyester",
        "construction": "plaited, eight-strand", "diameter": "16 mm", "made": MADE, "first_used": MADE,
        "maker_criteria": "line criteria, first edition", "breaking_force": "62 tf", "ship_design_force": "60 tf",
        "parts": [eyes[0], {"id": "body", "kind": "body"}, eyes[1]],
    }  # fmt: skip
    return item | changed


def climbing(kind: str = "line", **changed: Any) -> dict[str, Any]:
    """A three-strand climbing line or lanyard of nylon, 12.7 mm, two tucked eyes, its papers complete."""
    return mooring(kind) | {
        "id": "climbing", "tag": "CL-01", "duty": "life support", "fibre": "nylon", "diameter": "12.7 mm",
        "construction": "laid, three-strand", "breaking_force": "5400 lbf", "ship_design_force": None,
    } | changed  # fmt: skip


def examined(item: dict[str, Any], *regimes: str, on: str = LOOKED, kind: str = "periodic", **changed: Any) -> Case:
    """This item at a complete look under these regimes; what is named is for the inspection or, `case_`, the case."""
    of_case = {name.removeprefix("case_"): changed.pop(name) for name in list(changed) if name.startswith("case_")}
    by = changed.pop("by", EXAMINER)
    look = inspection(item, kind, on, by, regimes=regimes, **changed)
    past = of_case.pop("past", None)
    if past is None:
        past = [] if item["kind"] in ("roundsling", "connector") else [inspection(item, "as made", MADE)]
    return case(item, look, past, regimes=list(regimes), **of_case)


def said(built: Case, rule: str, part: str | None = None) -> Ruling:
    """The one ruling of this rule, on any part unless one is named."""
    rulings = judged(built).rulings
    (found,) = [r for r in rulings if r.rule == rule and (part is None or r.part == part)]
    return found


def rules_of(judgement: Judgement) -> set[str]:
    """The ids of all rules that spoke of the item."""
    return {ruling.rule for ruling in judgement.rulings}


def later(item: dict[str, Any], rule: str, last: str, on: str, *regimes: str) -> Ruling:
    """What an interval says before use on a day, after a complete examination on an earlier one."""
    examination = inspection(item, "periodic", last, regimes=regimes)
    return said(examined(item, *regimes, on=on, kind="before use", case_past=[], case_earlier=[examination]), rule)
