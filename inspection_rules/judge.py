"""`judge(case, book)`: what the rules say about one inspection of one item.

Unknown never passes: a needed observation that was not made, could not be made or cannot be used is a hold,
and so is anything the loaded rules do not cover.
"""

from collections.abc import Iterator

import inspection_rules
from inspection_rules.advice import advisories
from inspection_rules.book import CaseError, RuleBook, check_case
from inspection_rules.case import Case
from inspection_rules.judgement import Judgement, Missing, PackStamp, Ruling, content_hash
from inspection_rules.measures import MEASURES
from inspection_rules.rule import Pack, Rule
from inspection_rules.rulings.combined import combined_ruling
from inspection_rules.rulings.conditions import condition_rulings
from inspection_rules.rulings.easing import eased
from inspection_rules.rulings.examined import lack, spoken_of, unread
from inspection_rules.rulings.facts import fact_ruling
from inspection_rules.rulings.intervals import age_ruling, examination_due, interval_rulings
from inspection_rules.rulings.limits import limit_ruling
from inspection_rules.rulings.movement import movement_ruling
from inspection_rules.rulings.needs import needs_rulings
from inspection_rules.rulings.routes import route_ruling
from inspection_rules.rulings.silence import dated_ahead, not_covered, nothing_asked, unjudged, unjudged_damage
from inspection_rules.rulings.use import meets_rulings, satisfied, unjudged_use
from inspection_rules.walk import LAST_STATION, walk
from inspection_rules.words import Answer, Door, PartKind, Scope, worst


def judge(case: Case, book: RuleBook) -> Judgement:
    """Judge one inspection by the packs of the case's regimes and common practice.

    Raises:
        CaseError: the case names a regime, observation or condition the book does not know, or a reading has
            the wrong unit, sign or method; the message names the place and the remedy.
    """
    check_case(case, book)
    packs = book.chosen(case.regimes, case.item)
    needed = {step.key for step in walk(case.item, case.inspection.kind, case.regimes, book)}
    rulings: list[Ruling] = []
    for pack in packs:
        for rule in pack.rules:
            if rule.applies.to_item(case.item):
                said = _rulings(rule, pack, packs, case, book, needed)
                rulings += [eased(ruling, rule, case, book) for ruling in said if ruling is not None]
    speaking = tuple(pack for pack in packs if not pack.tightens)
    rulings += unjudged(case, book, speaking)
    rulings += unjudged_damage(case, book, speaking)
    rulings += unread(case, book, needed)
    rulings += not_covered(case, packs)
    rulings += dated_ahead(case)
    rulings += nothing_asked(case, book, speaking)
    spoken = {pack.id for pack in speaking}
    rulings += unjudged_use(case, speaking, [ruling for ruling in rulings if ruling.pack in spoken])
    rulings = _in_order(rulings, case, book)
    on_item = [ruling for ruling in rulings if ruling.scope is Scope.ITEM]
    answer = worst([ruling.answer for ruling in on_item])
    due_by, why = examination_due(case, packs, book)
    looks = [ruling.look_again for ruling in on_item if ruling.look_again is not None]
    next_due = min([*looks, *([due_by] if due_by else [])], default=None)
    if next_due is not None and next_due != due_by:
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
        for_this_use=satisfied(case, rulings),
        missing=_missing(case, book, needed),
        next_due=next_due if usable else None,
        next_due_why=why if usable and next_due else "",
        examination_due=due_by,
        advisories=advisories(case, packs),
        packs=tuple(PackStamp(id=pack.id, version=pack.version, sha256=pack.sha256) for pack in packs),
        rules_version=inspection_rules.__version__,
    )


def _rulings(
    rule: Rule, pack: Pack, packs: tuple[Pack, ...], case: Case, book: RuleBook, needed: set[tuple[str, str]]
) -> Iterator[Ruling | None]:
    if rule.needs is not None:
        yield from needs_rulings(rule, rule.needs, pack, case, book)
    elif rule.interval is not None:
        yield from interval_rulings(rule, rule.interval, pack, case, book)
    elif rule.condition is not None:
        yield from condition_rulings(rule, rule.condition, pack, case, book, needed)
    elif rule.meets is not None:
        yield from meets_rulings(rule, rule.meets, pack, case)
    elif rule.age is not None:
        yield age_ruling(rule, rule.age, pack, case)
    elif rule.fact is not None:
        yield fact_ruling(rule, rule.fact, pack, case)
    elif rule.combined is not None:
        for body in case.item.parts:
            if body.kind is PartKind.BODY and rule.applies.to_part(body):
                yield combined_ruling(rule, rule.combined, packs, pack, case, body.id)
    elif rule.limit is not None:
        for part in _parts_of(rule, rule.limit.measure, case):
            yield limit_ruling(rule, rule.limit, pack, case, part)
    elif rule.movement is not None:
        for part in _parts_of(rule, rule.movement.measure, case):
            yield movement_ruling(rule, rule.movement, pack, case, part)
    elif rule.route is not None:
        for part in _parts_of(rule, rule.route.measure, case):
            yield route_ruling(rule, rule.route, pack, case, part)


def _parts_of(rule: Rule, measure: str, case: Case) -> tuple[str, ...]:
    """The parts a measure is computed for; `("",)` when it is the item's own."""
    on = MEASURES[measure].on
    if not on:
        return ("",)
    return tuple(part.id for part in case.item.parts if part.kind in on and rule.applies.to_part(part))


def _missing(case: Case, book: RuleBook, needed: set[tuple[str, str]]) -> tuple[Missing, ...]:
    spoken = {part for part, _ in needed if part in spoken_of((part,), case.inspection, case.item)}
    lacking = (
        (part, book.observations[name])
        for part, name in sorted(needed)
        if part in spoken
        if lack(book.observations[name], part, case.inspection, case.item, book) is not None
    )
    return tuple(
        Missing(part=part, observation=one.id, ask=one.worded_for(case.item, part, case.regimes).ask)
        for part, one in lacking
    )


def _door(rulings: list[Ruling], answer: Answer) -> Door | None:
    if answer is not Answer.HOLD:
        return None
    return Door.REFER if any(ruling.door is Door.REFER for ruling in rulings) else Door.LOOK_AGAIN


def _in_order(rulings: list[Ruling], case: Case, book: RuleBook) -> list[Ruling]:
    """Worst first, then in the order of the rope."""
    parts = {"": 0, **{part.id: index for index, part in enumerate(case.item.parts, 1)}}
    places = {name: index for index, name in enumerate(book.observations)}

    def place(ruling: Ruling) -> tuple[int, int, int, int]:
        observation = book.observations.get(ruling.observation)
        last = observation is not None and observation.station == LAST_STATION
        return (-ruling.answer.severity, int(last), parts[ruling.part], places.get(ruling.observation, len(places)))

    return sorted(rulings, key=place)


__all__ = ["CaseError", "judge"]
