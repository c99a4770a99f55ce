"""Rulings on what an inspection must contain, and on who makes it."""

from collections.abc import Iterator

from inspection_rules.book import RuleBook, asked_of
from inspection_rules.case import Case
from inspection_rules.judgement import Ruling
from inspection_rules.rule import Needs, Pack, Rule
from inspection_rules.rulings.examined import hold, lack, spoken_of
from inspection_rules.rulings.making import from_rule
from inspection_rules.words import Answer


def needs_rulings(rule: Rule, needs: Needs, pack: Pack, case: Case, book: RuleBook) -> Iterator[Ruling]:
    """Yield a hold for each observation that is missing, and one where the person's competence does not do."""
    if case.inspection.kind not in needs.inspection:
        return
    for name in needs.observations:
        observation = book.observations[name]
        for part in spoken_of(asked_of(rule, observation, case.item), case.inspection, case.item):
            why = lack(observation, part, case.inspection, case.item, book)
            if why is not None:
                said = observation.worded_for(case.item, part, case.regimes)
                yield hold(rule.id, pack.id, said, part, why, rule.source)
    if needs.by and case.inspection.by.competence not in needs.by:
        held = from_rule(
            rule,
            pack,
            "",
            Answer.HOLD,
            f"This was made by a {case.inspection.by.competence}; it takes a {' or a '.join(needs.by)}.",
            on=case.on,
            closed_by=(case.inspection.kind,),
        )
        yield held.model_copy(update={"action": "Do not use it; have a competent person make the examination."})
