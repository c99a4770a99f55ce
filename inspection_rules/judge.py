"""`judge(case, book)`: what the rules say about one inspection of one item.

Unknown never passes: a needed observation that was not made, could not be made or cannot be used is a hold,
and so is anything the loaded rules do not cover.
"""

from collections.abc import Callable, Iterator
from datetime import date

import inspection_rules
from inspection_rules.book import CaseError, RuleBook, asked_of, check_case
from inspection_rules.case import Case
from inspection_rules.due import Due, after, due
from inspection_rules.examined import hold, lack, spoken_of, unread, unseen
from inspection_rules.judgement import Judgement, Missing, PackStamp, Ruling, content_hash
from inspection_rules.measures import MEASURES
from inspection_rules.numeric import limit_ruling, movement_ruling
from inspection_rules.record import Inspection
from inspection_rules.rule import ConditionRule, Interval, Needs, Pack, Rule
from inspection_rules.silence import not_covered, nothing_asked, unjudged, unjudged_use
from inspection_rules.walk import LAST_STATION, walk
from inspection_rules.words import (
    Answer,
    Door,
    InspectionKind,
    Mend,
    Scope,
    Seen,
    worst,
)


def judge(case: Case, book: RuleBook) -> Judgement:
    """Judge one inspection by the packs of the case's regimes and common practice.

    Raises:
        CaseError: the case names a regime, observation or condition the book does not know, or a reading has
            the wrong unit, sign or method; the message names the place and the remedy.
    """
    check_case(case, book)
    packs = book.chosen(case.regimes)
    needed = {step.key for step in walk(case.item, case.inspection.kind, case.regimes, book)}
    rulings: list[Ruling] = []
    for pack in packs:
        for rule in pack.rules:
            if rule.applies.to_item(case.item):
                rulings += _rulings(rule, pack, case, book, needed)
    rulings += unjudged(case, book, packs)
    rulings += unread(case, book, needed)
    rulings += not_covered(case, packs)
    rulings += nothing_asked(case, needed)
    rulings += unjudged_use(case, packs)
    rulings = _in_order(rulings, case, book)
    on_item = [ruling for ruling in rulings if ruling.scope is Scope.ITEM]
    answer = worst([ruling.answer for ruling in on_item])
    examination_due, why = _examination_due(case, packs, book)
    looks = [ruling.look_again for ruling in on_item if ruling.look_again is not None]
    next_due = min([*looks, *([examination_due] if examination_due else [])], default=None)
    if next_due is not None and next_due != examination_due:
        why = "watch"
    usable = answer in (Answer.SERVICEABLE, Answer.WATCH)
    return Judgement(
        on=case.on,
        inspection_sha256=content_hash(case.inspection),
        regimes=case.regimes,
        site=case.site,
        use=case.use,
        answer=answer,
        door=_door(on_item, answer),
        rulings=tuple(on_item),
        not_for_this_use=tuple(
            ruling for ruling in rulings if ruling.scope is Scope.USE and ruling.answer is not Answer.SERVICEABLE
        ),
        missing=_missing(case, book, needed),
        next_due=next_due if usable else None,
        next_due_why=why if usable and next_due else "",
        examination_due=examination_due,
        advisories=_advisories(case),
        packs=tuple(PackStamp(id=pack.id, version=pack.version, sha256=pack.sha256) for pack in packs),
        rules_version=inspection_rules.__version__,
    )


def _rulings(rule: Rule, pack: Pack, case: Case, book: RuleBook, needed: set[tuple[str, str]]) -> Iterator[Ruling]:
    if rule.needs is not None:
        if case.inspection.kind in rule.needs.inspection:
            yield from _needs_rulings(rule, rule.needs, pack, case, book)
    elif rule.interval is not None:
        yield from _interval_rulings(rule, rule.interval, pack, case, book)
    elif rule.condition is not None:
        observation = book.observations[rule.condition.observation]
        for part in asked_of(rule, observation, case.item):
            found = _condition_ruling(rule, rule.condition, pack, case, book, part, needed)
            if found is not None:
                yield found
    else:
        numeric = rule.limit or rule.movement
        on = MEASURES[numeric.measure].on if numeric else None
        for own in case.item.parts:
            if own.kind is not on or not rule.applies.to_part(own):
                continue
            if rule.limit is not None:
                found = limit_ruling(rule, rule.limit, pack, case, own.id)
            elif rule.movement is not None:
                found = movement_ruling(rule, rule.movement, pack, case, own.id)
            if found is not None:
                yield found


def _condition_ruling(
    rule: Rule,
    condition: ConditionRule,
    pack: Pack,
    case: Case,
    book: RuleBook,
    part: str,
    needed: set[tuple[str, str]],
) -> Ruling | None:
    observation = book.observations[condition.observation]
    finding = case.inspection.finding(part, condition.observation)
    if finding is None:
        return None
    if finding.seen in (Seen.NOT_EXAMINED, Seen.HIDDEN):
        # What the rules need is held once, by the rule that needs it; what was added freely is held here.
        why = unseen(observation, finding, case.inspection, case.item, book)
        if why is None or (part, observation.id) in needed:
            return None
        return hold(rule.id, pack.id, observation, part, why, rule.source)
    fires = finding.seen is Seen.PRESENT and bool(set(finding.conditions) & set(condition.when))
    if finding.seen is Seen.PRESENT and not fires:
        return None
    answer = condition.outcome if fires else Answer.SERVICEABLE
    return Ruling(
        rule=rule.id,
        pack=pack.id,
        title=rule.title,
        part=part,
        answer=answer,
        door=Door.REFER if answer is Answer.HOLD else None,
        observation=observation.id,
        source=rule.source,
        sentence=rule.fires if fires else f"{observation.good}.",
        action=rule.action if fires else "",
        mends=rule.mends if fires else Mend.NOTHING,
        look_again=after(case.on, rule.look_again) if answer is Answer.WATCH else None,
    )


def _needs_rulings(rule: Rule, needs: Needs, pack: Pack, case: Case, book: RuleBook) -> Iterator[Ruling]:
    for name in needs.observations:
        observation = book.observations[name]
        for part in spoken_of(asked_of(rule, observation, case.item), case.inspection):
            why = lack(observation, part, case.inspection, case.item, book)
            if why is not None:
                yield hold(rule.id, pack.id, observation, part, why, rule.source)
    if needs.by and case.inspection.by.competence not in needs.by:
        yield Ruling(
            rule=rule.id,
            pack=pack.id,
            title=rule.title,
            answer=Answer.HOLD,
            door=Door.REFER,
            source=rule.source,
            sentence=f"This was made by a {case.inspection.by.competence}; it takes a {' or a '.join(needs.by)}.",
            action="Do not use it; have a competent person make the examination.",
            mends=rule.mends,
            closed_by=(case.inspection.kind,),
        )


def _complete(case: Case, book: RuleBook) -> Callable[[Inspection], bool]:
    """Whether an inspection of this item contains all that its kind must."""

    def complete(one: Inspection) -> bool:
        steps = walk(case.item, one.kind, case.regimes, book)
        return all(lack(step.observation, step.part, one, case.item, book) is None for step in steps)

    return complete


def _interval_rulings(rule: Rule, interval: Interval, pack: Pack, case: Case, book: RuleBook) -> Iterator[Ruling]:
    for part in _interval_parts(rule, interval, case):
        ends = due(interval, case, _complete(case, book), part)
        if ends is not None:
            yield _interval_ruling(rule, interval, pack, case, part, ends)


def _interval_parts(rule: Rule, interval: Interval, case: Case) -> tuple[str, ...]:
    if not interval.once:
        return ("",)
    return tuple(part.id for part in case.item.terminations if rule.applies.to_part(part))


def _interval_ruling(rule: Rule, interval: Interval, pack: Pack, case: Case, part: str, ends: Due) -> Ruling:
    late = ends.by is None or case.on > ends.by
    if ends.last is None:
        sentence = "No complete examination by a competent person is on record that this could run from."
    elif late:
        sentence = f"{rule.fires} It was due by {ends.by}; the last was on {ends.last.on}."
    else:
        sentence = f"Due by {ends.by}; the last was on {ends.last.on}."
    return Ruling(
        rule=rule.id,
        pack=pack.id,
        title=rule.title,
        part=part,
        answer=interval.outcome if late else Answer.SERVICEABLE,
        door=Door.REFER if late else None,
        source=rule.source,
        sentence=sentence,
        action=rule.action if late else "",
        mends=rule.mends if late else Mend.NOTHING,
        closed_by=tuple(dict.fromkeys(interval.until or interval.since)) if late else (),
    )


def _missing(case: Case, book: RuleBook, needed: set[tuple[str, str]]) -> tuple[Missing, ...]:
    spoken = {part for part, _ in needed if part in spoken_of((part,), case.inspection)}
    lacking = (
        (part, book.observations[name])
        for part, name in sorted(needed)
        if part in spoken
        if lack(book.observations[name], part, case.inspection, case.item, book) is not None
    )
    return tuple(Missing(part=part, observation=one.id, ask=one.ask) for part, one in lacking)


def _door(rulings: list[Ruling], answer: Answer) -> Door | None:
    if answer is not Answer.HOLD:
        return None
    return Door.REFER if any(ruling.door is Door.REFER for ruling in rulings) else Door.LOOK_AGAIN


def _examination_due(case: Case, packs: tuple[Pack, ...], book: RuleBook) -> tuple[date | None, str]:
    ends = [
        (found.by, rule.title)
        for pack in packs
        for rule in pack.rules
        if rule.interval is not None and rule.applies.to_item(case.item)
        for part in _interval_parts(rule, rule.interval, case)
        if (found := due(rule.interval, case, _complete(case, book), part)) is not None and found.by is not None
    ]
    return min(ends, default=(None, ""), key=lambda end: end[0])


def _in_order(rulings: list[Ruling], case: Case, book: RuleBook) -> list[Ruling]:
    """Worst first, then in the order of the rope."""
    parts = {"": 0, **{part.id: index for index, part in enumerate(case.item.parts, 1)}}
    places = {name: index for index, name in enumerate(book.observations)}

    def place(ruling: Ruling) -> tuple[int, int, int, int]:
        observation = book.observations.get(ruling.observation)
        last = observation is not None and observation.station == LAST_STATION
        return (-ruling.answer.severity, int(last), parts[ruling.part], places.get(ruling.observation, len(places)))

    return sorted(rulings, key=place)


def _advisories(case: Case) -> tuple[str, ...]:
    """What is worth knowing and decides nothing."""
    notes = []
    if case.inspection.kind is InspectionKind.AS_MADE:
        for part in case.item.terminations:
            reading = case.inspection.reading(part.id, "bury")
            if reading is not None and part.required_bury is not None:
                notes.append(
                    f"End {part.end}: a new splice settles; common practice is about two diameters of bury to spare."
                )
    return tuple(notes)


__all__ = ["CaseError", "judge"]
