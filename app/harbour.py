"""The invented harbour of the demo: its items, its people, and what befell each item in two years.

Everything here is invented. Dates, sizes and readings come from one seeded generator.
"""

import uuid
from collections.abc import Iterator
from dataclasses import dataclass, field
from datetime import UTC, date, datetime, time, timedelta
from random import Random
from typing import Any

from app.photos.render import Body, BuriedEye, BuryZone, LockStitching, Scene, Tag, TuckedEye
from inspection_rules.record import Item, Part, Person
from inspection_rules.words import (
    Competence,
    Construction,
    Duty,
    Fibre,
    InspectionKind,
    ItemKind,
    PartKind,
    SpliceKind,
)

SEED = 20260312
BRAIDED = (3, 7)  # the quay yard's slings that are no laid rope
BURY_MM = 1728  # the invented splice instruction of the Sandpiper's lines asks for 72 diameters of 24 mm

MATE = Person(name="mate", competence=Competence.USER)
DECKHAND = Person(name="deckhand", competence=Competence.USER)
CLIMBER = Person(name="climber 1", competence=Competence.USER)
# The yard's law has a competent person whom the employer names look at a sling each day before use.
YARD_HAND = Person(name="yard hand", competence=Competence.COMPETENT_PERSON)
SPLICER = Person(name="splicer", competence=Competence.COMPETENT_PERSON)
EXAMINER = Person(name="yard examiner", competence=Competence.COMPETENT_PERSON)
PEOPLE = (MATE, DECKHAND, CLIMBER, YARD_HAND, SPLICER, EXAMINER)

Key = tuple[str, str]


@dataclass(frozen=True)
class Visit:
    """One inspection of the story.

    Attributes:
        readings: (part, observation) to the values as written; others get sound ones.
        seen: (part, observation) to the condition that was seen.
        not_examined: (part, observation) to the reason.
        scenes: (part, observation) to what was photographed.
    """

    kind: InspectionKind
    on: date
    by: Person
    readings: dict[Key, tuple[str, ...]] = field(default_factory=dict)
    seen: dict[Key, str] = field(default_factory=dict)
    not_examined: dict[Key, str] = field(default_factory=dict)
    scenes: dict[Key, Scene] = field(default_factory=dict)


@dataclass(frozen=True)
class Story:
    """An item and its inspections, oldest first; the last is of today's round."""

    item: Item
    visits: tuple[Visit, ...]


class Clock:
    """Hands out ids and times of day from the seed, so that the same date gives the same demo."""

    def __init__(self, rng: Random) -> None:
        self._rng = rng

    def new_id(self, on: date) -> str:
        """Return a UUIDv7 of that day."""
        milliseconds = int(self.at(on).timestamp() * 1000)
        value = (
            (milliseconds & (1 << 48) - 1) << 80
            | 7 << 76
            | self._rng.getrandbits(12) << 64
            | 0b10 << 62
            | self._rng.getrandbits(62)
        )
        return str(uuid.UUID(int=value))

    def at(self, on: date) -> datetime:
        """Return a moment of the early morning of that day, UTC."""
        start = datetime.combine(on, time(5, 30), UTC)
        return start + timedelta(minutes=self._rng.randrange(0, 150), seconds=self._rng.randrange(60))


def stories(today: date) -> Iterator[Story]:
    """Yield every item of the harbour with its two years up to `today`."""
    rng = Random(SEED)
    clock = Clock(rng)
    start = today - timedelta(days=730)
    yield from _mooring_lines(clock, rng, start, today)
    yield _pendant(clock, start, today)
    yield from _tree_crew(clock, start, today)
    yield from _quay_yard(clock, rng, start, today)


def _mooring_lines(clock: Clock, rng: Random, start: date, today: date) -> Iterator[Story]:
    names = (
        "bow line, port", "bow line, starboard", "bow breast, port", "bow spring, port", "bow spring, starboard",
        "stern spring, port", "stern spring, starboard", "stern breast, starboard", "stern line, port",
        "stern line, starboard", "spare line, fore peak", "new bow breast, starboard",
    )  # fmt: skip
    for number, name in enumerate(names, 1):
        item = _line(clock, start, f"ML-{number:02}", f"{name}, of the Sandpiper", "Sandpiper", Duty.MOORING, "60 m")
        last = _visit(InspectionKind.BEFORE_USE, today, MATE if number % 2 else DECKHAND)
        if number == len(names):
            made = today - timedelta(days=10)
            new = _visit(InspectionKind.PERIODIC, today, EXAMINER, readings=_both("mark_offset", "7 mm", "8 mm"))
            yield Story(item, (_visit(InspectionKind.AS_MADE, made, SPLICER), new))
            continue
        bury = f"{BURY_MM} mm" if number == 5 else f"{BURY_MM + 24 + rng.randrange(0, 60)} mm"
        as_made = _visit(InspectionKind.AS_MADE, start, SPLICER, readings=_both("bury", bury))
        bedded = _visit(InspectionKind.BEDDED_IN, start + timedelta(days=16), EXAMINER)
        if number == 4:
            last = _visit(
                InspectionKind.BEFORE_USE, today, DECKHAND,
                not_examined={("B", "lock_stitching"): "under frozen chafe gear"},
            )  # fmt: skip
        yield Story(item, (as_made, bedded, *_rounds(start, today, DECKHAND), last))


def _pendant(clock: Clock, start: date, today: date) -> Story:
    """The pendant whose marks creep a little every month, until two readings together show it."""
    item = _line(clock, start, "TP-01", "towing pendant of the Sandpiper", "Sandpiper", Duty.TOWING, "20 m")
    as_made = _visit(InspectionKind.AS_MADE, start, SPLICER, readings=_both("bury", f"{80 * 24} mm"))
    bedded = _visit(InspectionKind.BEDDED_IN, start + timedelta(days=16), EXAMINER)
    creep = (0, 0, 1, 0, 1, 1, 0, 1, 1, 2, 1, 2, 2, 2, 3, 2, 3, 2, 3, 3, 3, 4)
    visits = [
        _visit(
            InspectionKind.PERIODIC,
            start + timedelta(days=46 + 30 * month),
            EXAMINER,
            readings={("A", "mark_offset"): (f"{out} mm", f"{max(out - month % 2, 0)} mm")},
        )
        for month, out in enumerate(creep)
    ]
    last = _visit(
        InspectionKind.PERIODIC, today, EXAMINER,
        readings={("A", "mark_offset"): ("6 mm", "5 mm")},
        scenes={("A", "mark_offset"): BuriedEye(offset_mm=6), ("A", "lock_stitching"): LockStitching("whole")},
    )  # fmt: skip
    return Story(item, (as_made, bedded, *visits, last))


def _tree_crew(clock: Clock, start: date, today: date) -> Iterator[Story]:
    rigging = _line(clock, start, "RL-01", "rigging line of the tree crew", "tree crew", Duty.TREE_RIGGING, "45 m",
                    fibre=Fibre.POLYESTER, ends="A")  # fmt: skip
    made = _visit(InspectionKind.AS_MADE, start, SPLICER)
    bedded = _visit(InspectionKind.BEDDED_IN, start + timedelta(days=10), EXAMINER)
    shock = _visit(
        InspectionKind.BEFORE_USE, today, CLIMBER, seen={("", "shock"): "shock"},
        scenes={("body", "body_surface"): Body("sound")},
    )  # fmt: skip
    yield Story(rigging, (made, bedded, *_rounds(start, today, CLIMBER), shock))
    lanyard = _laid(clock, start, "LY-01", "work-positioning lanyard of the tree crew", "tree crew", ItemKind.LANYARD,
                    Duty.LIFE_SUPPORT, "2 m", Fibre.NYLON)  # fmt: skip
    late = today - timedelta(days=425)
    yield Story(
        lanyard,
        (
            _visit(InspectionKind.AS_MADE, start, SPLICER),
            _visit(InspectionKind.PERIODIC, late, EXAMINER),
            _visit(InspectionKind.BEFORE_USE, today, CLIMBER),
        ),
    )


def _quay_yard(clock: Clock, rng: Random, start: date, today: date) -> Iterator[Story]:
    for number in range(1, 8):
        length = f"{rng.choice((3, 4, 6))} m"
        if number in BRAIDED:
            item = _line(clock, start, f"RS-{number:02}", "twelve-strand sling", "quay yard", Duty.LIFTING, length,
                         kind=ItemKind.ROPE_SLING)  # fmt: skip
        else:
            item = _laid(clock, start, f"RS-{number:02}", "three-strand sling", "quay yard", ItemKind.ROPE_SLING,
                         Duty.LIFTING, length, Fibre.POLYESTER)  # fmt: skip
        today_visit = _visit(InspectionKind.BEFORE_USE, today, YARD_HAND)
        if number == 3:
            today_visit = _visit(
                InspectionKind.BEFORE_USE, today, YARD_HAND, seen={("body", "body_surface"): "cut"},
                scenes={("body", "body_surface"): Body("strand cut")},
            )  # fmt: skip
        if number == 5:
            today_visit = _visit(
                InspectionKind.PERIODIC, today, EXAMINER, readings={("B", "tail"): ("88 mm",)},
                scenes={("B", "tail"): TuckedEye()},
            )  # fmt: skip
        if number == 7:
            today_visit = _visit(
                InspectionKind.BEFORE_USE, today, YARD_HAND, seen={("", "tag"): "unreadable"},
                scenes={("", "tag"): Tag(None)},
            )  # fmt: skip
        made = [_visit(InspectionKind.AS_MADE, start, SPLICER)]
        if number in BRAIDED:
            made.append(_visit(InspectionKind.BEDDED_IN, start + timedelta(days=12), EXAMINER))
        yield Story(item, (*made, *_rounds(start, today, YARD_HAND), today_visit))
    old = _line(clock, start, "RS-08", "two-eye sling, came without papers", "quay yard", Duty.LIFTING, "5 m",
                kind=ItemKind.ROPE_SLING, known=False)  # fmt: skip
    found = _visit(InspectionKind.AS_FOUND, today - timedelta(days=60), EXAMINER)
    yield Story(old, (found, _visit(InspectionKind.BEFORE_USE, today, YARD_HAND,
                                    scenes={("A", "bury_feel"): BuryZone("sound")})))  # fmt: skip


def _rounds(start: date, today: date, by: Person) -> Iterator[Visit]:
    """Monthly looks before use, with the periodic examination every eleventh month."""
    month = 0
    on = start + timedelta(days=30)
    while on < today - timedelta(days=20):
        month += 1
        periodic = month % 11 == 0
        kind = InspectionKind.PERIODIC if periodic else InspectionKind.BEFORE_USE
        yield _visit(kind, on, EXAMINER if periodic else by)
        on += timedelta(days=30)


def _line(
    clock: Clock,
    made: date,
    tag: str,
    description: str,
    place: str,
    duty: Duty,
    length: str,
    *,
    kind: ItemKind = ItemKind.LINE,
    fibre: Fibre = Fibre.HMPE,
    ends: str = "AB",
    known: bool = True,
) -> Item:
    """A twelve-strand line with buried, lock-stitched eyes."""
    own = {"required_bury": f"{BURY_MM} mm", "required_by": "splice instruction of the harbour loft"} if known else {}
    eyes = [
        Part(id=end, kind=PartKind.TERMINATION, end=end, splice=SpliceKind.BURIED_EYE, lock_stitched=True,
             marks_at="48 mm", **own)
        for end in ends
    ]  # fmt: skip
    return _item(clock, made, tag, description, place, kind, duty, fibre, Construction.HOLLOW_BRAID_12, "24 mm",
                 length, eyes)  # fmt: skip


def _laid(
    clock: Clock, made: date, tag: str, description: str, place: str, kind: ItemKind, duty: Duty, length: str,
    fibre: Fibre,
) -> Item:  # fmt: skip
    """A three-strand item with two tucked eyes."""
    eyes = [Part(id=end, kind=PartKind.TERMINATION, end=end, splice=SpliceKind.TUCKED_EYE) for end in "AB"]
    return _item(clock, made, tag, description, place, kind, duty, fibre, Construction.LAID_3, "16 mm", length, eyes)


def _item(
    clock: Clock, made: date, tag: str, description: str, place: str, kind: ItemKind, duty: Duty, fibre: Fibre,
    construction: Construction, diameter: str, length: str, eyes: list[Part],
) -> Item:  # fmt: skip
    body = Part(id="body", kind=PartKind.BODY)
    return Item.model_validate(
        {
            "id": clock.new_id(made), "tag": tag, "description": description, "place": place, "kind": kind,
            "duty": duty, "fibre": fibre, "construction": construction, "diameter": diameter, "length": length,
            "made": made, "first_used": made, "maker_criteria": "maker's sheet, edition 2, in the harbour office",
            "parts": (eyes[0], body, *eyes[1:]),
        }
    )  # fmt: skip


def _visit(kind: InspectionKind, on: date, by: Person, **told: Any) -> Visit:
    return Visit(kind, on, by, **told)


def _both(observation: str, *values: str) -> dict[Key, tuple[str, ...]]:
    return {(end, observation): values for end in "AB"}
