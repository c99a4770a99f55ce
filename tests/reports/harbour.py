"""A small harbour's register on disk, its inspections judged by the shipped rules (all of it invented)."""

from collections.abc import Mapping
from datetime import UTC, datetime
from io import BytesIO
from pathlib import Path

from PIL import Image, ImageDraw

from app.photos import Photo, intake
from app.register import Register
from inspection_rules.book import shipped
from inspection_rules.events import Decision
from inspection_rules.item import Item, Part
from inspection_rules.judge import judge
from inspection_rules.record import Finding, Inspection, Person, Reading
from inspection_rules.walk import walk
from inspection_rules.words import (
    Competence,
    DecisionKind,
    InspectionKind,
    Method,
    PartKind,
    Seen,
)

EXAMINER = Person(name="yard examiner", competence=Competence.COMPETENT_PERSON)
MATE = Person(name="mate", competence=Competence.USER)


def at(day: str) -> datetime:
    return datetime.fromisoformat(f"{day}T09:00:00").replace(tzinfo=UTC)


def line(tag: str, **more: object) -> Item:
    """A twelve-strand line with a lock-stitched buried eye at end A."""
    parts = (
        Part.model_validate(
            {
                "id": "A", "kind": "termination", "end": "A", "splice": "buried eye", "lock_stitched": True,
                "marks_at": "60 mm", "required_bury": "1728 mm", "required_by": "splicing instruction 4",
            }
        ),
        Part(id="body", kind=PartKind.BODY),
    )  # fmt: skip
    head = {
        "id": f"item-{tag}", "tag": tag, "description": "bow spring", "place": "Sandpiper, fore deck", "kind": "line",
        "duty": "mooring", "fibre": "polyester", "construction": "hollow braid, twelve-strand", "diameter": "24 mm",
        "parts": parts,
    }  # fmt: skip
    return Item.model_validate({**head, **more})


def sling(tag: str, **more: object) -> Item:
    """A three-strand lifting sling with a tucked eye at either end."""
    ends = tuple(
        Part.model_validate({"id": end, "kind": "termination", "end": end, "splice": "tucked eye"}) for end in "AB"
    )
    head = {
        "id": f"item-{tag}", "tag": tag, "description": "rope sling", "place": "quay yard", "kind": "rope sling",
        "duty": "lifting", "fibre": "nylon", "construction": "laid, three-strand", "diameter": "20 mm",
        "parts": (*ends, Part(id="body", kind=PartKind.BODY)),
    }  # fmt: skip
    return Item.model_validate({**head, **more})


def photo(text: str = "cut strand") -> Photo:
    image = Image.new("RGB", (1200, 900), "#8f826a")
    draw = ImageDraw.Draw(image)
    for x in range(0, 1200, 40):
        draw.line((x, 300, x + 120, 600), "#d8c795", 18)
    draw.text((60, 60), text, "white", font_size=80)
    data = BytesIO()
    image.save(data, "JPEG", quality=85)
    return intake(data.getvalue(), "cut.jpg")


def sound(
    register: Register,
    item: Item,
    day: str,
    kind: InspectionKind,
    by: Person = EXAMINER,
    *,
    seen: Mapping[tuple[str, str], Finding] | None = None,
    values: Mapping[tuple[str, str], tuple[str, ...]] | None = None,
    photos: tuple[Photo, ...] = (),
    note: str = "",
) -> Inspection:
    """Log an inspection that answers all that is needed with the good answer, but for what is given."""
    usual = {
        "mark_offset": "0 mm", "bury": "1780 mm", "girth_worst": "75 mm", "girth_sound": "75 mm", "tucks": "5",
        "tail": "130 mm", "clear_length": "2 m",
    }  # fmt: skip
    findings: list[Finding] = []
    readings: list[Reading] = []
    for step in walk(item, kind, register.regimes(), shipped()):
        key = step.key
        if step.observation.kind == "question":
            default = Finding(observation=key[1], part=key[0], seen=Seen.ABSENT)
            findings.append((seen or {}).get(key, default))
        else:
            given = (values or {}).get(key, (usual[key[1]],) * step.observation.repeats)
            readings.append(
                Reading.model_validate(
                    {
                        "observation": key[1], "part": key[0], "values": given,
                        "method": step.observation.methods[0], "tension": "hand-taut", "moisture": "dry",
                    }
                )
            )  # fmt: skip
    one = Inspection(
        id=f"{item.id}-{day}", item=item.id, at=at(day), by=by, kind=kind,
        findings=tuple(findings), readings=tuple(readings), note=note,
    )  # fmt: skip
    register.log_inspection(one, judge(register.case(one, on=one.on), shipped()), photos)
    return one


def present(
    part: str, observation: str, condition: str, picture: Photo | None = None, note: str = ""
) -> dict[tuple[str, str], Finding]:
    found = Finding(
        observation=observation, part=part, seen=Seen.PRESENT, conditions=(condition,),
        pictures=(picture.sha256,) if picture else (), note=note,
    )  # fmt: skip
    return {(part, observation): found}


def unexamined(part: str, observation: str, reason: str) -> dict[tuple[str, str], Finding]:
    return {(part, observation): Finding(observation=observation, part=part, seen=Seen.NOT_EXAMINED, reason=reason)}


def bedded(register: Register, item: Item) -> Item:
    """Enter an item made and bedded in last year, all in order."""
    register.add_item(item, EXAMINER, at("2025-11-01"))
    sound(register, item, "2025-11-02", InspectionKind.AS_MADE)
    if item.kind.value == "line":
        sound(register, item, "2025-11-20", InspectionKind.BEDDED_IN)
    return item


def harbour(folder: Path) -> Register:
    """One sound line, one cut, one that cannot be seen, one slipped, one short tail, one condemned, one overdue."""
    register = Register.create(folder, "quay-1")
    register.set_regimes(("US lifting",))
    picture = photo()
    cut = bedded(register, line("ML-04"))
    sound(
        register, cut, "2026-10-12", InspectionKind.BEFORE_USE, MATE, photos=(picture,),
        seen=present("body", "body_surface", "cut", picture, "two yarns through, an arm's length from the fairlead"),
    )  # fmt: skip
    fine = bedded(register, line("ML-05", description="stern line"))
    sound(register, fine, "2026-10-12", InspectionKind.PERIODIC)
    unseen = bedded(register, line("ML-06", description="breast line"))
    sound(
        register, unseen, "2026-10-12", InspectionKind.BEFORE_USE, MATE,
        seen=unexamined("A", "lock_stitching", "under the chafe gear, frozen"),
    )  # fmt: skip
    moved = bedded(register, line("TP-01", description="towing pendant", duty="towing"))
    sound(
        register, moved, "2026-10-12", InspectionKind.PERIODIC, values={("A", "mark_offset"): ("11 mm", "12 mm")},
    )  # fmt: skip
    short = bedded(register, sling("RS-02"))
    sound(
        register, short, "2026-10-13", InspectionKind.PERIODIC,
        values={("A", "tail"): ("104 mm",)}, seen=present("B", "strand_tails", "drawn"),
    )  # fmt: skip
    gone = bedded(register, sling("RS-03"))
    sound(register, gone, "2026-10-13", InspectionKind.PERIODIC, seen=present("body", "body_inside", "broken"))
    register.log_decision(
        Decision(
            id="condemned-RS-03", item=gone.id, at=at("2026-10-14"), by=EXAMINER, kind=DecisionKind.CONDEMN,
            reason="Fibre broken inside at two places; nothing to splice from.",
        )
    )  # fmt: skip
    bedded(register, line("ML-07", description="spare line"))
    return register


__all__ = ["EXAMINER", "MATE", "Method", "harbour"]
