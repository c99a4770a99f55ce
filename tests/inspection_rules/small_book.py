"""A book of a few rules for one plain line, so that what eases or tightens a rule is tested apart from the packs."""

import json
import tomllib
from dataclasses import replace
from typing import Any

from inspection_rules.book import RuleBook, read_pack
from inspection_rules.case import Case
from inspection_rules.judge import judge
from inspection_rules.judgement import Judgement, Ruling
from inspection_rules.observation import Observation
from inspection_rules.rule import Criterion

MATE = {"name": "mate", "competence": "user"}
EXAMINER = {"name": "yard examiner", "competence": "competent person"}
OBSERVATIONS = """
[[observation]]
id = "surface"
station = "body"
on = "body"
kind = "question"
ask = "What is the surface like?"
good = "Even"
conditions = [{ id = "scuffed", say = "Scuffed" }, { id = "torn", say = "Torn" }, { id = "stiff", say = "Stiff" }]

[[observation]]
id = "girth_worst"
station = "body"
on = "body"
kind = "reading"
ask = "Girth at the worst place"
dimension = "length"
unit = "mm"
methods = ["girth tape"]
state = true

[[observation]]
id = "girth_sound"
station = "body"
on = "body"
kind = "reading"
ask = "Girth at a sound place"
dimension = "length"
unit = "mm"
methods = ["girth tape"]
state = true

[[observation]]
id = "event"
station = "since last time"
on = "item"
kind = "question"
ask = "Has anything happened to it?"
good = "Nothing"
conditions = [{ id = "shock", say = "A shock" }]
"""
HEAD = '[pack]\nid = "{id}"\nversion = "1"\ntitle = "{id}"\n{more}\n'
RULE = """
[[rule]]
id = "{id}"
title = "{id}"
fires = "It is {id}."
action = "Have it examined."
criterion = "{criterion}"
mends = "{mends}"
source = {{ document = "{kind}", kind = "{kind}", verified = "none" }}
{body}
"""
COVERS = 'applies = { part = ["body", "termination"] }\n' + (
    'needs = { inspection = ["before use", "periodic"], observations = ["surface"], covers = true }'
)
SURFACE = 'condition = {{ observation = "surface", when = {when}, outcome = "{outcome}" }}'
LINE: dict[str, Any] = {
    "id": "line", "tag": "ML-04", "kind": "line", "duty": "mooring", "fibre": "polyester", "diameter": "24 mm",
    "construction": "plaited, eight-strand", "made": "2045-03-01",
    "parts": [
        {"id": "A", "kind": "termination", "end": "A", "splice": "plain end"},
        {"id": "body", "kind": "body"},
        {"id": "B", "kind": "termination", "end": "B", "splice": "plain end"},
    ],
}  # fmt: skip


def rule(
    name: str, body: str, mends: str = "a competent look", criterion: str = "", kind: str = "common practice"
) -> str:
    """One rule as it stands in a pack."""
    return RULE.format(id=name, body=body, mends=mends, criterion=criterion, kind=kind)


def surface(when: str, outcome: str) -> str:
    """The body of a rule on what was seen of the surface."""
    return SURFACE.format(when=json.dumps(when.split()), outcome=outcome)


def pack_text(*rules: str, name: str = "common-practice", more: str = "") -> str:
    """A pack's file."""
    return HEAD.format(id=name, more=more) + "".join(rules)


def book(*rules: str, criteria: tuple[Criterion, ...] = ()) -> RuleBook:
    """A book with one pack that always counts: the line is covered, and these rules hold."""
    parsed = [Observation.model_validate(one) for one in tomllib.loads(OBSERVATIONS)["observation"]]
    empty = RuleBook({one.id: one for one in parsed}, (), {one.id: one for one in criteria})
    return with_rules(empty, pack_text(rule("covered", COVERS), *rules))


def with_rules(known: RuleBook, text: str) -> RuleBook:
    """The book with one more pack, as it would be shipped."""
    pack = read_pack(text.encode(), "pack.toml", known.observations, known.criteria)
    return replace(known, packs=(*known.packs, pack))


def look(
    day: str, *conditions: str, by: dict[str, str] = MATE, kind: str = "before use", **more: Any
) -> dict[str, Any]:
    """One look at the surface of the line: even, or these conditions; `more` is of the finding."""
    seen = {"seen": "present", "conditions": list(conditions)} if conditions else {"seen": "absent"}
    return {
        "id": f"look {day}", "item": "line", "kind": kind, "at": f"{day}T08:00:00Z", "by": by, "readings": [],
        "findings": [{"observation": "surface", "part": "body", **seen, **more}],
    }  # fmt: skip


def accepted(day: str, examined: dict[str, Any], *rules: str, until: str = "2050-12-31", **more: Any) -> dict[str, Any]:
    """A competent person's acceptance of what these rules held at a look."""
    return {
        "id": f"accepted {day}", "item": "line", "at": f"{day}T12:00:00Z", "by": EXAMINER, "until": until,
        "examined": [{"inspection": examined["id"], "rule": name, "part": "body"} for name in rules],
        "extent": "a palm's breadth at 3 m", "reason": "yarns whole underneath",
    } | more  # fmt: skip


def judged(known: RuleBook, now: dict[str, Any], *past: dict[str, Any], **more: Any) -> Judgement:
    """Judge a look at the line on its day."""
    raw = {"on": now["at"][:10], "item": LINE, "inspection": now, "earlier": list(past)} | more
    return judge(Case.model_validate_json(json.dumps(raw), strict=True), known)


def ruling(judgement: Judgement, name: str) -> Ruling:
    """The one ruling of a rule."""
    (found,) = [one for one in judgement.rulings if one.rule == name]
    return found
