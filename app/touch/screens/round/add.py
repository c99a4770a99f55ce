"""Add an item that was met in a round and belongs elsewhere: found by its tag."""

from collections.abc import Callable
from typing import Any

from kivy.uix.widget import Widget

from app.language import say
from app.register import ItemRow
from app.touch.screens.items.away import away
from app.touch.services import Services
from app.touch.widgets.buttons import RowButton
from app.touch.widgets.fields import TextField
from app.touch.widgets.page import Page
from app.touch.widgets.words import Quiet
from app.touch.wording import shown_sign
from inspection_rules.words import Where

MOST = 20


class AddPage(Page):
    """Search by tag; `met` is called with the item's id after the page has gone."""

    def __init__(self, services: Services, met: Callable[[str], None], **kwargs: Any) -> None:
        super().__init__(heading=say("Add an item"), under=say("met here, belongs elsewhere"), **kwargs)
        self._services, self._met = services, met
        self._asked = 0
        self.field = TextField(hint_text=say("Search"))
        self.field.bind(text=lambda *_: self._search())
        self.fill(self.field)
        self._found: list[Widget] = []

    def _search(self) -> None:
        self._asked += 1
        asked, text, on = self._asked, self.field.text.strip(), self._services.today()
        if not text:
            self._list([])
            return

        def done(rows: list[ItemRow]) -> None:
            if asked == self._asked:
                self._list(rows)

        self._services.records.do(lambda: self._services.register.find(text, limit=MOST, on=on), done)

    def _list(self, rows: list[ItemRow]) -> None:
        for one in self._found:
            self.body.remove_widget(one)
        self._found = []
        for row in rows:
            button = RowButton(
                title=f"{row.tag} · {row.description}",
                line=row.place,
                key=row.id,
                answer=shown_sign(row.answer, row.whereabouts),
            )
            button.more = say(row.answer.value) if row.whereabouts is Where.HERE else away(row)[0]
            button.bind(on_release=lambda one: self._take(one.key))
            self._found.append(button)
        if not rows and self.field.text.strip():
            self._found.append(Quiet(text=say("None found: try fewer letters")))
        filler = self.body.children[0]
        self.body.remove_widget(filler)
        for one in self._found:
            self.body.add_widget(one)
        self.body.add_widget(filler)

    def _take(self, item: str) -> None:
        self.manager.pop(self)
        self._met(item)
