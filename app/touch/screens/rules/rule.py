"""One rule: what it asks, what follows, what it applies to, and its source with how well that was verified."""

from typing import Any

from kivy.uix.widget import Widget

from app import rule_words
from app.language import say, told
from app.touch.services import Services
from app.touch.widgets.card import Card
from app.touch.widgets.page import Page
from app.touch.widgets.words import Quiet, Title, Words
from inspection_rules.book import RuleBook
from inspection_rules.rule import Pack, Rule


class RulePage(Page):
    """All that one rule says."""

    def __init__(self, services: Services, app: Any, rule_id: str, **kwargs: Any) -> None:
        super().__init__(heading=say("Rule"), **kwargs)
        self._services, self._app, self._id = services, app, rule_id

    def shown(self) -> None:
        """Find the rule."""
        self._services.records.do(
            lambda: _found(self._services.register.book(), self._id), lambda found: self._show(*found)
        )

    def _show(self, book: RuleBook, pack: Pack, rule: Rule) -> None:
        self.heading = say(rule.title)
        self.under = say(pack.title)
        answer = rule_words.outcome(rule)
        content: list[Widget] = [
            Card(
                answer=answer.value if answer else "",
                title=_begun(told(rule_words.outcome_words(rule))),
                lines=[say(rule.fires), say(rule.action), "" if rule.needs else told(rule_words.mended(rule.mends))],
            ),
            Title(text=say("What it asks")),
            *(Words(text=told(text)) for text in rule_words.asks(rule, book)),
            Title(text=say("Where it comes from")),
            Words(text=told(rule_words.citation(rule.source))),
            Words(text=say(rule_words.standing(rule.source)), bold=True),
        ]
        criterion = book.criteria.get(rule.criterion)
        if criterion is not None:
            content += [Title(text=say("The criterion it applies")), Words(text=say(criterion.says))]
        if rule.cannot_bite_beside:
            content.append(Words(text=say("Beside a stricter rule on the same damage it changes nothing.")))
        applies = rule_words.applies_to(rule.applies)
        said = told(applies) if applies else say("Whatever is asked this question.")
        content += [Title(text=say("What it applies to")), Words(text=said)]
        content.append(
            Quiet(text=say("rule {rule} · pack {pack} {version}", rule=rule.id, pack=pack.id, version=pack.version))
        )
        self.fill(*content)


def _begun(text: str) -> str:
    return text[:1].upper() + text[1:]


def _found(book: RuleBook, rule_id: str) -> tuple[RuleBook, Pack, Rule]:
    pack, rule = next((pack, rule) for pack in book.packs for rule in pack.rules if rule.id == rule_id)
    return book, pack, rule
