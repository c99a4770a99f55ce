"""Rulings on combined damage: losses of load-bearing fibre close together that add up to one limit.

Each limit that combines gives a fraction: what was lost over what may be lost. Slip and diameter never add. Places
are used where they are known; a damage whose place is not known counts with every other.
"""

from fractions import Fraction

from inspection_rules.case import Case
from inspection_rules.formulas import bound
from inspection_rules.judgement import Ruling
from inspection_rules.measures import MEASURES
from inspection_rules.quantity import NotMeasured, decimal_text
from inspection_rules.rule import Combined, Limit, Pack, Rule
from inspection_rules.rulings.making import from_rule
from inspection_rules.words import Answer, PartKind, Scope

Damage = tuple[Fraction | None, Fraction, str]  # where it lies in mm from A, its fraction of the limit, its title


def combined_ruling(rule: Rule, combined: Combined, packs: tuple[Pack, ...], pack: Pack, case: Case, part: str) -> (
    Ruling | None
):  # fmt: skip
    """Return whether damages within reach of each other add up to a limit; None where fewer than two were read."""
    found = _damages(packs, case, part)
    if len(found) < 2:
        return None
    within = combined.within.to("mm")
    worst = max((_close_to(one, found, within) for one in found), key=lambda several: sum(d[1] for d in several))
    total = sum((damage[1] for damage in worst), Fraction(0))
    names = ", ".join(f"{decimal_text(share * 100, 0)} % of {title}" for _, share, title in worst)
    answer = combined.outcome if total >= 1 and len(worst) > 1 else Answer.SERVICEABLE
    sentence = f"{rule.fires} {names}." if answer is not Answer.SERVICEABLE else f"Together below one limit: {names}."
    return from_rule(rule, pack, part, answer, sentence, on=case.on)


def _damages(packs: tuple[Pack, ...], case: Case, part: str) -> list[Damage]:
    """Each damage once, as the largest fraction that any loaded limit makes of it."""
    own = case.item.part(part)
    largest: dict[tuple[str, int], Damage] = {}
    for pack in packs:
        for rule in pack.rules:
            limit = rule.limit
            if limit is None or not limit.combines or rule.scope is not Scope.ITEM:
                continue
            if not (rule.applies.to_item(case.item) and rule.applies.to_part(own)):
                continue
            for index, damage in enumerate(_fractions(rule, limit, case, part)):
                key = (limit.measure, index)
                if key not in largest or damage[1] > largest[key][1]:
                    largest[key] = damage
    return [damage for damage in largest.values() if damage[1] > 0]


def _fractions(rule: Rule, limit: Limit, case: Case, part: str) -> list[Damage]:
    measure = MEASURES[limit.measure]
    at = bound(limit.bound, case, part)
    if isinstance(at, NotMeasured) or at.value == 0:
        return []
    title = rule.title.lower()
    return [(place, value / at.value, title) for place, value in measure.damages(case, part)]


def _close_to(one: Damage, found: list[Damage], within: Fraction) -> list[Damage]:
    """The damages that lie within reach of one window that starts at this one; all where its place is not known."""
    if one[0] is None:
        return found
    return [other for other in found if other[0] is None or 0 <= other[0] - one[0] <= within]


COMBINES_ON = (PartKind.BODY,)
