"""What may make a ruling milder: a maker's written instruction, and a condition a competent person accepted.

An instruction turns the removal by a rule on wear or cuts into a hold, never into a pass. An acceptance turns a hold
that asks for a competent look into a watch, for a time, while each look finds the thing no bigger.
"""

from inspection_rules.book import RuleBook
from inspection_rules.case import Case
from inspection_rules.due import after
from inspection_rules.judgement import Ruling
from inspection_rules.record import Acceptance
from inspection_rules.rule import Rule
from inspection_rules.words import Answer, Door, Mend

ACCEPTABLE = ("condition", "age", "fact")


def eased(ruling: Ruling, rule: Rule, case: Case, book: RuleBook) -> Ruling:
    """Return the ruling as the maker's instruction and the accepted conditions leave it."""
    if ruling.answer is Answer.REMOVE:
        return _by_instruction(ruling, rule, case, book)
    if ruling.answer is Answer.HOLD and ruling.door is Door.REFER and rule.body in ACCEPTABLE:
        return _by_acceptance(ruling, rule, case)
    return ruling


def _by_instruction(ruling: Ruling, rule: Rule, case: Case, book: RuleBook) -> Ruling:
    criterion = book.criteria.get(rule.criterion)
    if criterion is None or not criterion.yields:
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


def _by_acceptance(ruling: Ruling, rule: Rule, case: Case) -> Ruling:
    named = [one for one in case.accepted if _is_about(one, ruling) and one.at <= case.inspection.at]
    if not named:
        return ruling
    newest = max(named, key=lambda one: (one.at, one.id))
    if case.on > newest.until:
        return ruling.model_copy(
            update={"sentence": f"{ruling.sentence} It was accepted until {newest.until}; that has passed."}
        )
    if rule.body == "condition" and not _seen_no_bigger(newest, ruling, case):
        return ruling.model_copy(
            update={"sentence": f"{ruling.sentence} It is not what was accepted on {newest.on} ({newest.extent})."}
        )
    return ruling.model_copy(
        update={
            "answer": Answer.WATCH,
            "door": None,
            "sentence": f"{ruling.sentence} Accepted by {newest.by.name} on {newest.on} until {newest.until}: "
            f"{newest.extent}.",
            "action": "Use it; it must be no bigger than it was accepted.",
            "look_again": min(newest.until, after(case.inspection.on, rule.look_again)),
        }
    )


def _is_about(acceptance: Acceptance, ruling: Ruling) -> bool:
    return any((one.rule, one.part) == (ruling.rule, ruling.part) for one in acceptance.examined)


def _seen_no_bigger(acceptance: Acceptance, ruling: Ruling, case: Case) -> bool:
    finding = case.inspection.finding(ruling.part, ruling.observation)
    return finding is not None and acceptance.id in finding.accepted
