"""The published criteria, each with the rules that apply it or the reason why none does."""

from typing import Any

from kivy.uix.widget import Widget

from app.language import mark, say, say_many, told
from app.rule_words import SENTENCES, STANDINGS, citation, outcome, outcome_words, standing_word
from app.touch.screens.rules.listed import Listed, ListedPage
from app.touch.screens.rules.rule import RulePage
from app.touch.services import Services
from app.touch.widgets.buttons import RowButton
from app.touch.widgets.page import Page
from app.touch.widgets.words import Title, Words
from inspection_rules.coverage import Covered, coverage
from inspection_rules.rule import Pack, Rule

TRADE = mark("The trade's own; there is no published source.")
YIELDS = mark("A maker's written instruction may turn removal into a hold here, never into a pass.")


class CoveragePage(ListedPage):
    """Every criterion as a row; tapping one shows its rules."""

    def __init__(self, services: Services, app: Any, **kwargs: Any) -> None:
        super().__init__(app.theme, heading=say("Published criteria"), **kwargs)
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
        super().__init__(heading=say("Criterion"), under=covered.criterion.id, **kwargs)
        self._services, self._app = services, app
        criterion = covered.criterion
        standing = SENTENCES[criterion.evidence] if criterion.evidence != "none" else TRADE
        content: list[Widget] = [Words(text=say(criterion.says)), Words(text=say(standing), bold=True)]
        if criterion.yields:
            content.append(Words(text=say(YIELDS)))
        if covered.rules:
            content.append(Title(text=say("Rules that apply it")))
            content += [self._row(pack, rule) for pack, rule in covered.rules]
        if criterion.left_out:
            content += [Title(text=say("Left out")), Words(text=say(criterion.left_out))]
        self.fill(*content)

    def _row(self, pack: Pack, rule: Rule) -> Widget:
        answer = outcome(rule)
        row = RowButton(
            title=say(rule.title),
            line=f"{pack.regime or say('always counts')} · {told(outcome_words(rule))}",
            more=f"{say(standing_word(rule.source))} · {told(citation(rule.source))}",
            answer=answer.value if answer else "",
            key=rule.id,
        )
        row.bind(on_release=lambda row: self.manager.push(RulePage(self._services, self._app, row.key)))
        return row


def _listed(covered: Covered) -> Listed:
    criterion = covered.criterion
    regimes = list(dict.fromkeys(pack.regime or "common practice" for pack, _rule in covered.rules))
    count = say_many("{count} rule", "{count} rules", len(covered.rules))
    line = f"{count} · {', '.join(map(say, regimes))}" if covered.rules else say("left out")
    more = say(criterion.left_out or STANDINGS[criterion.evidence])
    says = say(criterion.says)
    search = " ".join((criterion.id, says, line, more)).casefold()
    return Listed(criterion.id, says, line, more, "", search)
