"""Items whose bodies the tests look at: of every construction, sound but for what is named."""

from typing import Any

from inspection_rules.judgement import Judgement

from .building import buried_sling, case, inspection, judged, laid_sling

TODAY = "2026-07-01"
BODY = "body"
NO_REGIME: dict[str, Any] = {"regimes": []}


def climbing_line(**changed: Any) -> dict[str, Any]:
    """A kernmantle climbing line, 12 mm, cut and sealed at both ends; its cover and core share the load."""
    ends = [{"id": end, "kind": "termination", "end": end, "splice": "plain end"} for end in "AB"]
    item = {
        "id": "climbing", "tag": "CL-01", "kind": "line", "duty": "life support", "fibre": "polyester",
        "construction": "kernmantle", "diameter": "12 mm", "cover_load": "shared", "strands": 32,
        "made": "2025-11-01", "first_used": "2026-01-05", "maker_criteria": "user's sheet, edition 3",
        "parts": [ends[0], {"id": BODY, "kind": "body"}, ends[1]],
    }  # fmt: skip
    return item | changed


def covered_sling(**changed: Any) -> dict[str, Any]:
    """A rope sling for lifting with a cover over a parallel core."""
    sling = climbing_line(kind="rope sling", duty="lifting", construction="parallel core")
    for part in sling["parts"]:
        if part["kind"] == "termination":
            part["splice"] = "sewn eye"
    return sling | changed


def natural_sling(**changed: Any) -> dict[str, Any]:
    """A three-strand sling of manila."""
    return laid_sling(fibre="manila") | changed


def soft_shackle(**changed: Any) -> dict[str, Any]:
    """A soft shackle of twelve-strand HMPE."""
    item = {
        "id": "shackle", "tag": "SS-01", "kind": "soft shackle", "duty": "tree rigging", "fibre": "HMPE",
        "construction": "hollow braid, twelve-strand", "diameter": "10 mm", "parts": [{"id": BODY, "kind": "body"}],
    }  # fmt: skip
    return item | changed


def held_for_years(**changed: Any) -> dict[str, Any]:
    """A mooring line of HMPE that is never slacked, with gauge marks 2 m apart."""
    return buried_sling(kind="line", duty="mooring", continuous=True) | changed


def looked_at(
    item: dict[str, Any], condition: dict[tuple[str, str], str] | None = None, kind: str = "periodic", **changed: Any
) -> Judgement:
    """The judgement of a full look at this item in which only these conditions were seen."""
    regimes = changed.pop("regimes", ["US lifting"])
    past = changed.pop("past", None)
    earlier = changed.pop("earlier", [])
    one = inspection(item, kind, TODAY, seen=condition or {}, **changed)
    return judged(case(item, one, past, regimes=regimes, earlier=earlier))


def read_on_body(
    item: dict[str, Any], values: dict[str, list[str]], places: dict[str, list[str]] | None = None, **changed: Any
) -> Judgement:
    """The judgement of a sound periodic look that also read these on the body, in place of what it needs of them."""
    regimes = changed.pop("regimes", [])
    seen = changed.pop("seen", {})
    past = changed.pop("past", None)
    one = inspection(item, "periodic", TODAY, seen=seen)
    one["readings"] = [r for r in one["readings"] if not (r["part"] == BODY and r["observation"] in values)]
    for name, read in values.items():
        how = {"method": METHODS.get(name, "counted"), "tension": "hand-taut", "moisture": "dry"}
        entry = {"observation": name, "part": BODY, "values": read, **how, **changed.get(name, {})}
        if places and name in places:
            entry["places"] = places[name]
        one["readings"].append(entry)
    return judged(case(item, one, past, regimes=regimes))


METHODS = {
    "girth_worst": "girth tape", "girth_sound": "girth tape", "caliper_widest": "caliper",
    "caliper_narrowest": "caliper", "fibre_strand": "by eye", "fibre_rope": "by eye", "gauge_length": "tape",
}  # fmt: skip


def said(judgement: Judgement, rule: str) -> Any:
    """The one ruling of this rule on the body; None where it says nothing."""
    found = [one for one in judgement.rulings if one.rule == rule and one.part in (BODY, "")]
    return found[0] if found else None
