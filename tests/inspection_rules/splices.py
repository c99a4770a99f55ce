"""Items for the tests of splices: one rope with the same termination at both ends, or with a joint."""

from typing import Any

from inspection_rules.judgement import Judgement

from .building import EXAMINER, MATE, SOUND, case, inspection, judged

MADE, BEDDED, TODAY = "2026-01-05", "2026-01-19", "2026-07-01"
MARKED = ("buried eye", "tuck-and-bury eye", "double-braid eye")
THREE_FID = "three-fid tuck-and-bury"

HOLLOW = "hollow braid, twelve-strand"
MADE_IN = {
    "buried eye": HOLLOW, "tuck-and-bury eye": HOLLOW, "locked eye": HOLLOW, "end-to-end splice": HOLLOW,
    "double-braid eye": "double braid", "adjustable eye": HOLLOW, "plain end": "kernmantle",
    "tucked eye": "laid, three-strand", "tucked short splice": "laid, three-strand",
}  # fmt: skip


def spliced(splice: str, *, part: dict[str, Any] | None = None, **changed: Any) -> dict[str, Any]:
    """A line with this splice at both ends, or a grommet it joins; 24 mm, 16 mm if tucked."""
    own: dict[str, Any] = {"splice": splice, **(part or {})}
    if "bury" in splice or splice in ("buried eye", "locked eye", "end-to-end splice"):
        own = {"required_bury": "1728 mm", "required_by": "splice instruction", "lock_stitched": True} | own
    if splice == "double-braid eye":
        own = {
            "required_bury": "500 mm", "required_core_bury": "576 mm", "required_by": "splice instruction",
            "lock_stitched": True,
        } | own  # fmt: skip
    joint = splice in ("tucked short splice", "end-to-end splice")
    parts = [{"id": "J", "kind": "joint", **own}] if joint else [
        {"id": end, "kind": "termination", "end": end, **own} for end in "AB"
    ]  # fmt: skip
    construction, size = MADE_IN[splice], "16 mm" if splice.startswith("tucked") else "24 mm"
    item = {
        "id": "rope", "tag": "ML-07", "kind": "grommet" if joint else "line", "duty": "lifting", "fibre": "polyester",
        "construction": construction, "diameter": size, "parts": [*parts, {"id": "body", "kind": "body"}],
    }  # fmt: skip
    if construction in ("double braid", "kernmantle"):
        item["cover_load"] = "shared"
    return item | changed


def past(item: dict[str, Any], **made: Any) -> list[dict[str, Any]]:
    """Its as-made record, and where it has marks its bedded-in one."""
    records = [looked(item, "as made", MADE, **made)]
    if any(part.get("splice") in MARKED for part in item["parts"]):
        records.append(looked(item, "bedded in", BEDDED))
    return records


def looked(item: dict[str, Any], kind: str = "periodic", on: str = TODAY, **changed: Any) -> dict[str, Any]:
    """A complete, sound look at it, without any regime but for what is named."""
    by = MATE if kind == "before use" else EXAMINER
    return inspection(item, kind, on, by, **({"regimes": ()} | changed))


def answer(item: dict[str, Any], one: dict[str, Any], *, regimes: tuple[str, ...] = (), **made: Any) -> Judgement:
    """Judge a look at an item after its sound baselines."""
    return judged(case(item, one, past(item, **made), regimes=list(regimes)))


def where(item: dict[str, Any]) -> str:
    """The id of its first splice."""
    return next(str(part["id"]) for part in item["parts"] if part["kind"] in ("termination", "joint"))


def seen(splice: str, observation: str, condition: str, kind: str = "periodic", **changed: Any) -> Judgement:
    """Judge a look that saw this on the first splice, all else sound."""
    item = spliced(splice, **changed)
    look = looked(item, kind, seen={(where(item), observation): condition})
    keys = {(f["part"], f["observation"]) for f in look["findings"]}
    if (where(item), observation) not in keys:
        told = {"observation": observation, "part": where(item), "seen": "present", "conditions": [condition]}
        look["findings"].append(told)
    return answer(item, look)


def read(splice: str, observation: str, values: list[str], kind: str = "periodic", **changed: Any) -> Judgement:
    """Judge a look that read these values on the first splice, all else sound."""
    item = spliced(splice, **changed)
    if observation not in SOUND:
        raise KeyError(observation)
    return answer(item, looked(item, kind, readings={(where(item), observation): values}))
