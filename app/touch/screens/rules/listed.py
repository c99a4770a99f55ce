"""A long list of rows with its search: made once, shown a screenful at a time."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from kivy.clock import Clock
from kivy.metrics import Metrics, dp
from kivy.properties import ObjectProperty

from app.language import say
from app.touch.markup import load_markup
from app.touch.widgets.buttons import RowButton
from app.touch.widgets.page import Page


@dataclass(frozen=True, slots=True)
class Listed:
    """One row: what is written on it, and what a tap opens.

    Attributes:
        answer: the answer whose sign stands before it; empty for none.
        search: all that the search looks in, in lower case.
    """

    key: str
    title: str
    line: str
    more: str
    answer: str
    search: str


class ListedRow(RowButton):
    """A row of the list; tapping it calls `opened` with its key."""

    opened = ObjectProperty(None, allownone=True)


class ListedPage(Page):
    """A page that is one long list; those that use it fill it with `list` and open a row in `open`."""

    def __init__(self, theme: Any, **kwargs: Any) -> None:
        super().__init__(**kwargs)
        self._all: Sequence[Listed] = ()
        self._rows: Sequence[Listed] = ()
        self.ids.search.bind(text=lambda *_: self._search())
        theme.bind(text_scale=self._size_rows)
        self._size_rows()

    def list(self, rows: Sequence[Listed]) -> None:
        """Show these rows, all that the search finds of them."""
        self._all = rows
        self._search()

    def open(self, key: str) -> None:
        """Open what a row stands for."""

    def _size_rows(self, *_changed: object) -> None:
        self._row_height = dp(34) + (17 + 16 + 15) * 1.25 * Metrics.sp
        self.ids.rows.default_size = (None, self._row_height)
        self._show()

    def _search(self) -> None:
        words = self.ids.search.text.casefold().split()
        self._rows = [row for row in self._all if all(word in row.search for word in words)]
        found = say("{count} of {total}", count=len(self._rows), total=len(self._all))
        self.under = found if words else str(len(self._all))
        self._show()
        Clock.schedule_once(self._to_top)

    def _to_top(self, _dt: float) -> None:
        self.ids.list.scroll_y = 1

    def _show(self) -> None:
        self.ids.list.data = [
            {
                "key": row.key,
                "answer": row.answer,
                "title": row.title,
                "line": row.line,
                "more": row.more,
                "least_height": self._row_height,
                "opened": self.open,
            }
            for row in self._rows
        ]


load_markup(__file__)
