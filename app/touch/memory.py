"""What was read at a place before: the baselines and the last value, to stand beside a new reading."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field

from app.touch.wording import day
from inspection_rules.book import RuleBook
from inspection_rules.history import Accepted
from inspection_rules.record import Reading
from inspection_rules.standing import Judged
from inspection_rules.words import BASELINE_KINDS

Key = tuple[str, str]


@dataclass(frozen=True, slots=True)
class Agreed:
    """An accepted condition that is in force: its id, what was seen then, and how big it was, in words."""

    acceptance: str
    conditions: tuple[str, ...]
    words: str


@dataclass(frozen=True, slots=True)
class Memory:
    """What is known by part and observation: baselines and the last reading in words, and what was accepted."""

    baselines: Mapping[Key, tuple[str, ...]]
    last: Mapping[Key, str]
    agreed: Mapping[Key, tuple["Agreed", ...]] = field(default_factory=dict)

    def lines(self, key: Key) -> list[str]:
        """Return what to write beside a new reading, baselines first."""
        return [*self.baselines.get(key, ()), *([self.last[key]] if key in self.last else [])]


def remembered(judged: Iterable[Judged]) -> Memory:
    """Gather what was read, from inspections oldest first; a newer baseline of a kind replaces the older."""
    baselines: dict[Key, dict[str, str]] = {}
    last: dict[Key, str] = {}
    for one in judged:
        inspection = one.inspection
        for reading in inspection.readings:
            key = (reading.part, reading.observation)
            words = f"{_values(reading)} · {day(inspection.on)}"
            if inspection.kind in BASELINE_KINDS:
                baselines.setdefault(key, {})[inspection.kind] = f"{inspection.kind} {words}"
            else:
                last[key] = f"last {words}"
    return Memory({key: tuple(kinds.values()) for key, kinds in baselines.items()}, last)


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
        words = f"Accepted by {one.by}, {day(one.on)} to {day(one.until)}: {one.extent}"
        if conditions:
            found[key] = (*found.get(key, ()), Agreed(one.acceptance, conditions, words))
    return found


def _values(reading: Reading) -> str:
    return ", ".join(value.text for value in reading.values)
