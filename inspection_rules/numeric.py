"""Rulings on numbers: a measure against a limit, and a measure that should stay still.

Beyond the limit is the rule's own outcome, compared exactly. Inside it with less than 95 % probability of
conforming is a hold to look again (guard band of JCGM 106, one-sided). `good to ±` on screen is 1.645 u: a
margin larger than that passes.
"""

from fractions import Fraction
from statistics import NormalDist

from inspection_rules.case import Case
from inspection_rules.due import after
from inspection_rules.formulas import Bound, bound
from inspection_rules.judgement import Ruling, decimal
from inspection_rules.measures import MEASURES
from inspection_rules.measures.size import nominal_diameter
from inspection_rules.measures.slip import (
    BEDDED,
    CONFIRMED_READINGS,
    earlier_baseline,
    is_bedded,
    movement_u,
    settled_by,
    settling,
    slip,
    track,
)
from inspection_rules.quantity import Measured, NotMeasured, Quantity, decimal_text
from inspection_rules.rule import Limit, Movement, Pack, Rule
from inspection_rules.words import Answer, Door, InspectionKind, Mend

REQUIRED_PROBABILITY = 0.95
Z = NormalDist().inv_cdf(REQUIRED_PROBABILITY)


def probability(margin: float, u: float) -> float:
    """Return the probability that the true value conforms, given how far inside the limit the reading lies.

    JCGM 106:2012, one-sided limit: Φ(margin / u). With u = 0 the comparison is exact.
    """
    if u == 0:
        return 1.0 if margin >= 0 else 0.0
    return NormalDist().cdf(margin / u)


def limit_ruling(rule: Rule, limit: Limit, pack: Pack, case: Case, part: str) -> Ruling | None:
    """Return what a limit says about one part; None when nothing was read and nothing hides there."""
    measured = MEASURES[limit.measure].compute(case, part)
    if isinstance(measured, NotMeasured):
        return _unmeasured(rule, limit.measure, measured, pack, case, part)
    at = bound(limit.bound, case, part)
    if isinstance(at, NotMeasured):
        return _unmeasured(rule, limit.measure, at, pack, case, part)
    if at.unit != measured.unit:
        at = Bound(Quantity("", at.value, at.unit).to(measured.unit), measured.unit, at.why)
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
    return _numeric(
        rule, limit.measure, pack, case, part, answer, door, measured, at, margin, p,
        _limit_sentence(measured, at, margin, limit.lower, u, conforms, door),
    )  # fmt: skip


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
        return _unmeasured(rule, movement.measure, measured, pack, case, part)
    if not again and (kind is InspectionKind.BEDDED_IN or not is_bedded(case, part)):
        return _settling_ruling(rule, movement, pack, case, part, measured)
    action = bound(movement.action, case, part)
    allowed = bound(movement.provisional, case, part)
    for limit in (action, allowed):
        if isinstance(limit, NotMeasured):
            return _unmeasured(rule, movement.measure, limit, pack, case, part)
    if isinstance(action, NotMeasured) or isinstance(allowed, NotMeasured):
        return None
    settled = settled_by(case, part)
    if settled is not None and settled > allowed.value:
        why = (
            f"the tail had come out {decimal_text(settled)} mm when the splice was recorded as bedded in, and "
            f"{decimal_text(allowed.value)} mm is the most a new one settles by"
        )
        return _unmeasured(rule, movement.measure, NotMeasured(why, attempted=True, refer=True), pack, case, part)
    answer, door, why = _moved(movement, case, part, measured, action)
    decided = _deciding(movement, case, part, action)
    margin = decided.value - abs(measured.value)
    p = probability(float(margin), measured.u)
    sentence = (
        f"{_signed(measured)} {measured.how}; this reading is good to ± {_good(measured.u)} mm. {why} "
        f"Action value {decimal_text(action.value)} mm ({action.why}); no slip limit is published."
    )
    return _numeric(rule, movement.measure, pack, case, part, answer, door, measured, decided, margin, p, sentence)


def _moved(
    movement: Movement, case: Case, part: str, measured: Measured, action: Bound
) -> tuple[Answer, Door | None, str]:
    followed = track(case, part, float(movement.hold_k))
    s, u = float(measured.value), followed.threshold_u
    sure = float(movement.hold_k) * u
    again = measured.n < CONFIRMED_READINGS
    if followed.steps >= movement.steps_to_remove:
        return Answer.REMOVE, None, f"It has moved {followed.steps} times since the splice was made."
    if followed.moved_now:
        if measured.value > action.value and not again:
            return Answer.HOLD, Door.REFER, "The tail has moved beyond the action value."
        if again:
            return Answer.HOLD, Door.LOOK_AGAIN, "That looks like movement: read it again now; the mean is judged."
        return Answer.HOLD, Door.REFER, f"The tail has moved: beyond the {sure:.1f} mm that readings differ by."
    if followed.back_now:
        if again:
            return Answer.HOLD, Door.LOOK_AGAIN, "Into the bury is not likely: read it again now, legs not swapped."
        return Answer.HOLD, Door.REFER, "Into the bury: a wrong mark or leg, another state, or work not recorded."
    if 2 * measured.u > float(action.value):
        return (
            Answer.HOLD,
            Door.LOOK_AGAIN,
            "Read this way it cannot show that nothing slipped: read the offset.",
        )
    if s + Z * measured.u > float(action.value):
        return Answer.HOLD, Door.LOOK_AGAIN, "It may be beyond the action value: read the offset directly, twice."
    if s > float(movement.watch_k) * u:
        return Answer.WATCH, None, "It may have moved."
    return Answer.SERVICEABLE, None, "No movement that readings can show."


def _deciding(movement: Movement, case: Case, part: str, action: Bound) -> Bound:
    """The limit that a ruling on movement shows: what readings differ by once it has moved, else the action value."""
    followed = track(case, part, float(movement.hold_k))
    if followed.moved_now or followed.back_now or followed.steps >= movement.steps_to_remove:
        sure = Fraction(round(float(movement.hold_k) * followed.threshold_u, 1)).limit_denominator(10)
        return Bound(sure, "mm", "what readings differ by")
    return action


def _settling_ruling(rule: Rule, movement: Movement, pack: Pack, case: Case, part: str, measured: Measured) -> Ruling:
    allowed = bound(movement.provisional, case, part)
    if isinstance(allowed, NotMeasured):
        held = _unmeasured(rule, movement.measure, allowed, pack, case, part)
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
        f"{_signed(measured)} {measured.how}; this reading is good to ± {_good(measured.u)} mm. {why} "
        f"Allowed until bedded in: {decimal_text(allowed.value)} mm."
    )
    return _numeric(rule, movement.measure, pack, case, part, answer, door, measured, allowed, margin, p, sentence)


def _doubt(outcome: Answer) -> tuple[Answer, Door | None]:
    """What doubt inside a limit leads to: a hold, but never worse than being beyond it."""
    if outcome is Answer.WATCH:
        return Answer.WATCH, None
    return Answer.HOLD, Door.LOOK_AGAIN


def _near(measured: Measured, at: Bound, limit: Limit) -> bool:
    fraction = Fraction(limit.watch_fraction or 1)
    return measured.value < at.value / fraction if limit.lower else measured.value > at.value * fraction


def _numeric(
    rule: Rule,
    measure: str,
    pack: Pack,
    case: Case,
    part: str,
    answer: Answer,
    door: Door | None,
    measured: Measured,
    at: Bound,
    margin: Fraction,
    p: float,
    sentence: str,
) -> Ruling:
    sentence += _dropped(measure, case, part)
    stopped = answer is not Answer.SERVICEABLE
    if answer is Answer.HOLD and door is Door.LOOK_AGAIN:
        action = "Do not use it; make the reading again."
    elif answer is Answer.REMOVE and rule.movement is not None:
        action = "Take it out of service; splice a new eye."
    else:
        action = rule.action
    return Ruling(
        rule=rule.id,
        pack=pack.id,
        title=rule.title,
        part=part,
        scope=rule.scope,
        answer=answer,
        door=door,
        observation=_station_of(measure, case, part),
        measure=measure,
        value=decimal(measured.value),
        limit=decimal(at.value),
        margin=decimal(margin),
        unit=measured.unit.removesuffix(" included"),
        u=decimal(measured.u, 4),
        u_source=measured.u_source,
        from_study=measured.from_study,
        probability=decimal(p, 4),
        source=rule.source,
        sentence=sentence,
        action=_watch_action(rule, answer) if answer is Answer.WATCH else (action if stopped else ""),
        mends=_mends(rule, answer, door) if stopped else Mend.NOTHING,
        look_again=after(measured.read_on or case.on, rule.look_again) if answer is Answer.WATCH else None,
    )


def _dropped(measure: str, case: Case, part: str) -> str:
    """Name every reading that was left out, with its reason: none is dropped in silence."""
    readings = (case.inspection.reading(part, name) for name in MEASURES[measure].observations)
    dropped = [one for reading in readings if reading is not None for one in reading.dropped]
    return "".join(f" Left out: {one.value} ({one.reason})." for one in dropped)


def _unmeasured(rule: Rule, measure: str, why: NotMeasured, pack: Pack, case: Case, part: str) -> Ruling | None:
    if not (why.attempted or why.never_known):
        return None
    answer = Answer.WATCH if why.never_known else Answer.HOLD
    door = None if why.never_known else (Door.REFER if why.refer else Door.LOOK_AGAIN)
    actions = {
        Door.REFER: "Do not use it; have a competent person supply what is missing.",
        Door.LOOK_AGAIN: "Do not use it; make the reading again.",
        None: "Use it; look again by the date given.",
    }
    return Ruling(
        rule=rule.id,
        pack=pack.id,
        title=rule.title,
        part=part,
        scope=rule.scope,
        answer=answer,
        door=door,
        observation=_station_of(measure, case, part),
        measure=measure,
        source=rule.source,
        sentence=why.reason[:1].upper() + why.reason[1:] + ("" if why.reason.endswith("?") else "."),
        action=actions[door],
        mends=Mend.LOOK,
        look_again=after(why.since or case.on, rule.look_again) if answer is Answer.WATCH else None,
    )


def _station_of(measure: str, case: Case, part: str) -> str:
    """The observation whose station shows this ruling: the one that was read, else the measure's first."""
    names = MEASURES[measure].observations
    return next((name for name in names if case.inspection.reading(part, name)), names[0])


def _mends(rule: Rule, answer: Answer, door: Door | None) -> Mend:
    """A removal, or a limit's own hold, asks for the rule's mending; movement and doubt ask for a look."""
    own = rule.limit is not None and door is Door.REFER
    return rule.mends if answer is Answer.REMOVE or own else Mend.LOOK


def _watch_action(rule: Rule, answer: Answer) -> str:
    return rule.action if rule.limit is not None and rule.limit.outcome is answer else "Use it; look again sooner."


def _limit_sentence(
    measured: Measured, at: Bound, margin: Fraction, lower: bool, u: float, conforms: bool, door: Door | None
) -> str:
    unit = measured.unit.removeprefix(" ")
    shown = "°" if unit.startswith("°") else (f" {unit}" if unit else "")
    points = " points" if unit == "%" else shown
    side = "least" if lower else "most"
    text = f"{decimal_text(measured.value)}{shown}, limit at {side} {decimal_text(at.value)}{shown}"
    if at.why:
        text += f" ({at.why})"
    if measured.how:
        text += f"; {measured.how}"
    if margin == 0:
        text += ". Exactly at the limit"
    else:
        text += f". {decimal_text(abs(margin))}{points} {'inside' if conforms else 'short' if lower else 'over'}"
    if u:
        text += f"; good to ± {_good(u)}{points}"
    if door is Door.LOOK_AGAIN:
        text += ": not enough to be sure"
    return text + "."


def _signed(measured: Measured) -> str:
    size = decimal_text(abs(measured.value))
    if measured.value == 0:
        return "0 mm"
    return f"{size} mm {'out' if measured.value > 0 else 'in'}"


def _good(u: float) -> str:
    return decimal_text(Fraction(Z * u))
