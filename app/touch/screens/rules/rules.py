"""Rules: the regimes with their rules, which of them count here, and the published criteria beside them."""

from collections import Counter
from dataclasses import dataclass
from typing import Any

from kivy.uix.widget import Widget

from app.language import mark, say, say_many
from app.rule_words import STANDINGS
from app.touch.screens.rules.coverage import CoveragePage
from app.touch.screens.rules.regime import RegimePage
from app.touch.services import Services
from app.touch.widgets.buttons import QuietButton, RowButton
from app.touch.widgets.page import Page
from app.touch.widgets.words import Quiet, Title
from inspection_rules.book import RuleBook

ALWAYS = mark("Common practice")


@dataclass(frozen=True, slots=True)
class Known:
    """One regime: how many rules it has, how well their sources were verified, and whether it counts here."""

    regime: str
    title: str
    rules: int
    verified: str
    counts: bool


class RulesPage(Page):
    """Every regime, the ones that count first."""

    def __init__(self, services: Services, app: Any, **kwargs: Any) -> None:
        super().__init__(
            heading=say("Rules"), under=say("every limit, its source, and how well it was verified"), **kwargs
        )
        self._services, self._app = services, app

    def shown(self) -> None:
        """Read which regimes count; the rules themselves are read from their files once."""
        register = self._services.register

        def work() -> tuple[tuple[Known, ...], tuple[int, int]]:
            book = register.book()
            left_out = sum(1 for one in book.criteria.values() if one.left_out)
            return known(book, register.regimes()), (len(book.criteria), left_out)

        self._services.records.do(work, lambda found: self._show(*found))

    def _show(self, regimes: tuple[Known, ...], criteria: tuple[int, int]) -> None:
        total, left_out = criteria
        content: list[Widget] = [Title(text=say("Rules that count here"))]
        content += [self._row(one) for one in regimes if one.counts]
        choose = QuietButton(text=say("Choose which regimes count"))
        choose.bind(on_release=lambda _one: self._app.show_regimes())
        content.append(choose)
        others = [one for one in regimes if not one.counts]
        if others:
            content.append(Title(text=say("Rules that do not count here")))
            content += [self._row(one) for one in others]
        content.append(Title(text=say("Published criteria")))
        applied = say("{count} of {total} applied", count=total - left_out, total=total)
        if left_out:
            applied = say("{applied}, {count} left out with the reason", applied=applied, count=left_out)
        covered = RowButton(title=say("Each criterion with its rules"), line=applied)
        covered.bind(on_release=lambda _one: self.manager.push(CoveragePage(self._services, self._app)))
        content += [covered, Quiet(text=say("A rule says which document, edition and clause it comes from."))]
        self.fill(*content)

    def _row(self, one: Known) -> Widget:
        row = RowButton(
            title=say(one.title),
            line=say_many("{count} rule", "{count} rules", one.rules),
            more=one.verified,
            key=one.regime,
        )
        row.bind(on_release=lambda row: self.manager.push(RegimePage(self._services, self._app, row.key, row.title)))
        return row


def known(book: RuleBook, chosen: tuple[str, ...]) -> tuple[Known, ...]:
    """Return every regime, common practice first, then the others by name."""
    found = []
    for regime in sorted({pack.regime for pack in book.packs}):
        rules = [rule for pack in book.packs if pack.regime == regime and not pack.maker for rule in pack.rules]
        counted = Counter(str(rule.source.verified) for rule in rules)
        verified = ", ".join(f"{counted[how]} {say(word)}" for how, word in STANDINGS.items() if counted[how])
        found.append(Known(regime, regime or ALWAYS, len(rules), verified, not regime or regime in chosen))
    return tuple(found)
