"""Rulings on the other routes to slip: the eye's growth and the felt tip, by themselves and beside the marks.

A route that was read only ever adds a hold: what it does not show, it does not clear. No slip limit is published for a
fibre-rope splice; what is judged is whether movement shows beyond what such readings differ by.
"""

import math
from fractions import Fraction

from inspection_rules.case import Case
from inspection_rules.formulas import Bound
from inspection_rules.judgement import Ruling
from inspection_rules.measures.routes import ROUTES
from inspection_rules.quantity import Measured, NotMeasured, decimal_text
from inspection_rules.rule import Pack, RouteRule, Rule
from inspection_rules.rulings.numbers import good, numeric_ruling, probability, unmeasured
from inspection_rules.words import Answer, Door


def route_ruling(rule: Rule, route: RouteRule, pack: Pack, case: Case, part: str) -> Ruling | None:
    """Return what another route says of one splice; None where it was not read or is not comparable."""
    found = ROUTES[route.measure](case, part)
    if isinstance(found, NotMeasured):
        return unmeasured(rule, route.measure, found, pack, case, part)
    slip, sure = found.slip, float(route.hold_k) * found.slip.u
    answer: Answer = Answer.HOLD
    door: Door | None = Door.LOOK_AGAIN
    if float(slip.value) > sure:
        door, why = Door.REFER, "By this route the tail has come out beyond that."
    elif float(slip.value) < -sure:
        why = "Into the bury is not likely: another state, or read from another place. Read it again."
    elif found.marks is not None and _apart(slip, found.marks) > float(route.hold_k):
        why = f"The marks show {in_or_out(found.marks.value)}: the two do not agree. Read both again."
    else:
        answer, door, why = Answer.SERVICEABLE, None, "No movement that such a reading can show."
    at = Bound(Fraction(round(sure, 1)).limit_denominator(10), "mm", "what such readings differ by")
    margin = at.value - abs(slip.value)
    sentence = (
        f"{in_or_out(slip.value)} {slip.how}; this reading is good to ± {good(slip.u)} mm, and such readings differ "
        f"by up to {decimal_text(at.value)} mm. {why} No slip limit is published."
    )
    p = probability(float(margin), slip.u)
    return numeric_ruling(rule, route.measure, pack, case, part, answer, door, slip, at, margin, p, sentence)


def in_or_out(slip: Fraction) -> str:
    """Return a slip as people say it: 5 mm out, or in."""
    if slip == 0:
        return "0 mm"
    return f"{decimal_text(abs(slip))} mm {'out' if slip > 0 else 'in'}"


def _apart(route: Measured, marks: Measured) -> float:
    """How many u of their difference two slips lie apart."""
    return abs(float(route.value - marks.value)) / math.hypot(route.u, marks.u)
