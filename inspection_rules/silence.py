"""Rulings on what no loaded rule speaks for: it is held, never passed over in silence."""

from collections.abc import Iterator

from inspection_rules.book import COMMON, RuleBook
from inspection_rules.case import Case
from inspection_rules.judgement import Ruling
from inspection_rules.record import Part
from inspection_rules.rule import PRACTICE, Pack, Rule
from inspection_rules.words import Answer, Door, Mend, PartKind, Scope


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


def not_covered(case: Case, packs: tuple[Pack, ...]) -> Iterator[Ruling]:
    """Yield a hold for each part the loaded rules do not speak for: it has not been inspected."""
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


def nothing_asked(case: Case, needed: set[tuple[str, str]]) -> Iterator[Ruling]:
    """Yield a hold for a record of a kind that asks nothing of this item: it shows nothing."""
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


def unjudged_use(case: Case, packs: tuple[Pack, ...]) -> Iterator[Ruling]:
    """Yield a ruling on the use for whatever was said about it and no loaded rule judges."""
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
