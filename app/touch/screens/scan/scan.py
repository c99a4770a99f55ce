"""Scan a label: a picture of it is taken or chosen, its code read, and the item with that tag opened."""

from collections.abc import Callable
from functools import partial
from typing import Any

from kivy.uix.widget import Widget

from app.language import mark, say, told
from app.photos import PhotoRefused
from app.register import ItemRow
from app.scanning import read_file
from app.touch.screens.items.items import row_lines
from app.touch.screens.photograph.source import PictureSource, Waiting
from app.touch.services import Services
from app.touch.widgets.buttons import AnswerButton, MainButton, RowButton
from app.touch.widgets.page import Page
from app.touch.widgets.words import Quiet, Title, Words
from app.touch.wording import shown_sign

HOW = mark("Take or choose a picture of the label, as sharp and as straight as you can. The picture is not kept.")
CHECK = mark("A label can hang on the wrong item: compare what the screen says with what you hold.")
NOTHING = mark("No code could be read on {name}. Take it nearer, sharper and without glare, or type the tag.")
UNKNOWN = mark("The label says {code}. No item here has this tag.")
SEVERAL = mark("The label says {code}. More than one item has this tag: choose the one you hold.")

Found = list[tuple[str, list[ItemRow]]]


class ScanPage(Page):
    """Reads labels; `look_for` gets what a label said when it is to be searched for, after the page has gone."""

    def __init__(self, services: Services, app: Any, look_for: Callable[[str], None], **kwargs: Any) -> None:
        super().__init__(heading=say("Scan a label"), **kwargs)
        self._services, self._app, self._look_for = services, app, look_for
        self._source = PictureSource(app, services, self._read, self._refuse)
        self._show([Words(text=say(HOW)), Quiet(text=say(CHECK))])

    def _show(self, content: list[Widget]) -> None:
        self.fill(*content)
        choose = _button(MainButton, say("Choose picture files"), self._source.choose)
        if self._source.has_camera:
            self.fill_foot(choose, _button(MainButton, say("Take a picture"), self._source.take))
        else:
            self.fill_foot(choose)

    def _refuse(self, reason: str) -> None:
        self._show([Words(text=told(reason), bold=True), Quiet(text=say("Typing the tag always works."))])

    def _read(self, files: Waiting) -> None:
        self._show([Words(text=say("Reading the label …"), bold=True)])
        names = ", ".join(name for name, _ in files)

        def work() -> tuple[str, ...]:
            return tuple(dict.fromkeys(code for name, read in files for code in read_file(_bytes(read, name), name)))

        self._services.pictures.do(work, partial(self._look_up, names), self._failed)

    def _look_up(self, names: str, codes: tuple[str, ...]) -> None:
        register, on = self._services.register, self._services.today()
        self._services.records.do(
            lambda: [(code, register.by_code(code, on)) for code in codes], partial(self._found, names)
        )

    def _failed(self, error: Exception) -> None:
        if isinstance(error, PhotoRefused | ValueError | OSError):
            self._refuse(str(error))
        else:
            self._app.failed(error)

    def _found(self, names: str, found: Found) -> None:
        if len(found) == 1 and len(found[0][1]) == 1:
            self.manager.replace(_item_page(self._services, self._app, found[0][1][0].id))
            return
        content: list[Widget] = []
        for code, rows in found:
            if not rows:
                content.append(Title(text=say(UNKNOWN, code=code)))
                content.append(_button(AnswerButton, say("Search for {code}", code=code), partial(self._search, code)))
                continue
            content.append(Title(text=say(SEVERAL, code=code) if len(rows) > 1 else code))
            content += [self._row(row) for row in rows]
        self._show([*content, Quiet(text=say(CHECK))] if found else [Words(text=say(NOTHING, name=names), bold=True)])

    def _row(self, row: ItemRow) -> Widget:
        line, more = row_lines(row)
        button = RowButton(
            answer=shown_sign(row.answer, row.whereabouts),
            title=f"{row.tag} · {row.description}",
            line=line,
            more=more,
            key=row.id,
        )
        button.bind(on_release=lambda one: self.manager.replace(_item_page(self._services, self._app, one.key)))
        return button

    def _search(self, code: str) -> None:
        self.manager.pop(self)
        self._look_for(code)


def _item_page(services: Services, app: Any, item_id: str) -> Page:
    from app.touch.screens.item.item import ItemPage

    return ItemPage(services, app, item_id)


def _bytes(read: Callable[[], bytes], name: str) -> bytes:
    try:
        return read()
    except OSError as error:
        raise ValueError(f"{name}: cannot be read ({error.strerror or error}). Choose another file.") from None


def _button(kind: type, text: str, act: Callable[[], None]) -> Any:
    button = kind(text=text)
    button.bind(on_release=lambda _one: act())
    return button
