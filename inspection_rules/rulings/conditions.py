"""Rulings on what was seen: a finding and its outcome, graded by its extent where that was read."""

from collections.abc import Iterator

from inspection_rules.book import RuleBook, asked_of
from inspection_rules.case import Case
from inspection_rules.judgement import Ruling
from inspection_rules.measures import MEASURES
from inspection_rules.quantity import Measured
from inspection_rules.record import Finding
from inspection_rules.rule import ConditionRule, Pack, Rule
from inspection_rules.rulings.examined import hold, unseen
from inspection_rules.rulings.making import from_rule
from inspection_rules.words import COMPETENT, Answer, Scope, Seen

Needed = set[tuple[str, str]]


def condition_rulings(
    rule: Rule, condition: ConditionRule, pack: Pack, case: Case, book: RuleBook, needed: Needed
) -> Iterator[Ruling]:
    """Yield what a condition rule says about each part it is asked of and that was looked at."""
    observation = book.observations[condition.observation]
    for part in asked_of(rule, observation, case.item):
        said = observation.worded_for(case.item, part, case.regimes)
        finding = case.inspection.finding(part, condition.observation)
        if finding is None:
            continue
        if finding.seen in (Seen.NOT_EXAMINED, Seen.HIDDEN):
            # What the rules need is held once, by the rule that needs it; what was added freely is held here.
            why = unseen(observation, finding, case.inspection, case.item, book)
            if why is not None and (part, observation.id) not in needed:
                yield hold(rule.id, pack.id, said, part, why, rule.source)
            continue
        fires = finding.seen is Seen.PRESENT and bool(set(finding.conditions) & set(condition.when))
        if fires:
            yield _fired(rule, condition, pack, case, book, finding)
        elif finding.seen is Seen.ABSENT:
            yield from_rule(
                rule, pack, part, Answer.SERVICEABLE, f"{said.good}.", on=case.on, observation=observation.id
            )


def _fired(rule: Rule, condition: ConditionRule, pack: Pack, case: Case, book: RuleBook, finding: Finding) -> Ruling:
    observation, part = condition.observation, finding.part
    judged = _graded(condition, case, book, part)
    if judged:
        sentence = f"{rule.fires} Its extent was read, and a limit decides: {judged}."
        watched = from_rule(rule, pack, part, Answer.WATCH, sentence, on=case.on, observation=observation)
        return watched.model_copy(update={"action": "Use it while its limit allows; look at the place again sooner."})
    return from_rule(rule, pack, part, condition.outcome, rule.fires, on=case.on, observation=observation)


def _graded(condition: ConditionRule, case: Case, book: RuleBook, part: str) -> str:
    """Name the loaded limit on the extent of what was seen; empty where nothing grades it.

    Only what a competent person read grades, and only a published limit at least as grave as the condition itself: a
    site or a maker may tighten, so a limit of theirs takes nothing back.
    """
    if case.inspection.by.competence not in COMPETENT:
        return ""
    own = case.item.part(part) if part else None
    for name in condition.graded_by:
        if not isinstance(MEASURES[name].compute(case, part), Measured):
            continue
        for pack in book.chosen(case.regimes, case.item):
            for rule in pack.rules:
                if rule.limit is None or rule.limit.measure != name or rule.scope is not Scope.ITEM:
                    continue
                mild = rule.limit.outcome.severity < condition.outcome.severity
                if mild or rule.source.kind in ("site", "maker", "common practice"):
                    continue
                if rule.applies.to_item(case.item) and (own is None or rule.applies.to_part(own)):
                    return rule.title.lower()
    return ""
