"""Two slings of the invented harbour, with their baselines, in a real register."""

from datetime import UTC, datetime, timedelta
from pathlib import Path

from app.register import Register, new_id
from inspection_rules.book import shipped
from inspection_rules.item import Item
from inspection_rules.judge import judge
from inspection_rules.record import Finding, Inspection, Person, Reading
from inspection_rules.walk import walk
from inspection_rules.words import InspectionKind, Seen

# A pack of the harbour itself, which tightens and loosens nothing.
SITE = """
[pack]
id = "harbour"
version = "1"
title = "Harbour rules"
regime = "Harbour"

[[rule]]
id = "harbour-effective-diameter"
title = "Effective diameter, this harbour"
action = "Do not use it; have a competent person examine the worst place."
source = { document = "Harbour rules", kind = "site", verified = "none" }
mends = "a competent look"
limit = { measure = "effective_diameter_loss", at_most = "8 %", outcome = "hold" }
"""
NOW = datetime(2050, 10, 12, 9, 30, tzinfo=UTC)
MATE = Person(name="mate", competence="user")
EXAMINER = Person(name="yard examiner", competence="competent person")

BURIED = Item.model_validate(
    {
        "id": "rs-01",
        "tag": "RS-01",
        "description": "quay lifting sling",
        "place": "quay yard",
        "kind": "rope sling",
        "duty": "lifting",
        "fibre": "HMPE",
        "construction": "hollow braid, twelve-strand",
        "diameter": "24 mm",
        "length": "6 m",
        "made": "2050-01-10",
        "parts": [
            {
                "id": end,
                "kind": "termination",
                "end": end,
                "splice": "buried eye",
                "lock_stitched": True,
                "required_bury": "1728 mm",
                "required_by": "the splice's own instruction",
                "marks_at": "48 mm",
            }
            for end in "AB"
        ]
        + [{"id": "body", "kind": "body"}],
    }
)
TUCKED = Item.model_validate(
    {
        "id": "rs-02",
        "tag": "RS-02",
        "description": "gangway sling",
        "place": "Sandpiper",
        "kind": "rope sling",
        "duty": "lifting",
        "fibre": "polyester",
        "construction": "laid, three-strand",
        "diameter": "20 mm",
        "made": "2050-02-01",
        "parts": [{"id": end, "kind": "termination", "end": end, "splice": "tucked eye"} for end in "AB"]
        + [{"id": "body", "kind": "body"}],
    }
)
READINGS = {
    "mark_offset": ["0 mm"],
    "mark_tail": ["48 mm"],
    "mark_standing": ["48 mm"],
    "bury": ["1790 mm"],
    "girth_worst": ["75 mm"],
    "girth_sound": ["75 mm"],
    "tip_step": ["1780 mm"],
    "eye_length": ["400 mm"],
    "tucks": ["4"],
    "tail": ["150 mm"],
    "clear_length": ["3 m"],
    "eye_perimeter": ["800 mm"],
}


def sound(item: Item, kind: InspectionKind, at: datetime, by: Person = EXAMINER) -> Inspection:
    """An inspection in which everything that is needed was looked at and found good."""
    steps = walk(item, kind, (), shipped())
    findings = [
        Finding(part=s.part, observation=s.observation.id, seen=Seen.ABSENT)
        for s in steps
        if s.observation.kind == "question"
    ]
    readings = [
        Reading(
            part=s.part,
            observation=s.observation.id,
            values=(READINGS[s.observation.id] * s.observation.repeats)[: s.observation.repeats],
            method=s.observation.methods[0],
            tension="hand-taut",
            moisture="dry",
        )
        for s in steps
        if s.observation.kind == "reading"
    ]
    return Inspection(id=new_id(), item=item.id, at=at, by=by, kind=kind, findings=findings, readings=readings)


def harbour(folder: Path) -> Register:
    """Make the register: both slings made, bedded in and examined, the last time a month ago."""
    register = Register.create(folder, "test device")
    for item in (BURIED, TUCKED):
        register.add_item(item, EXAMINER, NOW - timedelta(days=200))
        for kind, days in (
            (InspectionKind.AS_MADE, 190),
            (InspectionKind.BEDDED_IN, 170),
            (InspectionKind.PERIODIC, 30),
        ):
            if not walk(item, kind, (), shipped()):  # a tucked eye does not bed in
                continue
            inspection = sound(item, kind, NOW - timedelta(days=days))
            register.log_inspection(inspection, judge(register.case(inspection, on=inspection.on), shipped()))
    return register
