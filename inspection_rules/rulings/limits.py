"""Rulings on limits: a measure against a bound.

Beyond the limit is the rule's own outcome, compared exactly. Inside it with less than 95 % probability of conforming
is a hold to look again.
"""

from dataclasses import dataclass, replace
from fractions import Fraction

from inspection_rules.case import Case
from inspection_rules.formulas import Bound, bound
from inspection_rules.judgement import Ruling
from inspection_rules.measures import MEASURES
from inspection_rules.quantity import Measured, NotMeasured, Quantity, decimal_text
from inspection_rules.rule import Limit, Pack, Rule
from inspection_rules.rulings.numbers import REQUIRED_PROBABILITY, good, numeric_ruling, probability, unmeasured
from inspection_rules.rulings.photographed import BY_HAND, without_photographs
from inspection_rules.rulings.repeated import REPEAT_K, with_doubtful
from inspection_rules.words import Answer, Door, Scope


def limit_ruling(rule: Rule, limit: Limit, pack: Pack, case: Case, part: str) -> Ruling | None:
    """Return what a limit says about one part; None when nothing was read and nothing hides there."""
    measured = MEASURES[limit.measure].compute(case, part)
    if isinstance(measured, NotMeasured):
        return unmeasured(rule, limit.measure, measured, pack, case, part)
    at = bound(limit.bound, case, part)
    if isinstance(at, NotMeasured):
        return unmeasured(rule, limit.measure, at, pack, case, part)
    if at.unit != measured.unit:
        at = Bound(Quantity("", at.value, at.unit).to(measured.unit), measured.unit, at.why)
    weighed = weigh(limit, measured, at)
    said = _limit_sentence(measured, at, limit, weighed)
    if weighed.answer is Answer.REMOVE and _rests_on_photographs(limit, case, part, at):
        weighed, said = replace(weighed, answer=Answer.HOLD, door=Door.LOOK_AGAIN), f"{said} {BY_HAND}"
    if weighed.passes and rule.scope is Scope.ITEM:
        again = _not_cleared(limit, case, part, measured, at)
        if again:
            answer, door = _doubt(limit.outcome)
            weighed, said = replace(weighed, answer=answer, door=door), f"{said} {again}"
    return numeric_ruling(
        rule, limit.measure, pack, case, part, weighed.answer, weighed.door, measured, at, weighed.margin,
        weighed.probability, said,
    )  # fmt: skip


@dataclass(frozen=True, slots=True)
class Weighed:
    """What a limit makes of a number.

    Attributes:
        margin: how far inside the limit it lies, in its unit; negative beyond it.
        probability: that the true value conforms.
        u: the standard uncertainty it was weighed with.
    """

    answer: Answer
    door: Door | None
    margin: Fraction
    probability: float
    conforms: bool
    u: float

    @property
    def passes(self) -> bool:
        """Whether it lies inside the limit beyond doubt."""
        return self.conforms and self.probability >= REQUIRED_PROBABILITY and self.door is None


def weigh(limit: Limit, measured: Measured, at: Bound) -> Weighed:
    """Return what a limit makes of a measured number, both in one unit.

    Beyond the bound, compared exactly: the limit's own outcome. Inside it with less than 95 % probability of
    conforming, or read too coarsely to tell: doubt. Inside and sure: serviceable, or watch where the limit says so.
    """
    margin = measured.value - at.value if limit.lower else at.value - measured.value
    conforms = margin > 0 or (margin == 0 and limit.equality_passes)
    u = measured.u if measured.guarded else 0.0
    p = probability(float(margin), u)
    blind = limit.detection_step is not None and 2 * u > float(limit.detection_step.to(measured.unit))
    answer: Answer
    door: Door | None
    if not conforms:
        answer, door = limit.outcome, Door.REFER if limit.outcome is Answer.HOLD else None
    elif p < REQUIRED_PROBABILITY or blind:
        answer, door = _doubt(limit.outcome)
    elif limit.watch_fraction is not None and _near(measured, at, limit):
        answer, door = Answer.WATCH, None
    else:
        answer, door = Answer.SERVICEABLE, None
    return Weighed(answer, door, margin, p, conforms, u)


def _rests_on_photographs(limit: Limit, case: Case, part: str, at: Bound) -> bool:
    """Whether it is beyond the bound only by what was read on photographs."""
    read = without_photographs(case)
    if read is None:
        return False
    measured = MEASURES[limit.measure].compute(read, part)
    return isinstance(measured, NotMeasured) or weigh(limit, measured, at).answer is not Answer.REMOVE


def _not_cleared(limit: Limit, case: Case, part: str, measured: Measured, at: Bound) -> str:
    """Say so where a pass repeats a reading that did not pass, and the mean of both does not clear it; else empty."""
    joined = with_doubtful(case, part, limit.measure, measured, lambda one: not weigh(limit, one, at).passes)
    if joined is None:
        return ""
    margin = joined.value - at.value if limit.lower else at.value - joined.value
    if float(margin) >= REPEAT_K * measured.u:
        return ""
    return (
        f"It repeats a reading that did not pass on {joined.since.isoformat()}: the mean, "
        f"{decimal_text(joined.value)}, is not yet far enough inside."
    )


def _doubt(outcome: Answer) -> tuple[Answer, Door | None]:
    """What doubt inside a limit leads to: a hold, but never worse than being beyond it."""
    if outcome is Answer.WATCH:
        return Answer.WATCH, None
    return Answer.HOLD, Door.LOOK_AGAIN


def _near(measured: Measured, at: Bound, limit: Limit) -> bool:
    fraction = Fraction(limit.watch_fraction or 1)
    return measured.value < at.value / fraction if limit.lower else measured.value > at.value * fraction


def _limit_sentence(measured: Measured, at: Bound, limit: Limit, weighed: Weighed) -> str:
    unit = measured.unit.removeprefix(" ")
    shown = "°" if unit.startswith(("° incl", "° from")) else (f" {unit}" if unit else "")
    points = " points" if unit == "%" else shown
    side = "least" if limit.lower else "most"
    text = f"{decimal_text(measured.value)}{shown}, limit at {side} {decimal_text(at.value)}{shown}"
    if at.why:
        text += f" ({at.why})"
    if measured.how:
        text += f"; {measured.how}"
    if weighed.margin == 0:
        text += ". Exactly at the limit"
    else:
        away = "inside" if weighed.conforms else "short" if limit.lower else "over"
        text += f". {decimal_text(abs(weighed.margin))}{points} {away}"
    if weighed.u:
        text += f"; good to ± {good(weighed.u)}{points}"
    if weighed.door is Door.LOOK_AGAIN:
        text += ": not enough to be sure"
    return text + "."
