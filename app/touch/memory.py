"""What was read at a place before: the baselines and the last value, to stand beside a new reading."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field

from app.language import mark, say
from app.touch.typed import in_words
from app.touch.wording import day
from inspection_rules.book import RuleBook
from inspection_rules.history import Accepted
from inspection_rules.improbable import Past, past_readings
from inspection_rules.record import Reading
from inspection_rules.standing import Judged
from inspection_rules.words import BASELINE_KINDS, Moisture, Tension

Key = tuple[str, str]
State = tuple[Tension, Moisture]
LAST = mark("last")


@dataclass(frozen=True, slots=True)
class Agreed:
    """An accepted condition that is in force: its id, what was seen then, and how big it was, in words."""

    acceptance: str
    conditions: tuple[str, ...]
    words: str


@dataclass(frozen=True, slots=True)
class Memory:
    """What is known by part and observation: every earlier reading, oldest first, and what was accepted."""

    past: Mapping[Key, tuple[Past, ...]] = field(default_factory=dict)
    agreed: Mapping[Key, tuple[Agreed, ...]] = field(default_factory=dict)

    def compared(self, key: Key) -> tuple[tuple[str, Past], ...]:
        """Return what a new reading is compared with, each with its name: the newest baseline of a kind, the last."""
        baselines: dict[str, Past] = {}
        last: list[tuple[str, Past]] = []
        for one in self.past.get(key, ()):
            if one.kind in BASELINE_KINDS:
                baselines[str(one.kind)] = one
            else:
                last = [(LAST, one)]
        return (*baselines.items(), *last)

    def lines(self, key: Key, unit: str = "") -> list[str]:
        """Return what to write beside a new reading, baselines first; in `unit` too where it was read in another."""
        return [
            say("{kind} {values} · {day}", kind=say(name), values=_values(one.reading, unit), day=day(one.on))
            for name, one in self.compared(key)
        ]

    def other_states(self, key: Key, now: State) -> list[str]:
        """Return a sentence for each other state than this that one of those was read in: they are not comparable."""
        other: dict[State, list[str]] = {}
        for name, one in self.compared(key):
            if one.reading.state != now:
                other.setdefault(one.reading.state, []).append(say(name))
        return [
            say("Not comparable with this: {kinds}, read {state}.", kinds=", ".join(names), state=state_words(state))
            for state, names in other.items()
        ]

    def last_state(self, key: Key) -> str:
        """Return in words the state of the reading before, with its date; empty where there is none."""
        before = self.past.get(key, ())
        if not before:
            return ""
        last = before[-1]
        return say("Last time, {day}: {state}", day=day(last.on), state=state_words(last.reading.state))


def state_words(state: State) -> str:
    """Write a tension and moisture state: `hand-taut, dry`."""
    return say("{tension}, {moisture}", tension=say(str(state[0])), moisture=say(str(state[1])))


def remembered(judged: Iterable[Judged]) -> Memory:
    """Gather what was read, from inspections oldest first."""
    return Memory(past_readings(one.inspection for one in judged))


def agreed(accepted: Iterable[Accepted], judged: Sequence[Judged], book: RuleBook) -> dict[Key, tuple[Agreed, ...]]:
    """Return what was accepted at each place that a question looks at, with the conditions it was accepted for."""
    rules = {rule.id: rule for pack in book.packs for rule in pack.rules}
    found: dict[Key, tuple[Agreed, ...]] = {}
    for one in accepted:
        rule, key = rules.get(one.rule), (one.part, one.observation)
        findings = [j.inspection.finding(*key) for j in judged if j.inspection.on <= one.on]
        seen = next((f for f in reversed(findings) if f is not None and f.conditions), None)
        if rule is None or rule.condition is None or seen is None:
            continue
        conditions = tuple(name for name in seen.conditions if name in rule.condition.when)
        words = say(
            "Accepted by {person}, {day} to {until}: {extent}",
            person=one.by,
            day=day(one.on),
            until=day(one.until),
            extent=one.extent,
        )
        if conditions:
            found[key] = (*found.get(key, ()), Agreed(one.acceptance, conditions, words))
    return found


def _values(reading: Reading, unit: str) -> str:
    return ", ".join(in_words(value, unit) for value in reading.values)
