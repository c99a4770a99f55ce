"""One rule: what it asks, what follows, what it applies to, and its source with how well that was verified."""

from typing import Any

from kivy.uix.widget import Widget

from app import rule_words
from app.touch.services import Services
from app.touch.widgets.card import Card
from app.touch.widgets.page import Page
from app.touch.widgets.words import Quiet, Title, Words
from inspection_rules.book import RuleBook
from inspection_rules.rule import Pack, Rule


class RulePage(Page):
    """All that one rule says."""

    def __init__(self, services: Services, app: Any, rule_id: str, **kwargs: Any) -> None:
        super().__init__(heading="Rule", **kwargs)
        self._services, self._app, self._id = services, app, rule_id

    def shown(self) -> None:
        """Find the rule."""
        self._services.records.do(
            lambda: _found(self._services.register.book(), self._id), lambda found: self._show(*found)
        )

    def _show(self, book: RuleBook, pack: Pack, rule: Rule) -> None:
        self.heading = rule.title
        self.under = pack.title
        answer = rule_words.outcome(rule)
        content: list[Widget] = [
            Card(
                answer=answer.value if answer else "",
                title=rule_words.outcome_words(rule).capitalize(),
                lines=[rule.fires, rule.action, "" if rule.needs else rule_words.mended(rule.mends)],
            ),
            Title(text="What it asks"),
            *(Words(text=text) for text in rule_words.asks(rule, book)),
            Title(text="Where it comes from"),
            Words(text=rule_words.citation(rule.source)),
            Words(text=rule_words.standing(rule.source), bold=True),
        ]
        criterion = book.criteria.get(rule.criterion)
        if criterion is not None:
            content += [Title(text="The criterion it applies"), Words(text=criterion.says)]
        if rule.cannot_bite_beside:
            content.append(Words(text="Beside a stricter rule on the same damage it changes nothing."))
        applies = rule_words.applies_to(rule.applies)
        content += [Title(text="What it applies to"), Words(text=applies or "Whatever is asked this question.")]
        content.append(Quiet(text=f"rule {rule.id} · pack {pack.id} {pack.version}"))
        self.fill(*content)


def _found(book: RuleBook, rule_id: str) -> tuple[RuleBook, Pack, Rule]:
    pack, rule = next((pack, rule) for pack in book.packs for rule in pack.rules if rule.id == rule_id)
    return book, pack, rule
