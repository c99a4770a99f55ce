"""Items: every item, found while typing, narrowed on a page of its own."""

from collections.abc import Callable
from functools import partial
from typing import Any

from kivy.clock import Clock
from kivy.metrics import Metrics, dp
from kivy.properties import NumericProperty, StringProperty

from app.language import say
from app.register import ItemRow, Only
from app.scanning import reader_installed
from app.touch.markup import load_markup
from app.touch.screens.items.away import away
from app.touch.screens.items.filter import FilterPage, only_words
from app.touch.services import Services
from app.touch.widgets.buttons import AnswerButton, QuietButton, RowButton
from app.touch.widgets.page import Page
from app.touch.widgets.words import Quiet
from app.touch.wording import DO_NOT_USE, day, shown_sign, stopped
from inspection_rules.words import Answer, Door, Where

AT_ONCE = 200  # rows read at a time; the next ones follow when the list nears its end
NEAR_END = 0.15


NARROW = 340  # sp: on a narrower list each text of a row may take two lines
NARROWEST = 250  # sp: and on one narrower still the last of them three


class ItemRowButton(RowButton):
    """A row of the list; tapping it opens the item.

    Attributes:
        most_lines: how many lines its last text may take, the others two at most; only a single one can end in an
            ellipsis.
    """

    most_lines = NumericProperty(1)

    def on_most_lines(self, *_changed: object) -> None:
        """Let the texts wrap, or shorten them to their line."""
        for below, label in enumerate(self.ids.words.children):
            label.valign = "top"  # otherwise the last lines are the ones that stay
            label.shorten = self.most_lines == 1
            label.max_lines = 0 if self.most_lines == 1 else min(self.most_lines, 2 if below else 3)


class BarButton(QuietButton):
    """A button in a row of several, whose words are all written in one size; `together` is what they all say."""

    together = StringProperty("")


class ItemsPage(Page):
    """The list of items with its search, what it is narrowed to, and the ways of adding and finding by label."""

    def __init__(self, services: Services, app: Any, **kwargs: Any) -> None:
        super().__init__(heading=say("Items"), **kwargs)
        self._services, self._app = services, app
        self._rows: list[ItemRow] = []
        self._asked = 0
        self._more = False
        self._only = Only()
        self._scans = reader_installed()
        ways = self._ways()
        together = " ".join(text for text, _ in ways)
        self._buttons = [_button(BarButton, *one, together=together) for one in ways]
        self.ids.search.bind(text=lambda *_: self._search())
        self.ids.list.bind(scroll_y=self._scrolled)
        app.theme.bind(text_scale=self._size_rows)
        self.bind(width=self._size_rows)
        self._size_rows()
        self._show_only()
        self._place_buttons()
        self.bind(wide=self._place_buttons)

    def shown(self) -> None:
        """Read the list anew."""
        self._search()

    def look_for(self, text: str) -> None:
        """Put a text into the search, as if it had been typed."""
        self.ids.search.text = text

    def narrow(self, only: Only) -> None:
        """Narrow the list to this, until that is cleared."""
        self._only = only
        self._show_only()
        self._search()

    # --- the ways on -------------------------------------------------------------------------------------

    def _ways(self) -> list[tuple[str, Callable[[], None]]]:
        scan = [(say("Scan a label"), self._scan)] if self._scans else []
        return [(say("Filter"), self._filter), *scan, (say("New item"), self._new)]

    def _place_buttons(self, *_changed: object) -> None:
        """At the thumb; beside the search where there is width and no height."""
        home = self.ids.above if self.wide else self.ids.below
        for button in self._buttons:
            if button.parent is not None:
                button.parent.remove_widget(button)
            home.add_widget(button)

    def _filter(self) -> None:
        self.manager.push(FilterPage(self._services, self._only, self.narrow))

    def _scan(self) -> None:
        from app.touch.screens.scan.scan import ScanPage

        self.manager.push(ScanPage(self._services, self._app, self.look_for))

    def _new(self) -> None:
        from app.touch.screens.enter.enter import EnterPage

        self.manager.push(EnterPage(self._services, self._app))

    def _show_only(self) -> None:
        """What is in force is in sight, and one tap clears it."""
        self.ids.force.clear_widgets()
        if self._only != Only():
            said = say("Only: {filter}. Tap to show all", filter=only_words(self._only))
            self.ids.force.add_widget(_button(AnswerButton, said, partial(self.narrow, Only()), chosen=True))
        elif not self._scans:
            self.ids.force.add_widget(Quiet(text=say("Typing the tag always works: no label reader is installed.")))

    # --- the list ----------------------------------------------------------------------------------------

    def _size_rows(self, *_changed: object) -> None:
        width = self.width / Metrics.sp
        # Whom a hold is referred to stands before the place, and must be read to its end.
        title, line, self._lines = (2, 2, 3) if width < NARROWEST else (2, 2, 2) if width < NARROW else (1, 1, 1)
        self._row_height = dp(34) + (17 * title + 16 * line + 15 * self._lines) * 1.25 * Metrics.sp
        self.ids.rows.default_size = (None, self._row_height)
        self.ids.list.data = [self._data(row) for row in self._rows]

    def _search(self) -> None:
        self._asked += 1
        self._read(self._asked, None)

    def _read(self, asked: int, after: ItemRow | None) -> None:
        text, only = self.ids.search.text, self._only

        def work() -> list[ItemRow]:
            if asked != self._asked:  # overtaken while it waited: nobody would see what it finds
                return []
            return register.find(text, limit=AT_ONCE, after=after, on=on, only=only)

        def done(rows: list[ItemRow]) -> None:
            if asked == self._asked:  # a later search has overtaken this one otherwise
                self._take(rows, after)

        register, on = self._services.register, self._services.today()
        self._services.records.do(work, done)

    def _take(self, rows: list[ItemRow], after: ItemRow | None) -> None:
        self._rows = [*self._rows, *rows] if after else rows
        self._more = len(rows) == AT_ONCE
        count = len(self._rows)
        if self._rows:
            self.under = say("{count} and more found", count=count) if self._more else say("{count} found", count=count)
        elif self._only != Only():
            self.under = say("None found: try fewer letters, or show all")
        else:
            self.under = say("None found: try fewer letters")
        self.ids.list.data = [self._data(row) for row in self._rows]
        if after is None:
            Clock.schedule_once(self._to_top)

    def _to_top(self, _dt: float) -> None:
        self.ids.list.scroll_y = 1

    def _scrolled(self, _list: object, y: float) -> None:
        if self._more and y < NEAR_END:
            self._more = False
            self._read(self._asked, self._rows[-1])

    def _data(self, row: ItemRow) -> dict[str, object]:
        line, more = row_lines(row)
        return {
            "key": row.id,
            "answer": shown_sign(row.answer, row.whereabouts),
            "title": f"{row.tag} · {row.description}" if row.description else row.tag,
            "line": line,
            "more": more,
            "least_height": self._row_height,
            "most_lines": self._lines,
        }


def row_lines(row: ItemRow) -> tuple[str, str]:
    """Write where an item stands and until when, and where it is; of what is not here, that first."""
    if row.whereabouts is not Where.HERE and not stopped(row.answer):
        said, due = away(row)
        return said, " · ".join(one for one in (due, row.place) if one)
    said = say(str(row.answer))
    todo = ""
    if row.answer is Answer.HOLD:
        todo = say("refer to a competent person") if row.door is Door.REFER else say(str(row.door or ""))
    if stopped(row.answer):
        said = f"{say(DO_NOT_USE)} · {said}"
    elif row.next_due:
        said = say("{answer} · due {day}", answer=said, day=day(row.next_due))
    where = "" if row.whereabouts is Where.HERE else say(str(row.whereabouts))
    return said, " · ".join(one for one in (todo, row.place, where) if one)


def _button(kind: type, text: str, act: Callable[[], None], **how: Any) -> Any:
    button = kind(text=text, **how)
    button.bind(on_release=lambda _one: act())
    return button


load_markup(__file__)
