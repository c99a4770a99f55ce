"""The rules of one regime, as a list that is searched while typing."""

from typing import Any

from app import rule_words
from app.language import say, told
from app.touch.screens.rules.listed import Listed, ListedPage
from app.touch.screens.rules.rule import RulePage
from app.touch.services import Services
from inspection_rules.book import RuleBook
from inspection_rules.rule import Pack, Rule


class RuleListPage(ListedPage):
    """Rules as rows; tapping one shows all it says. Those that use it say which rules in `wanted`."""

    def __init__(self, services: Services, app: Any, heading: str, **kwargs: Any) -> None:
        super().__init__(app.theme, heading=heading, **kwargs)
        self._services, self._app = services, app

    def wanted(self, pack: Pack, rule: Rule) -> bool:
        """Whether a rule is listed here."""
        return True

    def shown(self) -> None:
        """Write the rows, away from the window's thread."""
        self._services.records.do(self._rows_of, self.list)

    def open(self, key: str) -> None:
        """Show all that a rule says."""
        self.manager.push(RulePage(self._services, self._app, key))

    def _rows_of(self) -> tuple[Listed, ...]:
        book = self._services.register.book()
        found = [rule for pack in book.packs for rule in pack.rules if self.wanted(pack, rule)]
        # What must be looked at stands after what is judged: limits are what people come for.
        return tuple(listed(rule, book) for rule in sorted(found, key=lambda rule: rule.needs is not None))


class RegimePage(RuleListPage):
    """The rules of one regime; of common practice while `regime` is empty."""

    def __init__(self, services: Services, app: Any, regime: str, heading: str, **kwargs: Any) -> None:
        super().__init__(services, app, heading, **kwargs)
        self._regime = regime

    def wanted(self, pack: Pack, rule: Rule) -> bool:
        """Whether it is a rule of this regime."""
        return pack.regime == self._regime and not pack.maker


class SpokenPage(RuleListPage):
    """The rules that spoke in one judgement."""

    def __init__(self, services: Services, app: Any, rules: frozenset[tuple[str, str]], **kwargs: Any) -> None:
        super().__init__(services, app, say("Why these limits"), **kwargs)
        self._rules = rules

    def wanted(self, pack: Pack, rule: Rule) -> bool:
        """Whether it spoke."""
        return (pack.id, rule.id) in self._rules


def listed(rule: Rule, book: RuleBook) -> Listed:
    """Return a rule's row: its title, its answer with what it asks, its source with how well that was verified."""
    answer = rule_words.outcome(rule)
    line = f"{told(rule_words.outcome_words(rule))} · {told(rule_words.brief(rule, book))}"
    more = f"{say(rule_words.standing_word(rule.source))} · {told(rule_words.citation(rule.source))}"
    return Listed(
        key=rule.id,
        title=say(rule.title),
        line=line,
        more=more,
        answer=answer.value if answer else "",
        search=" ".join((rule.id, say(rule.title), line, more, told(rule_words.applies_to(rule.applies)))).casefold(),
    )
