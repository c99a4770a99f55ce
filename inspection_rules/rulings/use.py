"""Rulings on this use: what it must not meet, and what was said about it that no loaded rule judges."""

from collections.abc import Iterator

from inspection_rules.case import Case, Use
from inspection_rules.judgement import Ruling
from inspection_rules.measures import MEASURES
from inspection_rules.rule import Meets, Pack, Rule
from inspection_rules.rulings.making import from_rule, without_rule
from inspection_rules.words import Answer, Moisture, Scope


def meets_rulings(rule: Rule, meets: Meets, pack: Pack, case: Case) -> Iterator[Ruling]:
    """Yield that this is not for this use where it meets what the rule forbids."""
    use = case.use
    if use is None:
        return
    met = set(use.chemicals) & set(meets.chemicals)
    state = use.moisture is not None and use.moisture in meets.moisture
    if met or state or (meets.persons and use.persons):
        yield from_rule(rule, pack, "", Answer.HOLD, rule.fires, on=case.on)


def unjudged_use(case: Case, packs: tuple[Pack, ...]) -> Iterator[Ruling]:
    """Yield a ruling on the use for whatever was said about it and no loaded rule judges."""
    use = case.use
    if use is None:
        return
    rules = [
        rule for pack in packs for rule in pack.rules if rule.scope is Scope.USE and rule.applies.to_item(case.item)
    ]
    judged = {field for rule in rules if rule.limit is not None for field in MEASURES[rule.limit.measure].uses}
    for field, title, words in _said(use):
        if field not in judged:
            yield _no_word(title, f"No loaded rule judges {words}.")
    forbidden = {chemical for rule in rules if rule.meets is not None for chemical in rule.meets.chemicals}
    for chemical in use.chemicals:
        if chemical not in forbidden:
            yield _no_word("Chemical", f"No loaded rule judges {case.item.fibre} in {chemical}: ask its maker.")
    if (
        use.persons
        and not any(rule.meets is not None and rule.meets.persons for rule in rules)
        and ("persons" not in judged)
    ):
        yield _no_word("Persons", f"No loaded rule judges a person on a {case.item.kind} for {case.item.duty}.")
    if use.moisture is Moisture.FROZEN and not any(
        rule.meets is not None and Moisture.FROZEN in rule.meets.moisture for rule in rules
    ):
        yield _no_word("Frozen", "No loaded rule judges it frozen.")


def _said(use: Use) -> Iterator[tuple[str, str, str]]:
    if use.pin_diameter is not None:
        yield "pin_diameter", "Pin", f"an eye on a pin of {use.pin_diameter}"
    if use.load is not None:
        yield "load", "Load", f"a load of {use.load}"
    if use.leg_angle is not None:
        yield "leg_angle", "Angle of the legs", f"legs at {use.leg_angle}"
    if use.hitch is not None:
        yield "hitch", "Hitch", f"a {use.hitch} hitch"
    if use.hottest is not None:
        yield "hottest", "Heat", f"heat of {use.hottest}"
    if use.coldest is not None:
        yield "coldest", "Cold", f"cold of {use.coldest}"


def _no_word(title: str, sentence: str) -> Ruling:
    action = "Not for this use on this tool's word; have a competent person work it out."
    return without_rule("no-rule", title, "", sentence, action, scope=Scope.USE)
