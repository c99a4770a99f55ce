"""What speaks against an answer in the same inspection: a place called sound where damage was read, and the reverse.

Which reading tells how much of a condition there is stands in the rules: a condition's `graded_by`, or a limit on a
reading of damages that applies the same criterion at the same station. Neither answer is judged here: it is asked.
"""

from collections.abc import Iterable, Mapping

from inspection_rules.book import RuleBook, asked_of
from inspection_rules.item import Item
from inspection_rules.measures import MEASURES
from inspection_rules.record import Inspection, Reading
from inspection_rules.rule import Rule
from inspection_rules.words import Seen

Key = tuple[str, str]
# Conditions of a question that a reading of damages at its station is about, where no rule says so by itself.
OF_LOST_FIBRE = frozenset({"cut", "abraded", "worn", "broken", "chafed", "hole", "weft", "edge_cut", "frayed"})


def grading(item: Item, regimes: Iterable[str], book: RuleBook) -> dict[Key, dict[str, tuple[Key, ...]]]:
    """Return by question and condition which readings tell how much of it there is, the rule's own first."""
    rules = [rule for pack in book.chosen(tuple(regimes), item) for rule in pack.rules if rule.applies.to_item(item)]
    found: dict[Key, dict[str, dict[Key, None]]] = {}
    for rule in rules:
        if rule.condition is None:
            continue
        question = book.observations[rule.condition.observation]
        for part in asked_of(rule, question, item):
            readings = dict.fromkeys(
                _of_the_rule(rule, part, item, book) + _of_the_limits(rule, part, rules, item, book)
            )
            if not readings:
                continue
            by = found.setdefault((part, question.id), {})
            for condition in rule.condition.when:
                by.setdefault(condition, {}).update(readings)
    return {key: {name: tuple(readings) for name, readings in by.items()} for key, by in found.items()}


def disputed(
    item: Item, graded: Mapping[Key, Mapping[str, tuple[Key, ...]]], book: RuleBook
) -> dict[Key, tuple[Key, ...]]:
    """Return by question which readings of damages at its own station would speak against calling it sound.

    Those that the rules name for it, and for the first question about the fibre at a station all of them.
    """
    found: dict[Key, tuple[Key, ...]] = {}
    damages = [one for one in book.observations.values() if one.damages]
    had: set[Key] = set()  # stations of which the first such question was met
    for question in book.observations.values():
        if question.kind != "question":
            continue
        of_fibre = any(condition.id in OF_LOST_FIBRE for condition in question.conditions)
        for part in question.parts(item):
            first = of_fibre and (part, question.station) not in had
            if of_fibre:
                had.add((part, question.station))
            named = {key for keys in graded.get((part, question.id), {}).values() for key in keys}
            here = tuple(
                (part, one.id)
                for one in damages
                if one.station == question.station and part in one.parts(item)
                if first or (part, one.id) in named
            )
            if here:
                found[(part, question.id)] = here
    return found


def against_sound(inspection: Inspection, readings: Iterable[Key]) -> tuple[Reading, ...]:
    """Return what was read in this inspection that speaks against calling a place sound.

    Args:
        readings: those that would, as `disputed` gives them.
    """
    found = (inspection.reading(*key) for key in readings)
    return tuple(one for one in found if one is not None and any(value.value > 0 for value in one.values))


def against_damage(
    inspection: Inspection, reading: Reading, questions: Mapping[Key, tuple[Key, ...]]
) -> tuple[Key, ...]:
    """Return the questions answered as sound that this reading of damages speaks against."""
    if not any(value.value > 0 for value in reading.values):
        return ()
    key = (reading.part, reading.observation)
    found = []
    for question, readings in questions.items():
        finding = inspection.finding(*question)
        if key in readings and finding is not None and finding.seen is Seen.ABSENT:
            found.append(question)
    return tuple(found)


def damages_in_words(reading: Reading) -> str:
    """Write damages read one by one, each with its place where each has one."""
    if len(reading.places) != len(reading.values):
        return ", ".join(value.text for value in reading.values)
    both = zip(reading.values, reading.places, strict=True)
    return ", ".join(f"{value.text} at {place.text}" for value, place in both)


def _of_the_rule(rule: Rule, part: str, item: Item, book: RuleBook) -> list[Key]:
    names = [name for measure in (rule.condition.graded_by if rule.condition else ()) for name in _read(measure, book)]
    return [(part, name) for name in names if part in book.observations[name].parts(item)]


def _of_the_limits(rule: Rule, part: str, rules: Iterable[Rule], item: Item, book: RuleBook) -> list[Key]:
    if rule.condition is None or not rule.criterion:
        return []
    station = book.observations[rule.condition.observation].station
    return [
        (part, name)
        for other in rules
        if other.limit is not None and other.criterion == rule.criterion
        for name in _read(other.limit.measure, book)
        if book.observations[name].damages and book.observations[name].station == station
        if part in book.observations[name].parts(item)
    ]


def _read(measure: str, book: RuleBook) -> list[str]:
    return [name for name in MEASURES[measure].observations if book.observations[name].kind == "reading"]
