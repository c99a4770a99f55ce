"""How a ruling is put together: from its rule, or where no rule speaks."""

from datetime import date

from inspection_rules.book import COMMON
from inspection_rules.due import after
from inspection_rules.judgement import Ruling
from inspection_rules.rule import PRACTICE, Pack, Rule
from inspection_rules.words import Answer, Door, InspectionKind, Mend, Scope


def from_rule(
    rule: Rule,
    pack: Pack,
    part: str,
    answer: Answer,
    sentence: str,
    *,
    on: date,
    door: Door | None = None,
    observation: str = "",
    closed_by: tuple[InspectionKind, ...] = (),
) -> Ruling:
    """Return what a rule without a number says: its own action and mending where it stops the item.

    Args:
        on: the local date a watch is reckoned from.
        door: how a hold is left; refer where not given.
        closed_by: the kinds of inspection that close it, where an examination does.
    """
    stopped = answer is not Answer.SERVICEABLE
    return Ruling(
        rule=rule.id,
        pack=pack.id,
        title=rule.title,
        part=part,
        scope=rule.scope,
        answer=answer,
        door=(door or Door.REFER) if answer is Answer.HOLD else None,
        observation=observation,
        source=rule.source,
        sentence=sentence,
        action=rule.action if stopped else "",
        mends=rule.mends if stopped else Mend.NOTHING,
        look_again=after(on, rule.look_again) if answer is Answer.WATCH else None,
        closed_by=closed_by,
    )


def without_rule(
    name: str,
    title: str,
    part: str,
    sentence: str,
    action: str,
    *,
    observation: str = "",
    scope: Scope = Scope.ITEM,
) -> Ruling:
    """Return the hold, for a competent person, where no loaded rule speaks: what is not judged does not pass."""
    return Ruling(
        rule=name,
        pack=COMMON,
        title=title,
        part=part,
        scope=scope,
        answer=Answer.HOLD,
        door=Door.REFER,
        observation=observation,
        source=PRACTICE,
        sentence=sentence,
        action=action,
        mends=Mend.LOOK,
    )
