"""Rulings on combined damage: losses of load-bearing fibre close together that add up to one limit.

Each limit that combines makes a fraction of a damage: what was lost over what may be lost. A damage counts once, as
the largest fraction that any loaded limit makes of it, whichever measures it was read by. Slip and diameter never
add: their limits do not combine. Places are used where they are known; a damage whose place is not known counts with
every other. The sum is judged like any number: from one on it is beyond, and below one it carries the doubt of all
the readings in it.
"""

import math
from collections.abc import Iterator
from fractions import Fraction
from typing import NamedTuple

from inspection_rules.case import Case
from inspection_rules.formulas import bound
from inspection_rules.judgement import Ruling, decimal
from inspection_rules.measures import MEASURES
from inspection_rules.quantity import NotMeasured, Quantity, decimal_text
from inspection_rules.rule import Combined, Limit, Pack, Rule
from inspection_rules.rulings.making import from_rule
from inspection_rules.rulings.numbers import REQUIRED_PROBABILITY, good, probability
from inspection_rules.rulings.photographed import BY_HAND, without_photographs
from inspection_rules.words import Answer, Door, Mend, Scope


class Share(NamedTuple):
    """One damage as a share of the limit it comes nearest to; `place` in mm from end A, None when not known."""

    place: Fraction | None
    of_limit: Fraction
    u: float
    title: str
    observation: str


class Sum(NamedTuple):
    """Damages close enough to add up, and what they come to."""

    shares: tuple[Share, ...]
    total: Fraction
    u: float


def combined_ruling(
    rule: Rule, combined: Combined, packs: tuple[Pack, ...], pack: Pack, case: Case, part: str
) -> Ruling | None:
    """Return whether damages close to each other add up to one limit; None where fewer than two were read."""
    found = _shares(packs, case, part)
    if len(found) < 2:
        return None
    observation = found[0].observation
    sums = [_sum(near) for near in _close(found, combined.within.to("mm")) if len(near) > 1]
    if not sums:
        sentence = f"No two damages lie within {combined.within} of each other."
        return from_rule(rule, pack, part, Answer.SERVICEABLE, sentence, on=case.on, observation=observation)
    worst = min(sums, key=_nearness)
    margin = 1 - worst.total
    answer: Answer
    door: Door | None
    p = probability(float(margin), worst.u) if margin > 0 else 0.0
    if margin <= 0:
        answer, door, opening = combined.outcome, None, rule.fires
        read = without_photographs(case)
        if answer is Answer.REMOVE and read is not None and not _removes(rule, combined, packs, pack, read, part):
            answer, door, opening = Answer.HOLD, Door.LOOK_AGAIN, f"{rule.fires} {BY_HAND}"
    elif p < REQUIRED_PROBABILITY:
        answer, door, opening = Answer.HOLD, Door.LOOK_AGAIN, "Together too near one limit to be sure."
    else:
        answer, door, opening = Answer.SERVICEABLE, None, "Together below one limit."
    ruling = from_rule(
        rule, pack, part, answer, f"{opening} {_account(worst)}", on=case.on, door=door, observation=observation
    )
    update = {
        "value": decimal(worst.total * 100),
        "limit": decimal(100),
        "margin": decimal(margin * 100),
        "unit": "%",
        "u": decimal(worst.u * 100, 4),
        "u_source": "of these readings together",
        "probability": decimal(p, 4),
    }
    if door is Door.LOOK_AGAIN:
        update |= {"action": "Do not use it; read each damage and its place again.", "mends": Mend.LOOK}
    return ruling.model_copy(update=update)


def _removes(rule: Rule, combined: Combined, packs: tuple[Pack, ...], pack: Pack, case: Case, part: str) -> bool:
    ruling = combined_ruling(rule, combined, packs, pack, case, part)
    return ruling is not None and ruling.answer is Answer.REMOVE


def _shares(packs: tuple[Pack, ...], case: Case, part: str) -> list[Share]:
    """Each damage once, as the largest share that any loaded limit makes of it.

    The key is the reading and which of its values it is: measures computed from the same reading speak of the same
    damages, in the order of its values.
    """
    own = case.item.part(part)
    largest: dict[tuple[str, int], Share] = {}
    for pack in packs:
        for rule in pack.rules:
            limit = rule.limit
            if limit is None or not limit.combines or rule.scope is not Scope.ITEM:
                continue
            if not (rule.applies.to_item(case.item) and rule.applies.to_part(own)):
                continue
            for index, share in enumerate(_shares_of(rule, limit, case, part)):
                key = (share.observation, index)
                if key not in largest or _weight(share) > _weight(largest[key]):
                    largest[key] = share
    return sorted((share for share in largest.values() if share.of_limit > 0), key=_order)


def _shares_of(rule: Rule, limit: Limit, case: Case, part: str) -> Iterator[Share]:
    measure = MEASURES[limit.measure]
    at = bound(limit.bound, case, part)
    if isinstance(at, NotMeasured):
        return  # the limit's own ruling already holds it
    most = Quantity("", at.value, at.unit).to(measure.unit)
    if most == 0:
        return
    for damage in measure.damages(case, part):
        share = damage.size / most
        yield Share(damage.place, share, damage.u / float(most), rule.title.lower(), measure.observations[0])


def _weight(share: Share) -> tuple[Fraction, float]:
    return share.of_limit, share.u


def _order(share: Share) -> tuple[bool, Fraction, Fraction]:
    """Along the rope, those of unknown place last, the largest first."""
    return share.place is None, share.place or Fraction(0), -share.of_limit


def _close(found: list[Share], within: Fraction) -> Iterator[tuple[Share, ...]]:
    """Yield every set of damages that fits a stretch of the rope `within` long, with all of unknown place."""
    placed = [share for share in found if share.place is not None]
    unplaced = tuple(share for share in found if share.place is None)
    if not placed:
        yield unplaced
    for first in placed:
        start = first.place or Fraction(0)
        yield *(share for share in placed if 0 <= (share.place or Fraction(0)) - start <= within), *unplaced


def _sum(near: tuple[Share, ...]) -> Sum:
    total = sum((share.of_limit for share in near), Fraction(0))
    return Sum(near, total, math.hypot(*(share.u for share in near)))


def _nearness(several: Sum) -> tuple[float, Fraction]:
    """Smallest where the sum is likeliest to reach one limit: in standard uncertainties, then by itself."""
    margin = 1 - several.total
    if several.u == 0:
        return (math.inf if margin > 0 else -math.inf), margin
    return float(margin) / several.u, margin


def _account(several: Sum) -> str:
    parts = ", ".join(
        f"{decimal_text(share.of_limit * 100, 0)} % of {share.title}"
        + (f" at {decimal_text(share.place / 1000, 2)} m" if share.place is not None else "")
        for share in several.shares
    )
    doubt = f"; good to ± {good(several.u * 100)} points" if several.u else ""
    return f"Together {decimal_text(several.total * 100, 0)} % of one limit{doubt}: {parts}."
