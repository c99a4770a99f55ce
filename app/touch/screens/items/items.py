"""Items: every item, found while typing."""

from typing import Any

from kivy.clock import Clock
from kivy.metrics import Metrics, dp

from app.register import ItemRow
from app.touch.markup import load_markup
from app.touch.services import Services
from app.touch.widgets.buttons import RowButton
from app.touch.widgets.page import Page
from app.touch.wording import answer_words, day

AT_ONCE = 200  # rows read at a time; the next ones follow when the list nears its end
NEAR_END = 0.15


class ItemRowButton(RowButton):
    """A row of the list; tapping it opens the item."""


class ItemsPage(Page):
    """The list of items with its search."""

    def __init__(self, services: Services, app: Any, **kwargs: Any) -> None:
        super().__init__(heading="Items", **kwargs)
        self._services, self._app = services, app
        self._rows: list[ItemRow] = []
        self._asked = 0
        self._more = False
        self.ids.search.bind(text=lambda *_: self._search())
        self.ids.list.bind(scroll_y=self._scrolled)
        app.theme.bind(text_scale=self._size_rows)
        self._size_rows()

    def shown(self) -> None:
        """Read the list anew."""
        self._search()

    def _size_rows(self, *_changed: object) -> None:
        self._row_height = dp(34) + (17 + 16 + 15) * 1.25 * Metrics.sp
        self.ids.rows.default_size = (None, self._row_height)
        self.ids.list.data = [self._data(row) for row in self._rows]

    def _search(self) -> None:
        self._asked += 1
        self._read(self._asked, None)

    def _read(self, asked: int, after: ItemRow | None) -> None:
        text = self.ids.search.text

        def done(rows: list[ItemRow]) -> None:
            if asked == self._asked:  # a later search has overtaken this one otherwise
                self._take(rows, after)

        register, on = self._services.register, self._services.today()
        self._services.records.do(lambda: register.find(text, limit=AT_ONCE, after=after, on=on), done)

    def _take(self, rows: list[ItemRow], after: ItemRow | None) -> None:
        self._rows = [*self._rows, *rows] if after else rows
        self._more = len(rows) == AT_ONCE
        count = f"{len(self._rows)}{' and more' if self._more else ''}"
        self.under = f"{count} found" if self._rows else "None found: try fewer letters"
        self.ids.list.data = [self._data(row) for row in self._rows]
        if after is None:
            Clock.schedule_once(lambda _dt: setattr(self.ids.list, "scroll_y", 1))

    def _scrolled(self, _list: object, y: float) -> None:
        if self._more and y < NEAR_END:
            self._more = False
            self._read(self._asked, self._rows[-1])

    def _data(self, row: ItemRow) -> dict[str, object]:
        return {
            "key": row.id,
            "answer": row.answer.value,
            "title": f"{row.tag} · {row.description}",
            "line": answer_words(row.answer, row.door),
            "more": f"examination by {day(row.next_due)}" if row.next_due else row.place,
            "least_height": self._row_height,
        }


load_markup(__file__)
