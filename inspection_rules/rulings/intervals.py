"""Rulings on time: the inspection that is due, and the item's age."""

from collections.abc import Callable, Iterator
from datetime import date

from inspection_rules.book import RuleBook
from inspection_rules.case import Case
from inspection_rules.due import Due, after, due
from inspection_rules.judgement import Ruling
from inspection_rules.record import Inspection
from inspection_rules.rule import Age, Interval, Pack, Rule
from inspection_rules.rulings.examined import lack
from inspection_rules.rulings.making import from_rule
from inspection_rules.walk import walk
from inspection_rules.words import Answer


def interval_rulings(rule: Rule, interval: Interval, pack: Pack, case: Case, book: RuleBook) -> Iterator[Ruling]:
    """Yield whether the inspection of these kinds is overdue."""
    for part in _parts(rule, interval, case):
        ends = due(interval, case, _complete(case, book), part)
        if ends is not None:
            yield _interval_ruling(rule, interval, pack, case, part, ends)


def age_ruling(rule: Rule, age: Age, pack: Pack, case: Case) -> Ruling:
    """Return whether the item is older than it may get; where its date is not on record nobody knows: a hold."""
    start: date | None = getattr(case.item, age.since)
    word = age.since.replace("_", " ")
    if start is None:
        sentence = f"The day it was {word} is not on record, so its age is not known; the limit is {age.longest}."
        return from_rule(rule, pack, "", Answer.HOLD, sentence, on=case.on)
    ends = after(start, age.longest)
    if case.on <= ends:
        return from_rule(
            rule, pack, "", Answer.SERVICEABLE, f"{word.capitalize()} {start}; {age.longest} end on {ends}.", on=case.on
        )
    return from_rule(rule, pack, "", age.outcome, f"{rule.fires} {word.capitalize()} {start}; {age.longest} ended on "
                     f"{ends}.", on=case.on)  # fmt: skip


def examination_due(case: Case, packs: tuple[Pack, ...], book: RuleBook) -> tuple[date | None, str]:
    """Return the soonest end of all intervals and lives that run, and the title of the rule that sets it."""
    ends: list[tuple[date, str]] = []
    complete = _complete(case, book)
    for pack in packs:
        for rule in pack.rules:
            if not rule.applies.to_item(case.item):
                continue
            if rule.age is not None and (ends_on := _life_ends(rule.age, case)) is not None:
                ends.append((ends_on, rule.title))
            if rule.interval is None:
                continue
            for part in _parts(rule, rule.interval, case):
                found = due(rule.interval, case, complete, part)
                if found is not None and found.by is not None:
                    ends.append((found.by, rule.title))
    return min(ends, default=(None, ""), key=lambda end: end[0])


def _life_ends(age: Age, case: Case) -> date | None:
    """The last day of a life that still runs; one that has ended is ruled on, and whoever accepts it sets a date."""
    start: date | None = getattr(case.item, age.since)
    ends = after(start, age.longest) if start is not None else None
    return ends if ends is not None and ends >= case.on else None


def _complete(case: Case, book: RuleBook) -> Callable[[Inspection], bool]:
    """Whether an inspection of this item contains all that its kind must."""
    known: dict[str, bool] = {}

    def complete(one: Inspection) -> bool:
        if one.id not in known:
            steps = walk(case.item, one.kind, case.regimes, book)
            lacking = (lack(step.observation, step.part, one, case.item, book) for step in steps)
            known[one.id] = bool(steps) and all(why is None for why in lacking)
        return known[one.id]

    return complete


def _parts(rule: Rule, interval: Interval, case: Case) -> tuple[str, ...]:
    if not interval.once:
        return ("",)
    return tuple(part.id for part in case.item.spliced if rule.applies.to_part(part))


def _interval_ruling(rule: Rule, interval: Interval, pack: Pack, case: Case, part: str, ends: Due) -> Ruling:
    late = ends.by is None or case.on > ends.by
    if ends.last is None:
        sentence = "No complete examination by a competent person is on record that this could run from."
    elif late:
        sentence = f"{rule.fires} It was due by {ends.by}; the last was on {ends.last.on}."
    else:
        sentence = f"Due by {ends.by}; the last was on {ends.last.on}."
    return from_rule(
        rule,
        pack,
        part,
        interval.outcome if late else Answer.SERVICEABLE,
        sentence,
        on=case.on,
        closed_by=tuple(dict.fromkeys(interval.until or interval.since)) if late else (),
    )
