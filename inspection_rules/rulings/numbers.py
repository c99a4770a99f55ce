"""Rulings on numbers: what limits and movement share.

`good to ±` on screen is 1.645 u: a margin larger than that passes (guard band of JCGM 106, one-sided).
"""

from fractions import Fraction
from statistics import NormalDist

from inspection_rules.case import Case
from inspection_rules.due import after
from inspection_rules.formulas import Bound
from inspection_rules.judgement import Ruling, decimal
from inspection_rules.measures import MEASURES
from inspection_rules.quantity import Measured, NotMeasured, decimal_text
from inspection_rules.rule import Pack, Rule
from inspection_rules.words import Answer, Door, Mend, Scope

REQUIRED_PROBABILITY = 0.95
Z = NormalDist().inv_cdf(REQUIRED_PROBABILITY)


def probability(margin: float, u: float) -> float:
    """Return the probability that the true value conforms, given how far inside the limit the reading lies.

    JCGM 106:2012, one-sided limit: Φ(margin / u). With u = 0 the comparison is exact.
    """
    if u == 0:
        return 1.0 if margin >= 0 else 0.0
    return NormalDist().cdf(margin / u)


def numeric_ruling(
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
    """Return what a rule says about a number: its value, limit, margin, doubt and probability beside the sentence."""
    sentence += _dropped(measure, case, part)
    stopped = answer is not Answer.SERVICEABLE
    if answer is Answer.HOLD and door is Door.LOOK_AGAIN and rule.scope is Scope.USE:
        action = f"Too near to be sure. {rule.action}"
    elif answer is Answer.HOLD and door is Door.LOOK_AGAIN:
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


def unmeasured(rule: Rule, measure: str, why: NotMeasured, pack: Pack, case: Case, part: str) -> Ruling | None:
    """Return what follows when a number could not be had: doubt holds, never-known is watched, nothing read is None."""
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
        action=actions[door] if rule.scope is Scope.ITEM else "Not for this use until that is known.",
        mends=Mend.LOOK,
        look_again=after(why.since or case.on, rule.look_again) if answer is Answer.WATCH else None,
    )


def good(u: float) -> str:
    """Return how far a reading with this standard uncertainty is good, as a number for people: ± 1.645 u."""
    return decimal_text(Fraction(Z * u))


def _dropped(measure: str, case: Case, part: str) -> str:
    """Name every reading that was left out, with its reason: none is dropped in silence."""
    readings = (case.inspection.reading(part, name) for name in MEASURES[measure].observations)
    dropped = [one for reading in readings if reading is not None for one in reading.dropped]
    return "".join(f" Left out: {one.value} ({one.reason})." for one in dropped)


def _station_of(measure: str, case: Case, part: str) -> str:
    """The observation whose station shows this ruling: the one that was read, else the measure's first."""
    names = MEASURES[measure].observations
    read = (name for name in names if case.inspection.reading(part, name))
    return next(read, names[0] if names else "")


def _mends(rule: Rule, answer: Answer, door: Door | None) -> Mend:
    """A removal, or a limit's own hold, asks for the rule's mending; movement and doubt ask for a look."""
    own = rule.limit is not None and door is Door.REFER
    return rule.mends if answer is Answer.REMOVE or own else Mend.LOOK


def _watch_action(rule: Rule, answer: Answer) -> str:
    return rule.action if rule.limit is not None and rule.limit.outcome is answer else "Use it; look again sooner."
