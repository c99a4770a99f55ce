"""`judge(case, book)`: what the rules say about one inspection of one item.

Unknown never passes: a needed observation that was not made, could not be made or cannot be used is a hold,
and so is anything the loaded rules do not cover.
"""

from collections.abc import Callable, Iterator
from datetime import date

import inspection_rules
from inspection_rules.book import COMMON, CaseError, RuleBook, asked_of, check_case, hidden_behind
from inspection_rules.case import Case
from inspection_rules.due import Due, after, due
from inspection_rules.judgement import Judgement, Missing, PackStamp, Ruling, content_hash
from inspection_rules.measures import MEASURES
from inspection_rules.numeric import limit_ruling, movement_ruling
from inspection_rules.observation import Observation
from inspection_rules.record import Finding, Inspection, Item, Part
from inspection_rules.rule import ConditionRule, Interval, Needs, Pack, Rule, RuleSource
from inspection_rules.walk import LAST_STATION, walk
from inspection_rules.words import (
    Answer,
    Door,
    InspectionKind,
    Mend,
    PartKind,
    Scope,
    Seen,
    worst,
)

PRACTICE = RuleSource(document="Common practice", kind="common practice", verified="none")


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
    rulings += _unjudged(case, book, packs)
    rulings += _unread(case, book, needed)
    rulings += _not_covered(case, packs)
    rulings += _nothing_asked(case, needed)
    rulings += _unjudged_use(case, packs)
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
        why = _unseen(observation, finding, case.inspection, case.item, book)
        if why is None or (part, observation.id) in needed:
            return None
        return _hold(rule.id, pack.id, observation, part, why, rule.source)
    fires = finding.seen is Seen.PRESENT and bool(set(finding.conditions) & set(condition.when))
    if finding.seen is Seen.PRESENT and not fires:
        return None
    answer = condition.outcome if fires else Answer.SERVICEABLE
    words = " · ".join(c.say for c in observation.conditions if c.id in condition.when)
    return Ruling(
        rule=rule.id,
        pack=pack.id,
        title=rule.title,
        part=part,
        answer=answer,
        door=Door.REFER if answer is Answer.HOLD else None,
        observation=observation.id,
        source=rule.source,
        sentence=rule.fires if fires else f"Not seen: {words[:1].lower()}{words[1:]}.",
        action=rule.action if fires else "",
        mends=rule.mends if fires else Mend.NOTHING,
        look_again=after(case.on, rule.look_again) if answer is Answer.WATCH else None,
    )


def _needs_rulings(rule: Rule, needs: Needs, pack: Pack, case: Case, book: RuleBook) -> Iterator[Ruling]:
    for name in needs.observations:
        observation = book.observations[name]
        for part in _spoken_of(asked_of(rule, observation, case.item), case.inspection):
            why = _lack(observation, part, case.inspection, case.item, book)
            if why is not None:
                yield _hold(rule.id, pack.id, observation, part, why, rule.source)
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


def _spoken_of(parts: tuple[str, ...], one: Inspection) -> tuple[str, ...]:
    """An as-made record is of the splices it speaks of: one end is often made anew by itself."""
    if one.kind is not InspectionKind.AS_MADE or not one.entries:
        return parts
    spoken = {entry.part for entry in one.entries}
    return tuple(part for part in parts if part in spoken)


def _lack(observation: Observation, part: str, one: Inspection, item: Item, book: RuleBook) -> str | None:
    """Why a needed observation does not count as made; None when it does."""
    if observation.kind == "reading":
        if one.reading(part, observation.id) is not None:
            return None
        unread = one.finding(part, observation.id)
        if unread is not None:
            return f"could not be read ({unread.reason})"
        others = [one.reading(part, name) for name in observation.instead]
        read = [other for other in others if other is not None]
        if not read or len(read) < len(others):
            return "not read"
        return None if len({other.state for other in read}) == 1 else "read in different states"
    finding = one.finding(part, observation.id)
    return "not answered" if finding is None else _unseen(observation, finding, one, item, book)


def _unseen(observation: Observation, finding: Finding, one: Inspection, item: Item, book: RuleBook) -> str | None:
    """Why a finding tells nothing; None when it, or what stands in for it by design, was seen."""
    if finding.seen is Seen.NOT_EXAMINED:
        return f"could not be examined ({finding.reason})"
    if finding.seen is not Seen.HIDDEN:
        return None
    substitute = hidden_behind(observation, finding.part, item, book)
    stands_in = one.finding(finding.part, substitute.id) if substitute else None
    if stands_in is not None and stands_in.seen in (Seen.ABSENT, Seen.PRESENT):
        return None
    return "hidden by design, and what stands in for it was not examined"


def _hold(rule: str, pack: str, observation: Observation, part: str, why: str, source: RuleSource) -> Ruling:
    return Ruling(
        rule=rule,
        pack=pack,
        title="Not examined",
        part=part,
        answer=Answer.HOLD,
        door=Door.LOOK_AGAIN,
        observation=observation.id,
        source=source,
        sentence=f"{observation.ask.rstrip('?.')}: {why}. What was not examined does not pass.",
        action="Do not use it until this has been looked at.",
        mends=Mend.LOOK,
    )


def _complete(case: Case, book: RuleBook) -> Callable[[Inspection], bool]:
    """Whether an inspection of this item contains all that its kind must."""

    def complete(one: Inspection) -> bool:
        steps = walk(case.item, one.kind, case.regimes, book)
        return all(_lack(step.observation, step.part, one, case.item, book) is None for step in steps)

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


def _unjudged(case: Case, book: RuleBook, packs: tuple[Pack, ...]) -> Iterator[Ruling]:
    """A condition that was seen and that no loaded rule judges is for a competent person, never a pass."""
    for finding in case.inspection.findings:
        judged = {
            condition
            for pack in packs
            for rule in pack.rules
            if rule.condition is not None
            and rule.condition.observation == finding.observation
            and rule.applies.to_item(case.item)
            and (not finding.part or rule.applies.to_part(case.item.part(finding.part)))
            for condition in rule.condition.when
        }
        loose = [condition for condition in finding.conditions if condition not in judged]
        if loose:
            observation = book.observations[finding.observation]
            words = ", ".join(c.say.lower() for c in observation.conditions if c.id in loose)
            yield Ruling(
                rule="no-rule",
                pack=COMMON,
                title=observation.station.capitalize(),
                part=finding.part,
                answer=Answer.HOLD,
                door=Door.REFER,
                observation=observation.id,
                source=PRACTICE,
                sentence=f"Seen: {words}; no loaded rule judges it.",
                action="Do not use it; have a competent person examine it.",
                mends=Mend.LOOK,
            )


def _unread(case: Case, book: RuleBook, needed: set[tuple[str, str]]) -> Iterator[Ruling]:
    """A reading that was added freely and could not be taken is doubt as much as one that was needed."""
    for finding in case.inspection.findings:
        observation = book.observations[finding.observation]
        if observation.kind == "reading" and (finding.part, finding.observation) not in needed:
            why = f"could not be read ({finding.reason})"
            yield _hold("not-read", COMMON, observation, finding.part, why, PRACTICE)


def _not_covered(case: Case, packs: tuple[Pack, ...]) -> Iterator[Ruling]:
    """A part that the loaded rules do not speak for has not been inspected."""
    covering = [rule for pack in packs for rule in pack.rules if rule.needs is not None and rule.needs.covers]
    covering = [rule for rule in covering if rule.applies.to_item(case.item)]
    for part in case.item.parts:
        if any(rule.applies.to_part(part) and _speaks_for(rule, part) for rule in covering):
            continue
        what = part.splice or (case.item.construction or case.item.kind if part.kind is PartKind.BODY else part.kind)
        yield _no_word(
            "not-covered", part.id, f"The loaded rules do not cover this part of a {case.item.kind}: {what}."
        )
    if not case.item.terminations:
        yield _no_word("not-covered", "", "The item's record has no termination, so nothing is asked of its ends.")
    if not any(part.kind is PartKind.BODY for part in case.item.parts):
        yield _no_word(
            "not-covered", "", "The item's record has no body: nothing was asked of what lies between its ends."
        )


def _speaks_for(rule: Rule, part: Part) -> bool:
    """A rule that names splices speaks for terminations, one that names none for the body."""
    return part.kind is (PartKind.TERMINATION if rule.applies.splice else PartKind.BODY)


def _nothing_asked(case: Case, needed: set[tuple[str, str]]) -> Iterator[Ruling]:
    """A record of a kind that asks nothing of this item shows nothing."""
    if not needed:
        kind = case.inspection.kind
        yield _no_word(
            "nothing-asked", "", f"A record of kind '{kind}' asks nothing of this item, so it shows nothing."
        )


def _no_word(rule: str, part: str, sentence: str) -> Ruling:
    return Ruling(
        rule=rule,
        pack=COMMON,
        title="Not covered by these rules",
        part=part,
        answer=Answer.HOLD,
        door=Door.REFER,
        source=PRACTICE,
        sentence=sentence,
        action="Do not use it on this tool's word; have a competent person examine it.",
        mends=Mend.LOOK,
    )


def _unjudged_use(case: Case, packs: tuple[Pack, ...]) -> Iterator[Ruling]:
    """What is said about the use and no loaded rule judges is not passed over in silence."""
    if case.use is None:
        return
    judged = {
        rule.limit.measure
        for pack in packs
        for rule in pack.rules
        if rule.limit is not None and rule.scope is Scope.USE and rule.applies.to_item(case.item)
    }
    if case.use.pin_diameter is not None and "throat_angle" not in judged:
        yield _no_word_on_use("Pin", f"No loaded rule judges an eye on a pin of {case.use.pin_diameter}.")
    if case.use.leg_angle is not None:
        yield _no_word_on_use("Angle of the legs", f"No loaded rule judges legs at {case.use.leg_angle}.")


def _no_word_on_use(title: str, sentence: str) -> Ruling:
    return Ruling(
        rule="no-rule",
        pack=COMMON,
        title=title,
        scope=Scope.USE,
        answer=Answer.HOLD,
        door=Door.REFER,
        source=PRACTICE,
        sentence=sentence,
        action="Not for this use on this tool's word; have a competent person work it out.",
        mends=Mend.LOOK,
    )


def _missing(case: Case, book: RuleBook, needed: set[tuple[str, str]]) -> tuple[Missing, ...]:
    spoken = {part for part, _ in needed if part in _spoken_of((part,), case.inspection)}
    lacking = (
        (part, book.observations[name])
        for part, name in sorted(needed)
        if part in spoken
        if _lack(book.observations[name], part, case.inspection, case.item, book) is not None
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
