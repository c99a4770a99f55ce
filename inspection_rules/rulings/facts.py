"""Rulings on what the item's own record must say."""

from inspection_rules.case import Case
from inspection_rules.judgement import Ruling
from inspection_rules.rule import FactRule, Pack, Rule
from inspection_rules.rulings.making import from_rule
from inspection_rules.words import Answer, Fibre


def fact_ruling(rule: Rule, fact: FactRule, pack: Pack, case: Case) -> Ruling | None:
    """Return whether the record says it; None at inspections of other kinds."""
    if case.inspection.kind not in fact.inspection:
        return None
    known = getattr(case.item, fact.field)
    if known in (None, "", Fibre.NOT_KNOWN):
        return from_rule(rule, pack, "", fact.outcome, rule.fires, on=case.on)
    return from_rule(rule, pack, "", Answer.SERVICEABLE, f"On record: {known}.", on=case.on)
