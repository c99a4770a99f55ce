"""Who may make an inspection: the rules that ask for a competence at one kind of look."""

from collections.abc import Iterable

from inspection_rules.book import RuleBook
from inspection_rules.item import Item
from inspection_rules.rule import Rule
from inspection_rules.words import Competence, InspectionKind


def examiner_rules(item: Item, kind: InspectionKind, regimes: Iterable[str], book: RuleBook) -> tuple[Rule, ...]:
    """Return the rules that say what competence this kind of inspection of this item takes."""
    return tuple(
        rule
        for pack in book.chosen(tuple(regimes), item)
        for rule in pack.rules
        if rule.needs and rule.needs.by and kind in rule.needs.inspection and rule.applies.to_item(item)
    )


def wanting(rules: Iterable[Rule], competence: Competence) -> tuple[Rule, ...]:
    """Return which of these rules will hold what a person of this competence examines."""
    return tuple(rule for rule in rules if rule.needs and rule.needs.by and competence not in rule.needs.by)
