"""Simulated careers of pairs of marks: readings drawn as good as the defaults say, judged by the shipped slip rule.

What is fixed for a person and a laying-together (3 % of the diameter, by the direct method) is drawn anew for each
visit, the repeatability for each reading. Where the answer is to look again, two more readings are taken at once.
"""

import random
from collections.abc import Iterator
from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta
from fractions import Fraction
from functools import cache

from inspection_rules.book import shipped
from inspection_rules.case import Case, Site
from inspection_rules.item import Item
from inspection_rules.judgement import Ruling
from inspection_rules.quantity import Quantity
from inspection_rules.record import Inspection, Person, Reading
from inspection_rules.rule import Movement, Pack, Rule
from inspection_rules.rulings.movement import movement_ruling
from inspection_rules.uncertainty import Spread, spread
from inspection_rules.words import Answer, Competence, Door, InspectionKind, Method, Moisture, Tension

EXAMINER = Person(name="yard examiner", competence=Competence.COMPETENT_PERSON)
START = datetime(2050, 3, 1, 8, tzinfo=UTC)
MONTH = timedelta(days=30)
ROUTINE, REPEAT = 2, 2


@dataclass(frozen=True)
class Way:
    """One way to read the marks: the offset itself or the two distances, by a method, in a tension."""

    method: Method
    tension: Tension = Tension.HAND_TAUT
    distances: bool = False

    @property
    def names(self) -> tuple[str, ...]:
        """The observations that are read."""
        return ("mark_tail", "mark_standing") if self.distances else ("mark_offset",)


WAYS = {
    "direct offset, steel rule": Way(Method.STEEL_RULE),
    "direct offset, photograph": Way(Method.PHOTOGRAPH),
    "direct offset, slack": Way(Method.STEEL_RULE, Tension.SLACK),
    "two distances, tape": Way(Method.TAPE, distances=True),
    "two distances, photograph": Way(Method.PHOTOGRAPH, distances=True),
}


@cache
def slip_rule() -> tuple[Pack, Rule, Movement]:
    """The shipped rule on slip."""
    return next((p, r, r.movement) for p in shipped().packs for r in p.rules if r.id == "slip" and r.movement)


@cache
def line(diameter: int) -> Item:
    """A line with one buried eye."""
    return Item.model_validate(
        {
            "id": "line", "tag": "ML-01", "kind": "line", "duty": "mooring", "fibre": "HMPE",
            "construction": "hollow braid, twelve-strand", "diameter": f"{diameter} mm",
            "parts": [{"id": "A", "kind": "termination", "end": "A", "splice": "buried eye"},
                      {"id": "body", "kind": "body"}],
        }
    )  # fmt: skip


@cache
def default_spread(name: str, way: Way, diameter: Quantity) -> Spread:
    """How good one reading of this observation is by default."""
    blank = {"observation": name, "values": ["1 mm"], "method": way.method, "tension": way.tension}
    return spread(Reading.model_validate(blank), diameter.to("mm"), "mm")


@dataclass
class Marks:
    """One pair of marks and what was read of it; nothing is kept of visits that passed but the last ones.

    Attributes:
        slipped: how far the tail has truly come out, mm.
        keep: how many visits that passed stay in the history; what passed leaves no trace in a judgement.
    """

    item: Item
    way: Way
    chance: random.Random
    slipped: float = 0.0
    keep: int = 2
    month: int = 0
    baselines: list[Inspection] = field(default_factory=list)
    earlier: list[Inspection] = field(default_factory=list)
    passed: list[Inspection] = field(default_factory=list)

    def __post_init__(self) -> None:
        self.bed_in()

    @property
    def size(self) -> Quantity:
        """The nominal diameter."""
        if self.item.diameter is None:
            raise ValueError("the line has no diameter")
        return self.item.diameter

    def bed_in(self) -> None:
        """Record the marks, as they are read now: as found at first, since no one read them when they were made."""
        self.month += 1
        kind = InspectionKind.BEDDED_IN if self.baselines else InspectionKind.AS_FOUND
        self.baselines.append(self._visit(kind, self._read(ROUTINE)))

    def look(self) -> tuple[Ruling, Ruling]:
        """Read the marks at the next month's examination: what is said at first, and what stands after the repeat."""
        self.month += 1
        drawn = self._read(ROUTINE)
        visit = self._visit(InspectionKind.PERIODIC, drawn)
        first = stands = self._judged(visit)
        if first.door is Door.LOOK_AGAIN:
            visit = self._visit(InspectionKind.PERIODIC, self._more(drawn))
            stands = self._judged(visit)
        if stands.answer in (Answer.HOLD, Answer.REMOVE):
            self.earlier.append(visit)
        else:
            self.passed = [*self.passed, visit][-self.keep :]
        return first, stands

    def _read(self, n: int) -> list[tuple[float, float, list[float]]]:
        """For each reading: what is fixed for this visit, its repeatability, and the values."""
        found = []
        for name in self.way.names:
            good = default_spread(name, self.way, self.size)
            true = {"mark_offset": self.slipped, "mark_tail": 100 + self.slipped, "mark_standing": 100.0}[name]
            fixed = true + self.chance.gauss(0, good.fixed)
            found.append((fixed, good.repeat, [fixed + self.chance.gauss(0, good.repeat) for _ in range(n)]))
        return found

    def _more(self, drawn: list[tuple[float, float, list[float]]]) -> list[tuple[float, float, list[float]]]:
        return [
            (fixed, repeat, [*values, *(fixed + self.chance.gauss(0, repeat) for _ in range(REPEAT))])
            for fixed, repeat, values in drawn
        ]

    def _visit(self, kind: InspectionKind, drawn: list[tuple[float, float, list[float]]]) -> Inspection:
        at = START + self.month * MONTH
        readings = tuple(
            Reading.model_construct(
                observation=name, part="A", method=self.way.method, tension=self.way.tension, moisture=Moisture.DRY,
                values=tuple(Quantity("", Fraction(round(2 * value), 2), "mm") for value in values),  # to half a mm
            )
            for name, (_, _, values) in zip(self.way.names, drawn, strict=True)
        )  # fmt: skip
        return Inspection.model_construct(
            id=f"{kind} {self.month}", item="line", kind=kind, at=at, utc_offset_minutes=0, by=EXAMINER,
            readings=readings, findings=(), pictures=(), note="",
        )  # fmt: skip

    def _judged(self, visit: Inspection) -> Ruling:
        case = Case.model_construct(
            on=visit.on, item=self.item, inspection=visit, baselines=tuple(self.baselines),
            earlier=tuple(sorted((*self.earlier, *self.passed), key=lambda one: one.at)),
            accepted=(), work=(), use=None, regimes=(), site=Site(),
        )  # fmt: skip
        pack, rule, movement = slip_rule()
        told = movement_ruling(rule, movement, pack, case, "A")
        if told is None:
            raise ValueError("marks that were read are not judged")
        return told


def first_held(diameter: int, way: Way, chance: random.Random, creep: float = 1.0) -> float:
    """Return the slip, mm, at which a tail that creeps so much a visit is first held after the repeat."""
    marks = Marks(line(diameter), way, chance)
    while marks.slipped < 20 * diameter:
        marks.slipped += creep
        _, stands = marks.look()
        if stands.answer in (Answer.HOLD, Answer.REMOVE):
            return marks.slipped
    return marks.slipped


@dataclass
class Fleet:
    """What befell a sound fleet: referred, still in doubt after the repeat, removed, asked to repeat, watched."""

    referred: int = 0
    in_doubt: int = 0
    removed: int = 0
    repeats: int = 0
    watched: int = 0

    @property
    def held(self) -> int:
        """Every answer of do not use that stood after the repeat."""
        return self.referred + self.in_doubt + self.removed


def sound_fleet(
    diameter: int, way: Way, chance: random.Random, pairs: int = 24, years: int = 10, keep: int = 2
) -> Fleet:
    """Read a fleet of marks that never move every month.

    What is held is examined and its marks recorded as bedded in anew, as the hold asks; what is removed is spliced
    anew and starts over.
    """
    fleet = Fleet()
    for _ in range(pairs):
        marks = Marks(line(diameter), way, chance, keep=keep)
        for _ in range(12 * years):
            first, stands = marks.look()
            fleet.repeats += first.door is Door.LOOK_AGAIN
            fleet.watched += stands.answer is Answer.WATCH
            if stands.answer is Answer.REMOVE:
                fleet.removed += 1
                marks = Marks(line(diameter), way, chance, keep=keep)
            elif stands.answer is Answer.HOLD:
                fleet.referred += stands.door is Door.REFER
                fleet.in_doubt += stands.door is Door.LOOK_AGAIN
                marks.bed_in()
    return fleet


def percentiles(values: list[float], *shares: float) -> Iterator[float]:
    """Yield the values below which these shares lie."""
    ordered = sorted(values)
    for share in shares:
        yield ordered[min(int(share * len(ordered)), len(ordered) - 1)]
