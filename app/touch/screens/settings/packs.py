"""Packs of your own: the site's and the makers' rules that lie with the register; each may tighten, none may loosen."""

from collections.abc import Sequence
from pathlib import Path
from typing import Any

from kivy.uix.widget import Widget

from app.language import mark, say, say_many
from app.register import OwnPack, RegisterError
from app.touch.screens.ask.ask import DoubtPage
from app.touch.screens.photograph.folder import FolderPage
from app.touch.screens.settings.allowed import may_change, refusal
from app.touch.services import Services
from app.touch.widgets.buttons import AnswerButton, MainButton, RowButton
from app.touch.widgets.page import Page
from app.touch.widgets.words import Quiet, Title, Words
from inspection_rules.rule import Pack

WHAT = mark(
    "A pack's rules count beside all others, and the strictest speaks. A pack that would loosen one is refused."
)
BROKEN = mark("It cannot be used. Nothing is judged until it is put right or taken away.")
GONE = mark("Its rules will not count from then on. What was judged by them stays readable, and the file is kept.")


class PackFolderPage(FolderPage):
    """Chooses the files of packs."""

    HEADING = mark("Choose a pack")
    NONE = mark("No packs in this folder: a pack's file ends in .toml.")

    def take_words(self, count: int) -> str:
        """What the button says that takes the files chosen."""
        return say_many("Check and add {count} pack", "Check and add {count} packs", count)


class PacksPage(Page):
    """Every pack as a row, with what is wrong with it; a tap shows more."""

    def __init__(self, services: Services, app: Any, **kwargs: Any) -> None:
        super().__init__(heading=say("Packs of your own"), **kwargs)
        self._services, self._app = services, app
        self._notices: list[str] = []

    def shown(self) -> None:
        """Read which packs there are; reading one checks it."""
        self._services.records.do(self._services.register.own_packs.every, self._show)

    def _show(self, packs: list[OwnPack]) -> None:
        content: list[Widget] = [Words(text=notice, bold=True) for notice in self._notices]
        content += [self._row(one) for one in packs]
        if not packs:
            content.append(Words(text=say("There are none.")))
        content.append(Quiet(text=say(WHAT)))
        self.fill(*content, *refusal(self._app, self.shown))
        if not may_change(self._app):
            self.fill_foot()
            return
        add = MainButton(text=say("Add a pack from a file"))
        add.bind(on_release=lambda _one: self._choose())
        self.fill_foot(add)

    def _row(self, one: OwnPack) -> Widget:
        if one.pack is None:
            row = RowButton(title=one.file, line=say(BROKEN), more=one.problem, key=one)
        else:
            row = RowButton(title=one.pack.title, line=said_of(one.pack), more=one.file, key=one)
        row.bind(on_release=lambda row: self.manager.push(PackPage(self._services, self._app, row.key)))
        return row

    def _choose(self) -> None:
        self.manager.push(PackFolderPage(self._app, self._services, ("toml",), self._add))

    def _add(self, files: list[Path]) -> None:
        if not may_change(self._app):  # whoever began acts no more
            self.shown()
            return
        own = self._services.register.own_packs

        def work() -> list[str]:
            notices = []
            for file in files:
                try:
                    notices.append(say("{title} is added and counts.", title=own.add(file).title))
                except RegisterError as refused:  # the others are still added
                    notices.append(str(refused))
            return notices

        self._services.records.do(work, self._added)

    def _added(self, notices: list[str]) -> None:
        self._notices = notices
        self.shown()


class PackPage(Page):
    """One pack: its rules, or what is wrong with it; and taking it away."""

    def __init__(self, services: Services, app: Any, one: OwnPack, **kwargs: Any) -> None:
        super().__init__(heading=one.pack.title if one.pack else one.file, **kwargs)
        self._services, self._app, self._one = services, app, one
        content: list[Widget] = []
        if one.pack is None:
            content += [Words(text=say(BROKEN), bold=True), Words(text=one.problem)]
        else:
            content += [Words(text=said_of(one.pack)), Title(text=say("Its rules")), *_rules(one.pack)]
        content.append(Quiet(text=one.file))
        self._content = content

    def shown(self) -> None:
        """Offer to take it away, where whoever acts may."""
        if may_change(self._app):
            away = AnswerButton(text=say("Take this pack away"))
            away.bind(on_release=lambda _one: self._ask())
            self.fill(*self._content, away)
        else:
            self.fill(*self._content, *refusal(self._app, self.shown))

    def _ask(self) -> None:
        self.manager.push(
            DoubtPage(
                say("Take {file} away?", file=self._one.file),
                [say(GONE)],
                (say("Take it away"), self._away),
                (say("Leave it"), _nothing),
            )
        )

    def _away(self) -> None:
        if not may_change(self._app):
            self.shown()
            return
        own, file = self._services.register.own_packs, self._one.file
        self._services.records.do(lambda: own.take_away(file), lambda _none: self._left())

    def _left(self) -> None:
        if self.manager is not None:
            self.manager.pop(self)


def _rules(pack: Pack) -> Sequence[Widget]:
    return [Words(text=say(rule.title)) for rule in pack.rules]


def said_of(pack: Pack) -> str:
    """Write a pack's id and edition, whom it counts for, and how many rules it has."""
    if pack.maker:
        counts = say("counts for the items that name it")
    elif pack.regime:
        counts = say("counts with the regime {regime}", regime=pack.regime)
    else:
        counts = say("always counts")
    rules = say_many("{count} rule", "{count} rules", len(pack.rules))
    edition = say("{id}, edition {version}", id=pack.id, version=pack.version)
    return f"{edition} · {rules} · {counts}"


def _nothing() -> None:
    """Leave everything as it is."""
