"""How the harbour's stories are told: people, visits, and the items they are about."""

import uuid
from collections.abc import Iterator
from dataclasses import dataclass, field
from datetime import UTC, date, datetime, time, timedelta
from random import Random
from typing import Any

from app.photos.render import Scene
from inspection_rules.item import Item, Part
from inspection_rules.record import Person
from inspection_rules.words import (
    Competence,
    Construction,
    CoverLoad,
    Duty,
    Fibre,
    FittingKind,
    InspectionKind,
    ItemKind,
    PartKind,
    SpliceKind,
)

SEED = 20260312
BURY_MM = 1728  # the invented splice instruction of the Sandpiper's lines asks for 72 diameters of 24 mm

MATE = Person(name="mate", competence=Competence.USER)
DECKHAND = Person(name="deckhand", competence=Competence.USER)
CLIMBER = Person(name="climber 1", competence=Competence.USER)
# The law on slings wants a competent person for each day's look: the yard has named its hand one.
YARD_HAND = Person(name="yard hand", competence=Competence.COMPETENT_PERSON)
SPLICER = Person(name="splicer", competence=Competence.COMPETENT_PERSON)
EXAMINER = Person(name="yard examiner", competence=Competence.COMPETENT_PERSON)
PEOPLE = (MATE, DECKHAND, CLIMBER, YARD_HAND, SPLICER, EXAMINER)

CRITERIA = "criteria of the harbour loft for climbing gear, 2nd edition"

Key = tuple[str, str]
BODY = Part(id="body", kind=PartKind.BODY)


@dataclass(frozen=True)
class Visit:
    """One inspection of the story.

    Attributes:
        readings: (part, observation) to the values as written; what is needed and not told gets sound ones.
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


def visit(kind: InspectionKind, on: date, by: Person, **told: Any) -> Visit:
    """Return one inspection of a story."""
    return Visit(kind, on, by, **told)


def both(observation: str, *values: str) -> dict[Key, tuple[str, ...]]:
    """Return the same readings at both ends."""
    return {(end, observation): values for end in "AB"}


def rounds(start: date, today: date, by: Person) -> Iterator[Visit]:
    """Yield a look before use every thirty days, the periodic examination every eleventh time, till last month."""
    number, on = 0, start + timedelta(days=30)
    while on < today - timedelta(days=20):
        number += 1
        periodic = number % 11 == 0
        kind = InspectionKind.PERIODIC if periodic else InspectionKind.BEFORE_USE
        yield visit(kind, on, EXAMINER if periodic else by)
        on += timedelta(days=30)


def braided(
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
    **more: Any,
) -> Item:
    """A twelve-strand line with buried, lock-stitched eyes."""
    own = {"required_bury": f"{BURY_MM} mm", "required_by": "splice instruction of the harbour loft"} if known else {}
    eyes = [
        Part(id=end, kind=PartKind.TERMINATION, end=end, splice=SpliceKind.BURIED_EYE, lock_stitched=True,
             marks_at="48 mm", **own)
        for end in ends
    ]  # fmt: skip
    return item(clock, made, tag, description, place, kind, duty, fibre, (eyes[0], BODY, *eyes[1:]),
                construction=Construction.HOLLOW_BRAID_12, diameter="24 mm", length=length, **more)  # fmt: skip


def tucked(
    clock: Clock,
    made: date,
    tag: str,
    description: str,
    place: str,
    duty: Duty,
    length: str,
    *,
    kind: ItemKind = ItemKind.ROPE_SLING,
    fibre: Fibre = Fibre.POLYESTER,
    construction: Construction = Construction.LAID_3,
    diameter: str = "16 mm",
    **more: Any,
) -> Item:
    """A laid or plaited item with two tucked eyes."""
    eyes = [Part(id=end, kind=PartKind.TERMINATION, end=end, splice=SpliceKind.TUCKED_EYE) for end in "AB"]
    return item(clock, made, tag, description, place, kind, duty, fibre, (eyes[0], BODY, eyes[1]),
                construction=construction, diameter=diameter, length=length, **more)  # fmt: skip


def kernmantle(
    clock: Clock, made: date, tag: str, description: str, place: str, kind: ItemKind, length: str,
    ends: tuple[SpliceKind, SpliceKind], fittings: tuple[FittingKind, ...] = (), **more: Any,
) -> Item:  # fmt: skip
    """A kernmantle line or lanyard of polyester, 13 mm, for carrying a person, with what hangs on it."""
    first, second = (
        Part(id=end, kind=PartKind.TERMINATION, end=end, splice=splice) for end, splice in zip("AB", ends, strict=True)
    )
    return item(clock, made, tag, description, place, kind, Duty.LIFE_SUPPORT, Fibre.POLYESTER,
                (first, BODY, second, *hung(fittings)), construction=Construction.KERNMANTLE, diameter="13 mm",
                cover_load=CoverLoad.SHARED, length=length, breaking_force="32 kN", first_used=made,
                maker_criteria=CRITERIA, **more)  # fmt: skip


def hung(fittings: tuple[FittingKind, ...]) -> tuple[Part, ...]:
    """Return the fittings as parts."""
    return tuple(Part(id=f"F{n}", kind=PartKind.FITTING, fitting=kind) for n, kind in enumerate(fittings, 1))


def item(
    clock: Clock, made: date, tag: str, description: str, place: str, kind: ItemKind, duty: Duty, fibre: Fibre,
    parts: tuple[Part, ...], **more: Any,
) -> Item:  # fmt: skip
    """Return an item of the harbour with a new id."""
    return Item.model_validate(
        {
            "id": clock.new_id(made), "tag": tag, "description": description, "place": place, "kind": kind,
            "duty": duty, "fibre": fibre, "made": made, "parts": parts, **more,
        }
    )  # fmt: skip
