"""Rulings on movement: a measure that should stay still between visits, the slip of a buried tail.

No slip limit is published for a fibre-rope splice; what is judged is that movement shows, and the site's action value.
"""

from fractions import Fraction

from inspection_rules.case import Case
from inspection_rules.formulas import Bound, bound
from inspection_rules.judgement import Ruling
from inspection_rules.measures.size import nominal_diameter
from inspection_rules.measures.slip import earlier_baseline, is_bedded, settled_by, settling, slip
from inspection_rules.measures.track import BEDDED, Motion, Threshold, Track, movement_u, track
from inspection_rules.quantity import Measured, NotMeasured, decimal_text
from inspection_rules.rule import Movement, Pack, Rule
from inspection_rules.rulings.numbers import REQUIRED_PROBABILITY, Z, good, numeric_ruling, probability, unmeasured
from inspection_rules.rulings.photographed import BY_HAND, without_photographs
from inspection_rules.rulings.routes import in_or_out
from inspection_rules.words import Answer, Door, InspectionKind


def movement_ruling(rule: Rule, movement: Movement, pack: Pack, case: Case, part: str) -> Ruling | None:
    """Return what movement says about one splice.

    Before bedding in the tail may settle by the provisional allowance. After it, slip is judged against the
    bedded baseline and the last confirmed value, and, doubt included, against the action value.
    """
    kind = case.inspection.kind
    again = kind in BEDDED and earlier_baseline(case, part) is not None
    if kind is InspectionKind.AS_MADE or (kind is InspectionKind.AS_FOUND and not again):
        return None  # these set the marks; whether they can be used is for the rules on needed observations
    measured = settling(case, part) if kind in BEDDED else slip(case, part)
    if isinstance(measured, NotMeasured):
        return unmeasured(rule, movement.measure, measured, pack, case, part)
    if not again and (kind is InspectionKind.BEDDED_IN or not is_bedded(case, part)):
        return _settling_ruling(rule, movement, pack, case, part, measured)
    action = bound(movement.action, case, part)
    allowed = bound(movement.provisional, case, part)
    for limit in (action, allowed):
        if isinstance(limit, NotMeasured):
            return unmeasured(rule, movement.measure, limit, pack, case, part)
    if isinstance(action, NotMeasured) or isinstance(allowed, NotMeasured):
        return None
    settled = settled_by(case, part)
    if settled is not None and settled > allowed.value:
        why = (
            f"the tail had come out {decimal_text(settled)} mm when the splice was recorded as bedded in, and "
            f"{decimal_text(allowed.value)} mm is the most a new one settles by"
        )
        return unmeasured(rule, movement.measure, NotMeasured(why, attempted=True, refer=True), pack, case, part)
    followed = track(case, part, threshold(movement))
    answer, door, why = _moved(movement, followed, _read_steps(movement, followed, case, part), measured, action)
    decided = _deciding(movement, followed, action)
    margin = decided.value - abs(measured.value)
    p = probability(float(margin), measured.u)
    sentence = (
        f"{in_or_out(measured.value)} {measured.how}; this reading is good to ± {good(measured.u)} mm. {why} "
        f"Action value {decimal_text(action.value)} mm ({action.why}); no slip limit is published."
    )
    return numeric_ruling(
        rule, movement.measure, pack, case, part, answer, door, measured, decided, margin, p, sentence
    )


def threshold(movement: Movement) -> Threshold:
    """Return what the rule says tells movement from what readings differ by."""
    return Threshold(float(movement.hold_k), tuple((one.readings, float(one.k)) for one in movement.confirmed))


def _read_steps(movement: Movement, followed: Track, case: Case, part: str) -> int:
    """How many times it was confirmed to have moved by more than photographs."""
    read = without_photographs(case) if followed.steps >= movement.steps_to_remove else None
    return followed.steps if read is None else track(read, part, threshold(movement)).steps


def _moved(
    movement: Movement, followed: Track, read_steps: int, measured: Measured, action: Bound
) -> tuple[Answer, Door | None, str]:
    s, u = float(measured.value), followed.threshold_u
    sure = f"{float(movement.hold_k) * u:.1f} mm that readings differ by"
    asked = movement.confirmed[0].readings
    again = f"read it again now, the offset directly, until there are {asked} readings; their mean is judged."
    if followed.steps >= movement.steps_to_remove:
        why = f"It has moved {followed.steps} times since the splice was made."
        if read_steps >= movement.steps_to_remove:
            return Answer.REMOVE, None, why
        return Answer.HOLD, Door.REFER, f"{why} {BY_HAND}"
    if followed.moved_now is Motion.CONFIRMED:
        if measured.value > action.value:
            return Answer.HOLD, Door.REFER, "The tail has moved beyond the action value."
        return Answer.HOLD, Door.REFER, f"The tail has moved: beyond the {sure}."
    if followed.back_now is Motion.CONFIRMED:
        return Answer.HOLD, Door.REFER, "Into the bury: a wrong mark or leg, another state, or work not recorded."
    if followed.moved_now is Motion.AGAIN:
        return Answer.HOLD, Door.LOOK_AGAIN, f"That looks like movement, beyond the {sure}: {again}"
    if followed.back_now is Motion.AGAIN:
        return Answer.HOLD, Door.LOOK_AGAIN, f"Into the bury is not likely, legs not swapped? Then {again}"
    if 2 * measured.u > float(action.value):
        return (
            Answer.HOLD,
            Door.LOOK_AGAIN,
            "Read this way it cannot show that nothing slipped: read the offset.",
        )
    if s + Z * measured.u > float(action.value):
        return Answer.HOLD, Door.LOOK_AGAIN, "It may be beyond the action value: read the offset directly, twice."
    if s > float(movement.watch_k) * u or -s > float(movement.hold_k) * u:
        return Answer.WATCH, None, "It may have moved."
    return Answer.SERVICEABLE, None, "No movement that readings can show."


def _deciding(movement: Movement, followed: Track, action: Bound) -> Bound:
    """The limit that a ruling on movement shows: what readings differ by once it has moved, else the action value."""
    shows = max(followed.moved_now, followed.back_now) is not Motion.NONE
    if shows or followed.steps >= movement.steps_to_remove:
        sure = Fraction(round(float(movement.hold_k) * followed.threshold_u, 1)).limit_denominator(10)
        return Bound(sure, "mm", "what readings differ by")
    return action


def _settling_ruling(rule: Rule, movement: Movement, pack: Pack, case: Case, part: str, measured: Measured) -> Ruling:
    allowed = bound(movement.provisional, case, part)
    if isinstance(allowed, NotMeasured):
        held = unmeasured(rule, movement.measure, allowed, pack, case, part)
        if held is not None:
            return held
        raise ValueError(f"rule {rule.id}: the provisional allowance has no value")
    margin = allowed.value - measured.value
    p = probability(float(margin), measured.u)
    bedding = case.inspection.kind is InspectionKind.BEDDED_IN
    sure = float(movement.hold_k) * movement_u(nominal_diameter(case.item) or Fraction(48))
    if margin < 0:
        answer, door, why = Answer.HOLD, Door.REFER, "More than a new splice settles by."
    elif measured.value < -sure:
        answer, door, why = Answer.HOLD, Door.REFER, "Into the bury: a wrong mark or leg, or another state."
    elif p < REQUIRED_PROBABILITY:
        answer, door, why = Answer.HOLD, Door.LOOK_AGAIN, "It may be more than a new splice settles by."
    elif bedding:
        answer, door, why = Answer.SERVICEABLE, None, "Settled; slip is reckoned from here."
    else:
        answer, door, why = Answer.WATCH, None, "A new splice settles; record it as bedded in."
    sentence = (
        f"{in_or_out(measured.value)} {measured.how}; this reading is good to ± {good(measured.u)} mm. {why} "
        f"Allowed until bedded in: {decimal_text(allowed.value)} mm."
    )
    return numeric_ruling(
        rule, movement.measure, pack, case, part, answer, door, measured, allowed, margin, p, sentence
    )
