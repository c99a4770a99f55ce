"""A list of items from a file: chosen, read without entering anything, and entered once the person has seen it."""

from collections.abc import Callable, Sequence
from datetime import UTC
from functools import partial
from pathlib import Path
from typing import Any

from kivy.uix.widget import Widget

from app.item_list import ItemListError, Row, good, key_of, read_file, read_items
from app.language import mark, say, say_many, told
from app.register import new_id
from app.touch.screens.photograph.folder import Listing, listed
from app.touch.services import Services
from app.touch.widgets.buttons import AnswerButton, MainButton, QuietButton, RowButton
from app.touch.widgets.card import Card
from app.touch.widgets.page import Page
from app.touch.widgets.words import Quiet, Title, Words
from app.touch.wording import broken, who
from inspection_rules.entering import Fault

MOST_SHOWN = 30
HOW = mark(
    "A list has one row for each item; its first row names the columns. Comma, semicolon or tab, text in UTF-8. "
    "`throatmark items --template` prints one to begin with."
)


class ChooseListPage(Page):
    """Folders and files as large rows; `chosen` is called with the file that was tapped, after the page has gone."""

    def __init__(
        self, app: Any, services: Services, endings: Sequence[str], chosen: Callable[[Path], None], **kwargs: Any
    ) -> None:
        super().__init__(heading=say("Choose a list"), **kwargs)
        self._services, self._endings, self._chosen = services, tuple(endings), chosen
        self._open(app.pictures_folder)

    def _open(self, folder: Path) -> None:
        self._services.pictures.do(lambda: listed(folder, self._endings), partial(self._show, folder))

    def _show(self, folder: Path, listing: Listing) -> None:
        self.under = broken(str(folder))
        rows: list[Widget] = [Words(text=told(listing.problem), bold=True)] if listing.problem else []
        if folder.parent != folder:
            rows.append(self._row(say("Up one folder"), broken(str(folder.parent)), folder.parent, self._folder))
        rows += [self._row(file.name, say("list"), file, self._file) for file, _ in listing.files]
        rows += [self._row(one.name, say("folder"), one, self._folder) for one in listing.folders]
        if not listing.files and not listing.problem:
            rows.append(Quiet(text=say("No list in this folder.")))
        self.fill(*rows, Quiet(text=say(HOW)))
        self.ids.scroll.scroll_y = 1

    def _row(self, title: str, line: str, path: Path, act: Callable[[RowButton], None]) -> RowButton:
        row = RowButton(title=title, line=line, key=path)
        row.bind(on_release=act)
        return row

    def _folder(self, row: RowButton) -> None:
        self._open(row.key)

    def _file(self, row: RowButton) -> None:
        chosen = self._chosen
        self.manager.pop(self)
        chosen(row.key)


class ListPage(Page):
    """What a list holds: which rows can be entered, and what is wrong with the others. Nothing is entered yet."""

    def __init__(self, services: Services, app: Any, file: Path, **kwargs: Any) -> None:
        super().__init__(heading=say("From a list"), under=file.name, **kwargs)
        self._services, self._app, self._file = services, app, file
        self._rows: tuple[Row, ...] | None = None
        self._problem = ""
        self._entering = self._seen = False
        app.bind(person=self._changed)
        self.fill(Words(text=say("Reading the list …")))
        services.records.do(services.register.tags, self._with_tags)

    def _with_tags(self, tags: list[tuple[str, str]]) -> None:
        """Read the list on the other thread: the register's is not kept waiting, and the page may be left meanwhile."""
        self._services.pictures.do(partial(self._read, tags), self._take, self._refused)

    def _read(self, tags: list[tuple[str, str]]) -> tuple[Row, ...]:
        existing = {key_of(place, tag) for place, tag in tags}
        return read_items(read_file(self._file), existing, today=self._services.today(), new_id=new_id)

    def _refused(self, error: Exception) -> None:
        if not isinstance(error, ItemListError):
            self._app.failed(error)
            return
        self._problem = str(error)
        self.fill(Words(text=told(self._problem), bold=True), Words(text=say("Nothing was entered.")))

    def _take(self, rows: tuple[Row, ...]) -> None:
        self._rows = rows
        self._show()

    def _changed(self, *_changed: object) -> None:
        if self.manager is not None and self._rows is not None:
            self._show()

    def _show(self) -> None:
        rows = self._rows or ()
        items, bad = good(rows), [row for row in rows if row.item is None]
        content: list[Widget] = [
            Title(
                text=say_many(
                    "{good} of {count} row can be entered", "{good} of {count} rows can be entered", len(rows),
                    good=len(items),
                )
            ),
            Words(text=say("Nothing was entered yet.")),
        ]  # fmt: skip
        if bad:
            content.append(Title(text=say_many("{count} row cannot", "{count} rows cannot", len(bad))))
            content += self._cards([(row, row.problems) for row in bad])
        odd = [(row, row.doubts) for row in rows if row.doubts]
        if odd:
            text = say_many("{count} row looks unlikely", "{count} rows look unlikely", len(odd))
            content.append(Title(text=text))
            content += self._cards(odd)
        other = QuietButton(text=say("Somebody else enters them"), bold=True)
        other.bind(on_release=self._ask_who)
        self.fill(*content, other)
        self.fill_foot(*self._main(len(items), len(bad), len(odd)))

    def _cards(self, rows: Sequence[tuple[Row, tuple[Fault, ...]]]) -> list[Widget]:
        cards: list[Widget] = []
        for row, faults in rows[:MOST_SHOWN]:
            title = say("Row {number} · {tag}", number=row.number, tag=row.tag or say("without a tag"))
            lines = [say("{column}: {what}", column=one.name, what=told(one.sentence)) for one in faults]
            cards.append(Card(title=title, lines=lines))
        if len(rows) > MOST_SHOWN:
            cards.append(Quiet(text=say("The first {count} are shown.", count=MOST_SHOWN)))
        return cards

    def _main(self, count: int, bad: int, odd: int) -> list[Widget]:
        person = self._app.person
        if not count or person is None:
            return []
        if (bad or odd) and not self._seen:  # said first, so that nothing is left out or taken in unseen
            texts = [
                say_many("I leave out the {count} row that cannot", "I leave out the {count} rows that cannot", bad)
            ]
            if odd:
                checked = say_many("I have checked the {count} that looks unlikely",
                                   "I have checked the {count} that look unlikely", odd)  # fmt: skip
                texts = [*texts, checked] if bad else [checked]
            seen = AnswerButton(text=" · ".join(texts))
            seen.bind(on_release=self._saw)
            return [seen]
        enter = MainButton(
            text=say_many("Enter the {count} good one as {who}", "Enter the {count} good ones as {who}", count,
                          who=who(person))
        )  # fmt: skip
        enter.bind(on_release=self._enter)
        return [enter]

    def _saw(self, *_event: object) -> None:
        self._seen = True
        self._show()

    def _ask_who(self, *_event: object) -> None:
        self._app.ask_who()

    def _enter(self, *_event: object) -> None:
        if self._entering or self._rows is None:  # a second finger on the same button
            return
        self._entering = True
        register, items, person = self._services.register, good(self._rows), self._app.person
        now = self._services.now()
        offset = now.utcoffset()
        minutes = int(offset.total_seconds() // 60) if offset else 0
        self.fill_foot(Words(text=say("Entering them …"), bold=True))

        def failed(error: Exception) -> None:
            self._entering = False
            self._show()
            self._app.failed(error)

        self._services.records.do(
            lambda: register.add_items(items, person, now.astimezone(UTC), minutes), self._entered, failed
        )

    def _entered(self, added: list[str]) -> None:
        text = say_many("{count} item was entered.", "{count} items were entered.", len(added))
        held = say("Each is on hold until a competent person has recorded it as made or as found: its page offers it.")
        self.fill(Title(text=text), Words(text=held))
        done = MainButton(text=say("To the items"))
        done.bind(on_release=self._done)
        self.fill_foot(done)

    def _done(self, *_event: object) -> None:
        app = self._app
        app.stack.home()
        app.show_items()
