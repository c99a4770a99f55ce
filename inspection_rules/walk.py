"""The walk along the rope: which stations an inspection visits, in which order, and what is asked there."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from inspection_rules.book import RuleBook, asked_of
from inspection_rules.item import Item, Part
from inspection_rules.measures import MEASURES
from inspection_rules.observation import Observation
from inspection_rules.record import Inspection
from inspection_rules.rule import Rule
from inspection_rules.words import FittingKind, InspectionKind, PartKind, SpliceKind


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
    """Return the needed steps in the order of the hands, each in the words for its part.

    First what concerns the item as a whole before it is handled (its tag), then what hangs at end A, from the back
    of its eye along the splice to the body, what lies along that, then along the other splice to the back of its eye
    and what hangs there, and last what papers and memory must answer.
    """
    chosen = tuple(regimes)
    needed = {
        (part, name)
        for pack in book.chosen(chosen, item)
        for rule in pack.rules
        if rule.needs and kind in rule.needs.inspection and rule.applies.to_item(item)
        for name in rule.needs.observations
        for part in asked_of(rule, book.observations[name], item)
    }
    return tuple(
        Step(part, observation.worded_for(item, part, chosen))
        for part, observation in _rope_order(item, book.observations.values())
        if (part, observation.id) in needed
    )


def possible_steps(item: Item, kind: InspectionKind, regimes: Iterable[str], book: RuleBook) -> tuple[Step, ...]:
    """Return every step that can be made at this inspection, needed or added, in the order of the hands."""
    chosen = tuple(regimes)
    needed = {step.key for step in walk(item, kind, chosen, book)}
    return tuple(
        Step(part, observation.worded_for(item, part, chosen), needed=(part, observation.id) in needed)
        for part, observation in _rope_order(item, book.observations.values())
        if (part, observation.id) in needed
        or (part in observation.parts(item) and (not observation.at or kind in observation.at))
    )


def optional_steps(item: Item, kind: InspectionKind, regimes: Iterable[str], book: RuleBook) -> tuple[Step, ...]:
    """Return what may be added to this inspection beyond what it needs, in the same order."""
    return tuple(step for step in possible_steps(item, kind, regimes, book) if not step.needed)


def useful_steps(item: Item, kind: InspectionKind, regimes: Iterable[str], book: RuleBook) -> tuple[Step, ...]:
    """Return what may be added and says something to a rule that counts for this item, in the same order."""
    chosen = tuple(regimes)
    heard: set[tuple[str, str]] = set()
    for pack in book.chosen(chosen, item):
        for rule in pack.rules:
            if rule.applies.to_item(item):
                for name in _heard_by(rule):
                    if name in book.observations:
                        heard.update((part, name) for part in asked_of(rule, book.observations[name], item))
    return tuple(step for step in optional_steps(item, kind, chosen, book) if step.key in heard)


def _heard_by(rule: Rule) -> tuple[str, ...]:
    """Ids of the observations a rule rests on."""
    if rule.needs is not None:
        return rule.needs.observations
    measures: tuple[str, ...] = ()
    if rule.condition is not None:
        return (rule.condition.observation, *(n for m in rule.condition.graded_by for n in MEASURES[m].observations))
    for form in (rule.limit, rule.movement, rule.route):
        if form is not None:
            measures = (form.measure,)
    return tuple(name for measure in measures for name in MEASURES[measure].observations)


def first_open(steps: Iterable[Step], inspection: Inspection) -> Step | None:
    """Return the first step that has neither a finding nor a reading yet."""
    done = {(entry.part, entry.observation) for entry in inspection.entries}
    return next((step for step in steps if step.key not in done), None)


LAST_STATION = "since last time"
OTHER_END = "other end"
PAPERS = "break test"
_FAR = (OTHER_END, PAPERS, LAST_STATION)  # of the item as a whole, but met past its body: in this order

_HANG_IN_AN_EYE = frozenset(
    {
        FittingKind.HOOK,
        FittingKind.SHACKLE,
        FittingKind.MASTER_LINK,
        FittingKind.SWIVEL,
        FittingKind.CONNECTOR,
        FittingKind.THIMBLE,
    }
)


def by_hand(item: Item) -> tuple[Part, ...]:
    """Return the parts in the order the hands meet them: from what hangs at end A to what hangs at the other end.

    A fitting's `end` says where it hangs. Where the record does not say, what hangs in an eye is taken to hang in the
    eyes in its recorded order, and anything else along the body. This decides nothing but the order of asking.
    """
    ends = sorted(item.terminations, key=lambda part: part.end or "")
    along = [part for kind in (PartKind.BODY, PartKind.JOINT) for part in item.parts if part.kind is kind]
    fittings = [part for part in item.parts if part.kind is PartKind.FITTING]
    hung: dict[str, list[Part]] = {end.id: [f for f in fittings if f.end == end.end] for end in ends}
    placed = {part.id for parts in hung.values() for part in parts}
    free = [part for part in fittings if part.id not in placed]
    for end in ends:
        fit = next((part for part in free if part.fitting in _HANG_IN_AN_EYE), None)
        if fit is not None and not hung[end.id] and end.splice is not SpliceKind.PLAIN_END:
            hung[end.id].append(fit)
            free.remove(fit)
    # What slides or is sewn in along the body comes before what hangs from it.
    free.sort(key=lambda part: part.fitting in _HANG_IN_AN_EYE)
    first = [one for end in ends[:1] for one in (*hung[end.id], end)]
    other = [one for end in ends[1:] for one in (end, *hung[end.id])]
    return (*first, *along, *free, *other)


def _rope_order(item: Item, observations: Iterable[Observation]) -> Iterator[tuple[str, Observation]]:
    """Every observation with each part it may be asked of, in the order of the hands.

    Observations are written from the eye to the body; past the body the hand meets their stations the other way round.
    """
    ordered = list(observations)
    stations = list(dict.fromkeys(observation.station for observation in ordered))
    outward = sorted(ordered, key=lambda observation: -stations.index(observation.station))
    inward = [*(o for o in ordered if not _read_last(o)), *(o for o in ordered if _read_last(o))]
    others = {part.id for part in sorted(item.terminations, key=lambda part: part.end or "")[1:]}
    yield from (("", observation) for observation in ordered if observation.station not in _FAR)
    for part in by_hand(item):
        if part.kind is PartKind.TERMINATION:
            yield from ((part.id, observation) for observation in (outward if part.id in others else inward))
        else:
            yield from ((part.id, observation) for observation in ordered)
    for station in _FAR:
        yield from (("", observation) for observation in ordered if observation.station == station)


def _read_last(observation: Observation) -> bool:
    """Whether a reading waits until its splice was looked at untouched, felt and smoothed.

    Toward the body the hand meets the marks before the bury; outward it has felt and smoothed the bury by then.
    """
    return observation.on == "splice" and observation.kind == "reading" and observation.state
