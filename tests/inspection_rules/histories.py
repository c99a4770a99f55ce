"""Whole histories of one towing pendant, as records: looks with what was said of them, work, decisions."""

from datetime import UTC, date, datetime, timedelta
from typing import Any

from inspection_rules.events import Decision, Reference, WorkDone
from inspection_rules.item import Item, Part
from inspection_rules.judgement import Judgement, Ruling, Source
from inspection_rules.record import Finding, Inspection, Person, Reading
from inspection_rules.standing import ItemRecord, Judged, Standing, standing
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
    PartKind,
    Scope,
    Seen,
    SpliceKind,
    worst,
)

MATE = Person(name="mate", competence=Competence.USER)
EXAMINER = Person(name="yard examiner", competence=Competence.COMPETENT_PERSON)
PICTURE = "0" * 64
FIRST = datetime(2050, 3, 1, 8, 0, tzinfo=UTC)
PENDANT = Item(
    id="pendant",
    tag="SP-09",
    kind=ItemKind.LINE,
    duty=Duty.TOWING,
    fibre=Fibre.HMPE,
    construction=Construction.HOLLOW_BRAID_12,
    diameter="24 mm",  # type: ignore[arg-type]
    parts=(
        Part(id="A", kind=PartKind.TERMINATION, end="A", splice=SpliceKind.BURIED_EYE),
        Part(id="body", kind=PartKind.BODY),
    ),
)


def at(day: float) -> datetime:
    return FIRST + timedelta(days=day)


def on(day: float) -> date:
    return at(day).date()


def ruling(rule: str, answer: Answer, **changed: Any) -> Ruling:
    values = {
        "rule": rule,
        "pack": "common-practice",
        "title": rule,
        "part": "A",
        "answer": answer,
        "source": Source(document="Common practice", kind="common practice", verified="none"),
        "sentence": f"{rule} says {answer}.",
    }
    return Ruling(**{**values, **changed})


def refer(rule: str = "eye-chafed", **changed: Any) -> Ruling:
    return ruling(
        rule, Answer.HOLD, **{"door": Door.REFER, "mends": Mend.LOOK, "observation": "eye_bearing", **changed}
    )


def look_again(rule: str = "needs-buried-eye", **changed: Any) -> Ruling:
    values = {"door": Door.LOOK_AGAIN, "mends": Mend.LOOK, "observation": "bury_feel", **changed}
    return ruling(rule, Answer.HOLD, **values)


def remove(mends: Mend, rule: str = "eye-cut", **changed: Any) -> Ruling:
    return ruling(rule, Answer.REMOVE, **{"mends": mends, "observation": "eye_bearing", **changed})


def overdue_examination() -> Ruling:
    return refer("examination-due", mends=Mend.EXAMINE, part="", observation="")


def looked(
    day: float,
    *rulings: Ruling,
    kind: InspectionKind = InspectionKind.BEFORE_USE,
    by: Person = MATE,
    due: float | None = 300,
    answer: Answer | None = None,
    next_due: float | None = None,
    item: str = "pendant",
    **seen: Seen,
) -> Judged:
    """One look and what was said of it; `seen` are findings on the eye at end A, which an as-made record is of."""
    findings = tuple(
        Finding(observation=name, part="A", seen=what, reason="under tape" if what is Seen.NOT_EXAMINED else "")
        for name, what in seen.items()
    )
    made = Reading(observation="bury", part="A", values=("1776 mm",), method=Method.LAID_OUT_TAPE)  # type: ignore[arg-type]
    readings = (made,) if kind is InspectionKind.AS_MADE else ()
    inspection = Inspection(
        id=f"look-{day}", item=item, kind=kind, at=at(day), by=by, findings=findings, readings=readings
    )
    return Judged(
        inspection=inspection,
        judgement=Judgement(
            on=on(day),
            answer=answer or worst([one.answer for one in rulings if one.scope is Scope.ITEM]),
            door=None,
            rulings=rulings,
            next_due=None if next_due is None else on(next_due),
            examination_due=None if due is None else on(due),
            packs=(),
            rules_version="2026.1",
        ),
    )


def release(day: float, named: Judged, *rules: str, part: str = "A", **changed: Any) -> Decision:
    values = {
        "id": f"release-{day}",
        "item": "pendant",
        "at": at(day),
        "by": EXAMINER,
        "kind": DecisionKind.RELEASE,
        "examined": tuple(Reference(inspection=named.inspection.id, rule=rule, part=part) for rule in rules),
        "reason": "examined on the quay",
    }
    return Decision(**{**values, **changed})


def work(day: float, mends: Mend, part: str = "A") -> WorkDone:
    return WorkDone(
        id=f"work-{day}", item="pendant", at=at(day), by=EXAMINER, part=part, mends=mends, what="worked on it"
    )


def condemn(day: float) -> Decision:
    return Decision(
        id=f"condemn-{day}",
        item="pendant",
        at=at(day),
        by=EXAMINER,
        kind=DecisionKind.CONDEMN,
        reason="worn out",
    )


def stands(*records: ItemRecord, day: float = 100) -> Standing:
    return standing(PENDANT, records, on(day))


def still_open(found: Standing) -> list[str]:
    return [one.ruling.rule for one in found.open]
