"""The walk along the rope: which stations an inspection visits, in which order, and what is asked there."""

from collections.abc import Iterable
from dataclasses import dataclass

from inspection_rules.book import RuleBook, asked_of
from inspection_rules.observation import Observation
from inspection_rules.record import Inspection, Item
from inspection_rules.words import InspectionKind, PartKind


@dataclass(frozen=True, slots=True)
class Step:
    """One question or reading at one station of one part.

    Attributes:
        part: id of the part; empty for the item as a whole.
        observation: what is asked.
        needed: whether the rules need it for this kind of inspection; the others may be added.
    """

    part: str
    observation: Observation
    needed: bool = True

    @property
    def key(self) -> tuple[str, str]:
        """Part and observation id: the step's name in a draft."""
        return self.part, self.observation.id


def walk(item: Item, kind: InspectionKind, regimes: Iterable[str], book: RuleBook) -> tuple[Step, ...]:
    """Return the needed steps in the order of the real rope.

    First what concerns the item as a whole before it is handled (its tag), then from the back of the eye at
    end A along the splice to the body, then along the other splice to the back of its eye, and last what
    memory must answer.
    """
    needed = {
        (part, name)
        for pack in book.chosen(regimes, item)
        for rule in pack.rules
        if rule.needs and kind in rule.needs.inspection and rule.applies.to_item(item)
        for name in rule.needs.observations
        for part in asked_of(rule, book.observations[name], item)
    }
    ordered = list(book.observations.values())
    steps: list[Step] = []
    for part, stations in _rope_order(item, ordered):
        steps += [Step(part, o) for o in stations if (part, o.id) in needed and o.station != LAST_STATION]
    steps += [Step("", o) for o in ordered if o.station == LAST_STATION and ("", o.id) in needed]
    return tuple(steps)


def optional_steps(item: Item, kind: InspectionKind, regimes: Iterable[str], book: RuleBook) -> tuple[Step, ...]:
    """Return what may be added to this inspection beyond what it needs, in the same order."""
    have = {step.key for step in walk(item, kind, regimes, book)}
    steps = (
        Step(part, observation, needed=False)
        for part, stations in _rope_order(item, list(book.observations.values()))
        for observation in stations
        if part in observation.parts(item) and (not observation.at or kind in observation.at)
    )
    return tuple(step for step in steps if step.key not in have)


def first_open(steps: Iterable[Step], inspection: Inspection) -> Step | None:
    """Return the first step that has neither a finding nor a reading yet."""
    done = {(entry.part, entry.observation) for entry in inspection.entries}
    return next((step for step in steps if step.key not in done), None)


LAST_STATION = "since last time"


def _rope_order(item: Item, observations: list[Observation]) -> list[tuple[str, list[Observation]]]:
    """The item, the first termination, the body, joints, the other terminations, fittings, each with its observations.

    Observations are written from the eye to the body; past the body the hand meets their stations the other
    way round.
    """
    terminations = [part.id for part in sorted(item.terminations, key=lambda part: part.end or "")]
    along = [part.id for kind in (PartKind.BODY, PartKind.JOINT) for part in item.parts if part.kind is kind]
    hung = [part.id for part in item.parts if part.kind is PartKind.FITTING]
    stations = list(dict.fromkeys(observation.station for observation in observations))
    outward = sorted(observations, key=lambda observation: -stations.index(observation.station))
    towards = [(part, observations) for part in ("", *terminations[:1], *along)]
    return towards + [(part, outward) for part in terminations[1:]] + [(part, observations) for part in hung]
