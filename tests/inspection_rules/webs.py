"""Web slings, roundslings and lanyards of the invented quay yard, and looks at them, sound but for what is named."""

import json
from typing import Any

from inspection_rules.book import shipped
from inspection_rules.case import Case
from inspection_rules.item import Item
from inspection_rules.walk import walk

from .building import EXAMINER, SOUND

Json = dict[str, Any]
TODAY, FOUND = "2026-07-01", "2026-03-02"
BODY: Json = {"id": "body", "kind": "body"}
FINE = {"u": "0.001 mm", "u_study": "test of the bare number"}


def sewn_eyes(**changed: Any) -> list[Json]:
    """A sewn eye at each end."""
    return [{"id": end, "kind": "termination", "end": end, "splice": "sewn eye", **changed} for end in "AB"]


def web_sling(**changed: Any) -> Json:
    """A two-eye web sling of polyester, 50 mm wide and 5 mm thick."""
    a, b = sewn_eyes()
    item: Json = {
        "id": "web", "tag": "WS-04", "kind": "web sling", "duty": "lifting", "fibre": "polyester",
        "construction": "webbing", "width": "50 mm", "thickness": "5 mm", "length": "4 m", "parts": [a, BODY, b],
    }  # fmt: skip
    return item | changed


def webbing_lanyard(**changed: Any) -> Json:
    """A climber's lanyard of webbing, 25 mm wide and 3 mm thick."""
    return web_sling(
        id="lanyard", tag="LY-02", kind="lanyard", duty="life support", width="25 mm", thickness="3 mm", **changed
    )


def sewn_line(**changed: Any) -> Json:
    """A rigging line of double braid with two sewn eyes."""
    a, b = sewn_eyes()
    item: Json = {
        "id": "sewn", "tag": "TR-07", "kind": "line", "duty": "tree rigging", "fibre": "polyester",
        "construction": "double braid", "cover_load": "shared", "diameter": "14 mm", "parts": [a, BODY, b],
    }  # fmt: skip
    return item | changed


def roundsling(**changed: Any) -> Json:
    """An endless roundsling of polyester."""
    item: Json = {
        "id": "round", "tag": "RD-01", "kind": "roundsling", "duty": "lifting", "fibre": "polyester",
        "length": "2 m", "parts": [BODY],
    }  # fmt: skip
    return item | changed


def look(
    item: Json,
    kind: str = "periodic",
    regimes: tuple[str, ...] = (),
    *,
    seen: dict[tuple[str, str], str] | None = None,
    readings: dict[tuple[str, str], Any] | None = None,
    without: tuple[tuple[str, str], ...] = (),
    **changed: Any,
) -> Case:
    """A case: found sound in March, looked at today with what is named seen and read.

    Args:
        seen: condition by part and observation.
        readings: values, or a whole reading, by part and observation.
        without: what was not answered.
    """
    now = _inspection(item, kind, TODAY, regimes, seen or {}, readings or {}, without)
    found = _inspection(item, "as found", FOUND, regimes, {}, {}, ())
    raw = {"on": TODAY, "item": item, "inspection": now, "baselines": [found], "regimes": list(regimes)}
    return Case.model_validate_json(json.dumps(raw | changed), strict=True)


def _inspection(
    item: Json,
    kind: str,
    on: str,
    regimes: tuple[str, ...],
    seen: dict[tuple[str, str], str],
    readings: dict[tuple[str, str], Any],
    without: tuple[tuple[str, str], ...],
) -> Json:
    book = shipped()
    needed = [s.key for s in walk(Item.model_validate(item), kind, regimes, book)]  # type: ignore[arg-type]
    one: Json = {
        "id": f"{kind} {on}", "item": item["id"], "kind": kind, "at": f"{on}T08:00:00Z", "by": EXAMINER,
        "readings": [], "findings": [],
    }  # fmt: skip
    for part, name in dict.fromkeys((*needed, *seen, *readings)):
        observation = book.observations[name]
        head = {"observation": name, "part": part}
        if (part, name) in without:
            continue
        if observation.kind == "reading":
            given = readings.get((part, name), ["0 %"] if observation.dimension == "fraction" else SOUND.get(name))
            given = given if isinstance(given, dict) else {"values": given}
            how = {"method": observation.methods[0], "tension": "hand-taut", "moisture": "dry"}
            one["readings"].append({**head, **how, **given})
        elif (part, name) in seen:
            one["findings"].append({**head, "seen": "present", "conditions": [seen[part, name]]})
        else:
            one["findings"].append({**head, "seen": "absent"})
    return one
