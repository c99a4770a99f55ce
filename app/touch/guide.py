"""What the rules say about the steps of one inspection: worked out once, away from the window's thread."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from app.touch.visit import Key, Visit
from inspection_rules.book import RuleBook, hidden_behind
from inspection_rules.competence import examiner_rules
from inspection_rules.contradiction import disputed, grading
from inspection_rules.item import Item
from inspection_rules.observation import Observation
from inspection_rules.record import Reading
from inspection_rules.rule import Rule
from inspection_rules.use_told import Needs, askable, needs
from inspection_rules.walk import Step, possible_steps, useful_steps
from inspection_rules.words import InspectionKind


@dataclass(frozen=True, slots=True)
class Guide:
    """What the register's own rules say of an item at one kind of inspection.

    Attributes:
        possible: every step that can be made, in the order of the hands.
        useful: those that may be added and that a rule hears.
        hidden: questions that design may hide on this item.
        grading: by question and condition, the readings that tell how much of it there is.
        disputed: by question, the readings of damages that speak against calling it sound.
        examiners: the rules that say what competence this kind of inspection takes.
        of_use: what may be told of a use: the fields of `Use` that a rule can use for this item.
        needs: what of it those rules have to know together.
    """

    possible: tuple[Step, ...]
    useful: tuple[Step, ...]
    hidden: frozenset[Key]
    grading: Mapping[Key, Mapping[str, tuple[Key, ...]]]
    disputed: Mapping[Key, tuple[Key, ...]]
    examiners: tuple[Rule, ...]
    of_use: tuple[str, ...] = ()
    needs: Needs | None = None

    def step(self, key: Key) -> Step | None:
        """Return a step that can be made, by its key."""
        return next((step for step in self.possible if step.key == key), None)

    @property
    def asks(self) -> dict[Key, Observation]:
        """The observations by part and id, in the words they are asked in."""
        return {step.key: step.observation for step in self.possible}

    def more(self, visit: Visit) -> tuple[Step, ...]:
        """Return what is worth adding at the station where the hands are, and is neither there nor read otherwise."""
        here, had = visit.station.key, {step.key for step in visit.steps}
        told = {
            (step.part, other)
            for step in visit.steps
            if isinstance(visit.entry(step.key), Reading)
            for other in step.observation.instead
        }
        return tuple(
            step
            for step in self.useful
            if (step.part, step.observation.station) == here and step.key not in had and step.key not in told
        )

    def grades(self, visit: Visit, key: Key, conditions: Iterable[str]) -> tuple[Step, ...]:
        """Return the readings that tell how much of what was named there is, and that were not taken yet."""
        by = self.grading.get(key, {})
        keys = dict.fromkeys(one for name in conditions for one in by.get(name, ()))
        steps = (self.step(one) for one in keys if not isinstance(visit.entry(one), Reading))
        return tuple(step for step in steps if step is not None)


def guide(item: Item, kind: InspectionKind, regimes: Iterable[str], book: RuleBook) -> Guide:
    """Return what the rules say about inspecting this item under these regimes."""
    chosen = tuple(regimes)
    possible = possible_steps(item, kind, chosen, book)
    graded = grading(item, chosen, book)
    return Guide(
        possible,
        useful_steps(item, kind, chosen, book),
        frozenset(s.key for s in possible if hidden_behind(s.observation, s.part, item, book) is not None),
        graded,
        disputed(item, graded, book),
        examiner_rules(item, kind, chosen, book),
        askable(item, book.chosen(chosen, item)),
        needs(item, book.chosen(chosen, item)),
    )
