"""What may make a ruling milder: a maker's written instruction, and a condition a competent person accepted.

An instruction turns the removal by a rule on wear or cuts into a hold, never into a pass; such a hold is not accepted.
It eases nothing that a person hangs on.
An acceptance turns a hold that asks for a competent look into a watch, for a time, while each look finds the thing no
bigger. Numbers, what was not looked at, what wants work or an examination, a rule that says so of itself (a sign of
slip, what could not be told), and what happened since the last time are never accepted: the last is an event, and the
next one is another.
"""

from fractions import Fraction

from inspection_rules.book import RuleBook
from inspection_rules.case import Case
from inspection_rules.due import after
from inspection_rules.events import Acceptance
from inspection_rules.judgement import Ruling
from inspection_rules.mending import WORK_MENDS
from inspection_rules.places import place_now
from inspection_rules.record import Finding, Inspection
from inspection_rules.rule import Rule
from inspection_rules.walk import LAST_STATION
from inspection_rules.words import Answer, Door, Duty, Mend, Scope

ACCEPTABLE = ("condition", "age", "fact")
# Common practice, no source: how exactly a place along a soft rope is found again, at least and in its length.
NEAR_MM, NEAR_PART = Fraction(100), Fraction(1, 100)


def eased(ruling: Ruling, rule: Rule, case: Case, book: RuleBook) -> Ruling:
    """Return the ruling as the maker's instruction and the accepted conditions leave it."""
    if ruling.answer is Answer.REMOVE:
        return _by_instruction(ruling, rule, case, book)
    if _may_be_accepted(ruling, rule, book):
        return _by_acceptance(ruling.model_copy(update={"if_accepted": rule.look_again}), rule, case)
    return ruling


def _by_instruction(ruling: Ruling, rule: Rule, case: Case, book: RuleBook) -> Ruling:
    criterion = book.criteria.get(rule.criterion)
    if criterion is None or not criterion.yields or case.item.duty is Duty.LIFE_SUPPORT:
        return ruling
    for instruction in case.item.instructions:
        if rule.id in instruction.rules:
            said = f"{ruling.sentence} By the maker's instruction, {instruction.document}, a competent person decides: "
            return ruling.model_copy(
                update={
                    "answer": Answer.HOLD,
                    "door": Door.REFER,
                    "sentence": f"{said}{instruction.reason}",
                    "action": "Do not use it; have a competent person decide by the maker's instruction.",
                    "mends": Mend.LOOK,
                }
            )
    return ruling


def _may_be_accepted(ruling: Ruling, rule: Rule, book: RuleBook) -> bool:
    if ruling.answer is not Answer.HOLD or ruling.door is not Door.REFER or ruling.scope is not Scope.ITEM:
        return False
    if not rule.acceptable or rule.body not in ACCEPTABLE or ruling.mends in WORK_MENDS or ruling.mends is Mend.EXAMINE:
        return False
    if rule.age is not None and rule.age.outcome is not Answer.HOLD:
        return False  # a binding life: where the day it began is not known it holds, and nobody accepts that away
    observation = book.observations.get(ruling.observation)
    return observation is None or observation.station != LAST_STATION


def _by_acceptance(ruling: Ruling, rule: Rule, case: Case) -> Ruling:
    named = [(one, seen) for one in case.accepted if (seen := _examined(one, ruling, case)) is not None]
    if not named:
        return ruling
    newest, seen = max(named, key=lambda pair: (pair[0].at, pair[0].id))
    if case.on > newest.until:
        return ruling.model_copy(
            update={"sentence": f"{ruling.sentence} It was accepted until {newest.until}; that has passed."}
        )
    if rule.condition is not None:
        why = _is_more(newest, seen, rule.condition.when, ruling, case)
        if why:
            said = f"{ruling.sentence} It is not what was accepted on {newest.on} ({newest.extent}): {why}."
            return ruling.model_copy(update={"sentence": said})
    return ruling.model_copy(
        update={
            "answer": Answer.WATCH,
            "door": None,
            "sentence": f"{ruling.sentence} Accepted by {newest.by.name} on {newest.on} until {newest.until}: "
            f"{newest.extent}.",
            "action": "Use it; it must be no bigger than it was accepted.",
            "look_again": min(newest.until, after(case.inspection.on, rule.look_again)),
            "accepted": newest.id,
        }
    )


def _examined(acceptance: Acceptance, ruling: Ruling, case: Case) -> Inspection | None:
    """The latest inspection of which this acceptance examined this ruling.

    It must be on record, made before the acceptance, and of this splice: what was made anew since has nothing accepted.
    """
    if acceptance.at >= case.inspection.at:
        return None
    names = {one.inspection for one in acceptance.examined if (one.rule, one.part) == (ruling.rule, ruling.part)}
    history = case.since_made(ruling.part) if ruling.part else case.history
    found = [one for one in history if one.id in names and one.at <= acceptance.at]
    return found[-1] if found else None


def _is_more(acceptance: Acceptance, seen: Inspection, conditions: tuple[str, ...], ruling: Ruling, case: Case) -> str:
    """Say what is more than was accepted; empty when each thing seen is no more."""
    now = case.inspection.finding(ruling.part, ruling.observation)
    then = seen.finding(ruling.part, ruling.observation)
    if now is None or acceptance.id not in now.accepted:
        return "nobody said it is no bigger"
    if then is None or not set(now.conditions) & set(conditions) <= set(then.conditions):
        return "something else is seen"
    if now.places and then.places and not _at_accepted_places(now, then, seen, case):
        return "it is in another place"
    return ""


def _at_accepted_places(now: Finding, then: Finding, seen: Inspection, case: Case) -> bool:
    """Whether each place is one that was accepted, none twice: the shift by what was cut off counted in."""
    moved = [place_now(place, seen.at, case.work) for place in then.places]
    free = sorted(place for place in moved if place is not None)
    for place in sorted(one.to("mm") for one in now.places):
        near = [one for one in free if abs(one - place) <= max(NEAR_MM, one * NEAR_PART)]
        if not near:
            return False
        free.remove(near[0])
    return True
