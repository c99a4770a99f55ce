"""The published criteria, each with the rules that apply it or the reason why none does."""

from typing import Any

from kivy.uix.widget import Widget

from app.rule_words import SENTENCES, STANDINGS, citation, outcome, outcome_words, standing_word
from app.touch.screens.rules.listed import Listed, ListedPage
from app.touch.screens.rules.rule import RulePage
from app.touch.services import Services
from app.touch.widgets.buttons import RowButton
from app.touch.widgets.page import Page
from app.touch.widgets.words import Title, Words
from inspection_rules.coverage import Covered, coverage
from inspection_rules.rule import Pack, Rule

TRADE = "The trade's own; there is no published source."
YIELDS = "A maker's written instruction may turn removal into a hold here, never into a pass."


class CoveragePage(ListedPage):
    """Every criterion as a row; tapping one shows its rules."""

    def __init__(self, services: Services, app: Any, **kwargs: Any) -> None:
        super().__init__(app.theme, heading="Published criteria", **kwargs)
        self._services, self._app = services, app
        self._covered: dict[str, Covered] = {}

    def shown(self) -> None:
        """Set criteria and rules side by side, away from the window's thread."""

        def work() -> tuple[dict[str, Covered], tuple[Listed, ...]]:
            found = coverage(self._services.register.book())
            return {one.criterion.id: one for one in found}, tuple(_listed(one) for one in found)

        def done(found: tuple[dict[str, Covered], tuple[Listed, ...]]) -> None:
            self._covered = found[0]
            self.list(found[1])

        self._services.records.do(work, done)

    def open(self, key: str) -> None:
        """Show one criterion."""
        self.manager.push(CriterionPage(self._services, self._app, self._covered[key]))


class CriterionPage(Page):
    """One criterion, the rules that apply it, or why none does."""

    def __init__(self, services: Services, app: Any, covered: Covered, **kwargs: Any) -> None:
        super().__init__(heading="Criterion", under=covered.criterion.id, **kwargs)
        self._services, self._app = services, app
        criterion = covered.criterion
        standing = SENTENCES[criterion.evidence] if criterion.evidence != "none" else TRADE
        content: list[Widget] = [Words(text=criterion.says), Words(text=standing, bold=True)]
        if criterion.yields:
            content.append(Words(text=YIELDS))
        if covered.rules:
            content.append(Title(text="Rules that apply it"))
            content += [self._row(pack, rule) for pack, rule in covered.rules]
        if criterion.left_out:
            content += [Title(text="Left out"), Words(text=criterion.left_out)]
        self.fill(*content)

    def _row(self, pack: Pack, rule: Rule) -> Widget:
        answer = outcome(rule)
        row = RowButton(
            title=rule.title,
            line=f"{pack.regime or 'always counts'} · {outcome_words(rule)}",
            more=f"{standing_word(rule.source)} · {citation(rule.source)}",
            answer=answer.value if answer else "",
            key=rule.id,
        )
        row.bind(on_release=lambda row: self.manager.push(RulePage(self._services, self._app, row.key)))
        return row


def _listed(covered: Covered) -> Listed:
    criterion = covered.criterion
    regimes = list(dict.fromkeys(pack.regime or "common practice" for pack, _rule in covered.rules))
    count = len(covered.rules)
    line = f"{count} rule{'s' if count != 1 else ''} · {', '.join(regimes)}" if count else "left out"
    more = criterion.left_out or STANDINGS[criterion.evidence]
    search = " ".join((criterion.id, criterion.says, line, more)).casefold()
    return Listed(criterion.id, criterion.says, line, more, "", search)
