"""What was read at a place before: the baselines and the last value, to stand beside a new reading."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from app.touch.wording import day
from inspection_rules.record import Reading
from inspection_rules.standing import Judged
from inspection_rules.words import BASELINE_KINDS

Key = tuple[str, str]


@dataclass(frozen=True, slots=True)
class Memory:
    """What was read before, in words, by part and observation: baselines and the last reading."""

    baselines: Mapping[Key, tuple[str, ...]]
    last: Mapping[Key, str]

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


def _values(reading: Reading) -> str:
    return ", ".join(value.text for value in reading.values)
