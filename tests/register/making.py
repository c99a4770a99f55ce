"""Invented records of the harbour for the register's tests."""

import hashlib
import random
from datetime import UTC, date, datetime, timedelta
from typing import Any

from app.photos import Photo
from inspection_rules.events import Acceptance, Decision, Disposal, Incident, Reference, WorkDone
from inspection_rules.item import Item, Part
from inspection_rules.judgement import Judgement, PackStamp, Ruling, Source
from inspection_rules.record import Inspection, Person, Reading
from inspection_rules.words import (
    Answer,
    Competence,
    Construction,
    DecisionKind,
    Door,
    Duty,
    Fibre,
    InspectionKind,
    ItemKind,
    Mend,
    Method,
    Moisture,
    PartKind,
    SpliceKind,
    Tension,
)

MATE = Person(name="mate", competence=Competence.USER)
EXAMINER = Person(name="yard examiner", competence=Competence.COMPETENT_PERSON)
START = datetime(2050, 3, 1, 8, 0, tzinfo=UTC)


def day(number: int) -> datetime:
    """A morning that many days after the first."""
    return START + timedelta(days=number)


def on(number: int) -> date:
    """The date of that day."""
    return day(number).date()


def pendant(item_id: str = "pendant", **changes: Any) -> Item:
    """A towing pendant with a buried eye at each end."""
    values: dict[str, Any] = {
        "id": item_id,
        "tag": "SP-101",
        "description": "towing pendant",
        "place": "Sandpiper",
        "kind": ItemKind.LINE,
        "duty": Duty.TOWING,
        "fibre": Fibre.HMPE,
        "construction": Construction.HOLLOW_BRAID_12,
        "diameter": "24 mm",
        "parts": (
            Part(id="A", kind=PartKind.TERMINATION, end="A", splice=SpliceKind.BURIED_EYE, marks_at="240 mm"),
            Part(id="B", kind=PartKind.TERMINATION, end="B", splice=SpliceKind.BURIED_EYE, marks_at="240 mm"),
            Part(id="body", kind=PartKind.BODY),
        ),
    }
    return Item(**{**values, **changes})


def inspection(record_id: str, number: int = 0, **changes: Any) -> Inspection:
    """An inspection of the pendant on one day."""
    values: dict[str, Any] = {
        "id": record_id,
        "item": "pendant",
        "at": day(number),
        "utc_offset_minutes": 120,
        "by": EXAMINER,
        "kind": InspectionKind.PERIODIC,
        "readings": (
            Reading(
                observation="mark_tail",
                part="A",
                values=("240 mm", "9 1/2 in"),
                method=Method.STEEL_RULE,
                tension=Tension.HAND_TAUT,
                moisture=Moisture.DRY,
            ),
        ),
    }
    return Inspection(**{**values, **changes})


def ruling(answer: Answer, rule: str = "tail-slip", **changes: Any) -> Ruling:
    """A ruling on the splice at end A."""
    values: dict[str, Any] = {
        "rule": rule,
        "pack": "common-practice",
        "title": "The tail has moved",
        "part": "A",
        "answer": answer,
        "door": Door.REFER if answer is Answer.HOLD else None,
        "observation": "mark_tail",
        "value": "12.50",
        "unit": "mm",
        "source": Source(document="Trade practice", kind="common practice", verified="none"),
        "sentence": "The tail has slipped 12.5 mm.",
        "mends": Mend.LOOK,
    }
    return Ruling(**{**values, **changes})


def judgement(number: int = 0, *rulings: Ruling, due: int | None = 30, **changes: Any) -> Judgement:
    """A judgement of one day; due again that many days later."""
    answer = max((one.answer for one in rulings), key=lambda one: one.severity, default=Answer.SERVICEABLE)
    stopped = answer in (Answer.HOLD, Answer.REMOVE)
    again = None if due is None else on(number + due)
    values: dict[str, Any] = {
        "on": on(number),
        "answer": answer,
        "door": Door.REFER if answer is Answer.HOLD else None,
        "rulings": rulings,
        "next_due": None if stopped else again,
        "examination_due": again,
        "packs": (),
        "rules_version": "1",
    }
    return Judgement(**{**values, **changes})


def release(record_id: str, number: int, *inspections: str, rule: str = "tail-slip") -> Decision:
    """A competent person's release of holds."""
    examined = tuple(Reference(inspection=one, rule=rule, part="A") for one in inspections)
    return Decision(
        id=record_id, item="pendant", at=day(number), by=EXAMINER, kind=DecisionKind.RELEASE,
        examined=examined, reason="measured again on the laid-out tail",
    )  # fmt: skip


def condemn(record_id: str, number: int, item: str = "pendant") -> Decision:
    """A competent person's condemnation."""
    return Decision(
        id=record_id, item=item, at=day(number), by=EXAMINER, kind=DecisionKind.CONDEMN, reason="strands cut"
    )


def work(record_id: str, number: int, mends: Mend = Mend.RE_STITCH) -> WorkDone:
    """Work done on end A."""
    return WorkDone(id=record_id, item="pendant", at=day(number), by=MATE, part="A", mends=mends, what="lock stitching")


def disposal(record_id: str, number: int, picture: str) -> Disposal:
    """The pendant was cut up."""
    return Disposal(id=record_id, item="pendant", at=day(number), by=MATE, how="cut into metres", pictures=(picture,))


def photo(seed: int, size: int = 4_000) -> Photo:
    """A photograph as taken in; the register never looks inside the bytes."""
    jpeg = random.Random(seed).randbytes(size)
    return Photo(
        sha256=hashlib.sha256(jpeg).hexdigest(), original_sha256=hashlib.sha256(jpeg[::-1]).hexdigest(), jpeg=jpeg,
        thumbnail=jpeg[: max(1, size // 20)], width=2016, height=1512, taken_at="2050-03-01T08:00:00", place=None,
        source_name=f"{seed}.jpg", source_format="JPEG",
    )  # fmt: skip


def stamp(data: bytes) -> PackStamp:
    """The stamp a judgement keeps of a pack."""
    return PackStamp(id="yard", version="1", sha256=hashlib.sha256(data).hexdigest())


def may_be_accepted(**changes: Any) -> Ruling:
    """A hold that a competent person may accept for a time."""
    return ruling(Answer.HOLD, if_accepted="30 days", **changes)


def accept(record_id: str, number: int, examined: str, rule: str = "tail-slip", **changes: Any) -> Acceptance:
    """A competent person's acceptance of what an inspection held."""
    values: dict[str, Any] = {
        "id": record_id,
        "item": "pendant",
        "at": day(number),
        "by": EXAMINER,
        "examined": (Reference(inspection=examined, rule=rule, part="A"),),
        "extent": "two yarns fluffed",
        "reason": "core sound",
        "until": on(number + 90),
    }
    return Acceptance(**{**values, **changes})


def incident(record_id: str, number: int, *load_path: str, **changes: Any) -> Incident:
    """A shock that the pendant and others shared."""
    values: dict[str, Any] = {
        "id": record_id,
        "item": "pendant",
        "at": day(number),
        "by": MATE,
        "what": "the tow parted and came back",
        "load_path": load_path,
    }
    return Incident(**{**values, **changes})
