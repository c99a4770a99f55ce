"""New item: the three ways of entering one, and the one that was begun."""

from functools import partial
from pathlib import Path
from typing import Any

from kivy.clock import Clock
from kivy.uix.widget import Widget
from kivy.utils import platform

from app.device import Cancelled, Unavailable
from app.language import say, say_many
from app.register import ItemRow, new_id
from app.touch.screens.ask.ask import DoubtPage
from app.touch.screens.enter import keeping
from app.touch.screens.enter.confirm import finish
from app.touch.screens.enter.flow import Entering
from app.touch.screens.enter.keeping import Begun
from app.touch.screens.enter.listed import ChooseListPage, ListPage
from app.touch.services import Services
from app.touch.widgets.buttons import AnswerButton, MainButton, RowButton
from app.touch.widgets.fields import TextField
from app.touch.widgets.page import Page
from app.touch.widgets.words import Quiet, Words
from inspection_rules.entering import item_of, said_of
from inspection_rules.form import asked, copied
from inspection_rules.item import Item

ENDINGS = ("csv", "txt", "tsv")
AT_ONCE = 50
DIFFERS = ("length", "place")  # offered as the other one has it, and asked
ALWAYS = ("tag", "made", "first_used")
Places = list[tuple[str, str]]


class EnterPage(Page):
    """The ways of entering an item: from a blank, like one that is there, from a list."""

    def __init__(self, services: Services, app: Any, **kwargs: Any) -> None:
        super().__init__(heading=say("New item"), at_thumb=True, **kwargs)
        self._services, self._app = services, app
        self._problem = ""
        self._begun: Begun | None = None

    def shown(self) -> None:
        """Read whether one was begun, and offer the ways."""
        folder = Path(self._services.register.folder)
        self._services.records.do(lambda: keeping.read(folder), self._show)

    def _show(self, begun: Begun | None) -> None:
        self._begun = begun
        content: list[Widget] = [Words(text=self._problem, bold=True)] if self._problem else []
        if begun is not None:
            content.append(Words(text=say("An item was begun and not entered. A new one takes its place.")))
        like = AnswerButton(text=say("Like an item that is there"))
        like.bind(on_release=self._like)
        listed = AnswerButton(text=say("From a list (CSV)"))
        listed.bind(on_release=self._list)
        blank = AnswerButton(text=say("From a blank"))
        blank.bind(on_release=self._blank)
        ways: list[Widget] = [listed, like, blank]
        if begun is not None:
            known = " · ".join(begun.said[one] for one in ("tag", "description") if begun.said.get(one))
            text = say("Go on with {item}", item=known) if known else say("Go on with the one that was begun")
            on = MainButton(text=text)
            on.bind(on_release=self._go_on)
            ways.append(on)
        self.fill(*content, *ways)

    # --- from a blank, and on with what was begun ----------------------------------------------------------

    def _blank(self, *_event: object) -> None:
        self._enter(Begun())

    def _go_on(self, *_event: object) -> None:
        if self._begun is not None:
            self._enter(self._begun)

    def _enter(self, begun: Begun) -> None:
        begin_entering(self._services, self._app, begun)

    # --- like one that is there ----------------------------------------------------------------------------

    def _like(self, *_event: object) -> None:
        self.manager.push(LikePage(self._services, self._app))

    # --- from a list ---------------------------------------------------------------------------------------

    def _list(self, *_event: object) -> None:
        if platform == "android":
            answer = self._services.device.choose_files("List", ENDINGS, partial(_later, self._picked))
            if answer is None:
                return
        self.manager.push(ChooseListPage(self._app, self._services, ENDINGS, self._chosen))

    def _picked(self, found: list[Path] | Cancelled | Unavailable) -> None:
        if isinstance(found, Unavailable):
            self._problem = found.reason
            self._show(self._begun)
        elif not isinstance(found, Cancelled) and len(found) == 1:
            self._chosen(found[0])
        elif not isinstance(found, Cancelled) and found:
            self._problem = say("Choose one list at a time.")
            self._show(self._begun)

    def _chosen(self, file: Path) -> None:
        self._problem = ""
        self.manager.push(ListPage(self._services, self._app, file))


class LikePage(Page):
    """The item that the new one is like; it is found while typing."""

    def __init__(self, services: Services, app: Any, **kwargs: Any) -> None:
        super().__init__(heading=say("Which item is it like?"), **kwargs)
        self._services, self._app = services, app
        self._asked = 0
        self.field = TextField(hint_text=say("Search"))
        self.field.bind(text=self._search)

    def shown(self) -> None:
        """List the items."""
        self._search()

    def _search(self, *_event: object) -> None:
        self._asked += 1
        asked, text = self._asked, self.field.text
        register, on = self._services.register, self._services.today()

        def done(rows: list[ItemRow]) -> None:
            if asked == self._asked:  # a later search has overtaken this one otherwise
                self._show(rows)

        self._services.records.do(lambda: register.find(text, limit=AT_ONCE, on=on), done)

    def _show(self, rows: list[ItemRow]) -> None:
        if self.field.parent is None:
            self.fill(self.field)
        for widget in [one for one in self.body.children if one is not self.field]:
            self.body.remove_widget(widget)
        self.under = say_many("{count} found", "{count} found", len(rows))
        if len(rows) == AT_ONCE:
            self.body.add_widget(Quiet(text=say("The first {count} are shown: type more letters.", count=AT_ONCE)))
        for row in rows:
            button = RowButton(title=f"{row.tag} · {row.description}", line=row.place, key=row.id)
            button.bind(on_release=self._tapped)
            self.body.add_widget(button)
        self.body.add_widget(Widget())

    def _tapped(self, row: RowButton) -> None:
        register, item_id = self._services.register, row.key

        def done(item: Item) -> None:
            kept = item_of(said_of(item), item.id)
            left = len(item.parts) - len(kept.parts) if isinstance(kept, Item) else 0
            if left:
                text = say_many(
                    "{count} of its parts cannot be copied: there are too many of its kind.",
                    "{count} of its parts cannot be copied: there are too many of their kind.", left,
                )  # fmt: skip
                go = (say("Copy the others"), partial(self._copy, item))
                self.manager.push(DoubtPage(say("Not all of it"), [text], go, (say("Do not copy it"), _nothing)))
            else:
                self._copy(item)

        self._services.records.do(lambda: register.item(item_id), done)

    def _copy(self, item: Item) -> None:
        self._app.stack.pop(self)
        begin_entering(self._services, self._app, _like(item))


def _nothing() -> None:
    """The list of items is still there."""


def _like(item: Item) -> Begun:
    """Begin with what the other one is: its tag, dates, place and length are asked, and nothing that it left open."""
    said = copied(said_of(item))
    offered = {name: said.pop(name) for name in DIFFERS if name in said}
    skipped = [name for name in asked(said) if not said.get(name) and name not in (*DIFFERS, *ALWAYS)]
    return Begun(said, skipped, offered=offered)


def begin_entering(services: Services, app: Any, begun: Begun) -> None:
    """Ask the first thing about a new item, once it is known which items there are."""

    def done(places: Places) -> None:
        Entering(services, app, begun, new_id(), places, finish).go_on()

    services.records.do(services.register.tags, done)


def _later(act: Any, found: object) -> None:
    """Answer on the window's thread: the device answers on whichever it likes."""
    Clock.schedule_once(lambda _dt: act(found))
