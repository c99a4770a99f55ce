"""Rulings on what no loaded rule speaks for: it is held, never passed over in silence."""

from collections.abc import Iterator

from inspection_rules.book import RuleBook, asked_of
from inspection_rules.case import Case
from inspection_rules.item import Item
from inspection_rules.judgement import Ruling
from inspection_rules.measures import MEASURES
from inspection_rules.rule import Pack
from inspection_rules.rulings.making import without_rule
from inspection_rules.words import ENDLESS, Duty, FittingKind, ItemKind, PartKind, SpliceKind

TWO_ENDED = frozenset({ItemKind.ROPE_SLING, ItemKind.WEB_SLING, ItemKind.LANYARD})
CONNECTING = frozenset({FittingKind.CONNECTOR, FittingKind.HOOK, FittingKind.SHACKLE})
REFER = "Do not use it on this tool's word; have a competent person examine it."


def unjudged(case: Case, book: RuleBook, packs: tuple[Pack, ...]) -> Iterator[Ruling]:
    """Yield a hold for each condition that was seen and that no loaded rule judges."""
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
            observation = book.observations[finding.observation].worded_for(case.item, finding.part, case.regimes)
            words = ", ".join(c.say.lower() for c in observation.conditions if c.id in loose)
            yield without_rule(
                "no-rule",
                observation.station.capitalize(),
                finding.part,
                f"Seen: {words}; no loaded rule judges it.",
                "Do not use it; have a competent person examine it.",
                observation=observation.id,
            )


def unjudged_damage(case: Case, book: RuleBook, packs: tuple[Pack, ...]) -> Iterator[Ruling]:
    """Yield a hold for each damage whose size was read and that no loaded limit judges."""
    judged: set[tuple[str, str]] = set()
    for pack in packs:
        for rule in pack.rules:
            if rule.limit is None or not rule.applies.to_item(case.item):
                continue
            measure = MEASURES[rule.limit.measure]
            for part in case.item.parts:
                if part.kind in measure.on and rule.applies.to_part(part):
                    judged |= {(part.id, name) for name in measure.observations}
    for reading in case.inspection.readings:
        observation = book.observations[reading.observation].worded_for(case.item, reading.part, case.regimes)
        found = sorted((v for v in reading.values if v.value > 0), key=lambda v: v.to(v.unit), reverse=True)
        if observation.damages and found and (reading.part, reading.observation) not in judged:
            yield without_rule(
                "no-limit",
                observation.station.capitalize(),
                reading.part,
                f"Read: {observation.ask.rstrip('?')}, {found[0]}; no loaded rule has a limit for it.",
                "Do not use it; have a competent person examine it.",
                observation=observation.id,
            )


def not_covered(case: Case, packs: tuple[Pack, ...]) -> Iterator[Ruling]:
    """Yield a hold for each part the loaded rules do not speak for: it has not been inspected."""
    covering = [
        rule
        for pack in packs
        for rule in pack.rules
        if rule.needs is not None and rule.needs.covers and rule.applies.to_item(case.item)
    ]
    item = case.item
    for part in item.parts:
        if not any(part.kind in rule.applies.part and rule.applies.to_part(part) for rule in covering):
            rope = item.construction or item.kind if part.kind is PartKind.BODY else part.kind
            what = part.splice or part.fitting or rope
            yield _not_covered(part.id, f"The loaded rules do not cover this part of a {item.kind}: {what}.")
    if not item.terminations and item.kind not in ENDLESS:
        yield _not_covered("", "The item's record has no termination, so nothing is asked of its ends.")
    yield from _incomplete(item)
    if not any(part.kind is PartKind.BODY for part in item.parts) and item.kind is not ItemKind.CONNECTOR:
        yield _not_covered("", "The item's record has no body: nothing was asked of what lies between its ends.")
    if item.maker_pack and item.maker_pack not in {pack.id for pack in packs}:
        yield _not_covered("", f"The maker's criteria '{item.maker_pack}' that its record names are not loaded.")


def _incomplete(item: Item) -> Iterator[Ruling]:
    """What a record of this kind of item leaves out, so that nothing was asked of it."""
    if item.kind in TWO_ENDED and len(item.terminations) < 2:
        yield _not_covered("", f"A {item.kind} has two ends, and its record has not: nothing was asked of the other.")
    if item.kind is ItemKind.ROPE_SLING and any(part.splice is SpliceKind.PLAIN_END for part in item.parts):
        yield _not_covered("", f"An end of this {item.kind} has no eye: nothing says what it hangs by.")
    if item.legs > 1:
        yield _not_covered("", f"It has {item.legs} legs, and this record is of one: record each leg as an item.")
    hung = {part.fitting for part in item.parts}
    if item.kind is ItemKind.LANYARD and item.duty is Duty.LIFE_SUPPORT and not hung & CONNECTING:
        yield _not_covered("", "The lanyard's connectors are not on its record, so nothing is asked of them.")


def dated_ahead(case: Case) -> Iterator[Ruling]:
    """Yield a hold where the record is dated after the day judged: the record or this device's clock is wrong."""
    for word, day in (("made", case.item.made), ("first used", case.item.first_used)):
        if day is not None and day > case.on:
            yield without_rule(
                "dated-ahead",
                "Dates",
                "",
                f"By its record it was {word} on {day}, after the day judged, {case.on}.",
                "Do not use it; check this device's date, else have a competent person put the record right.",
            )


def nothing_asked(case: Case, book: RuleBook, packs: tuple[Pack, ...]) -> Iterator[Ruling]:
    """Yield a hold for a record of a kind that asks nothing of this item: it shows nothing."""
    asked = any(
        asked_of(rule, book.observations[name], case.item)
        for pack in packs
        for rule in pack.rules
        if rule.needs and case.inspection.kind in rule.needs.inspection and rule.applies.to_item(case.item)
        for name in rule.needs.observations
    )
    if not asked:
        sentence = f"A record of kind '{case.inspection.kind}' asks nothing of this item, so it shows nothing."
        yield without_rule("nothing-asked", "Not covered by these rules", "", sentence, REFER)


def _not_covered(part: str, sentence: str) -> Ruling:
    return without_rule("not-covered", "Not covered by these rules", part, sentence, REFER)
