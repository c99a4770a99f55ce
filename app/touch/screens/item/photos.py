"""Photographs in order of time: thumbnails by day with the place they were taken for; a tap shows one large."""

from collections.abc import Sequence
from itertools import groupby
from typing import Any

from kivy.metrics import Metrics, dp
from kivy.properties import ObjectProperty, StringProperty
from kivy.uix.boxlayout import BoxLayout
from kivy.uix.gridlayout import GridLayout
from kivy.uix.widget import Widget

from app.language import say
from app.touch.markup import load_markup
from app.touch.screens.item.history import Shot
from app.touch.screens.picture.look import LookPage
from app.touch.services import Services
from app.touch.widgets.buttons import AnswerButton, QuietButton, Tappable
from app.touch.widgets.page import Page
from app.touch.widgets.thumbnail import Thumbnail
from app.touch.widgets.words import Quiet, Title, Words
from app.touch.wording import day, part_name
from inspection_rules.item import Item

FIRST = 24  # on a page at first
LEAST_WIDTH = 132  # dp of a thumbnail with its words


class ShotButton(Tappable, BoxLayout):
    """A thumbnail with the place it was taken for."""

    shot = ObjectProperty(None)
    text = StringProperty("")


class ShotGrid(GridLayout):
    """Thumbnails side by side, as many as there is room for."""

    def __init__(self, **kwargs: Any) -> None:
        super().__init__(size_hint_y=None, spacing=dp(12), cols=2, **kwargs)
        self.bind(minimum_height=self.setter("height"), width=self._refit)

    def _refit(self, *_changed: object) -> None:
        room = dp(LEAST_WIDTH) * max(1.0, Metrics.fontscale * 0.8)
        self.cols = max(1, int((self.width + dp(12)) // (room + dp(12))))


class PhotosPage(Page):
    """The photographs of an item, or of one part of it, the newest first."""

    def __init__(self, services: Services, item: Item, shots: Sequence[Shot], part: str = "", **kwargs: Any) -> None:
        super().__init__(heading=say("Photographs"), under=item.tag, **kwargs)
        self._services, self._item, self._shots = services, item, shots
        if part:
            self.under = f"{item.tag} · {part_name(item, part)}"
        self._count = FIRST
        self._build()

    def _build(self) -> None:
        content = by_day(self._services, self, self._item, self._shots, self._count)
        if len(self._shots) > self._count:
            older = QuietButton(text=say("Show older"))
            older.bind(on_release=self._older)
            content.append(older)
        self.fill(*content)

    def _older(self, _button: object) -> None:
        self._count += FIRST
        self._build()


class ShotPage(Page):
    """One photograph as large as the page is wide."""

    def __init__(self, services: Services, item: Item, shot: Shot, **kwargs: Any) -> None:
        super().__init__(heading=shot.place or item.tag, under=f"{item.tag} · {day(shot.on)}", **kwargs)
        self.picture = Thumbnail(services, shot.sha, large=True, missing=self._missing, size_hint_y=None, height=0)
        self.picture.bind(texture=self._fit, width=self._fit)
        near = AnswerButton(text=say("Look near, with its markings"))
        near.bind(on_release=lambda _one: self.manager.push(LookPage(services, item, shot.sha, shot.on)))
        self.fill(self.picture, near)

    def _fit(self, *_changed: object) -> None:
        if self.picture.texture is not None:
            wide, high = self.picture.texture.size
            self.picture.height = self.picture.width * high / wide

    def _missing(self) -> None:
        text = say("This photograph is named in the record and is not stored on this device. The record is kept.")
        self.fill(Words(text=text))


def by_day(services: Services, page: Page, item: Item, shots: Sequence[Shot], count: int) -> list[Widget]:
    """Return the newest photographs, each day under its date; a tap shows one large on top of `page`."""
    newest = sorted(shots, key=lambda one: one.on, reverse=True)[:count]
    content: list[Widget] = []

    def open_large(button: ShotButton) -> None:
        page.manager.push(ShotPage(services, item, button.shot))

    for on, several in groupby(newest, key=lambda one: one.on):
        grid = ShotGrid()
        for shot in several:
            button = ShotButton(shot=shot, text=shot.place)
            button.add_widget(Thumbnail(services, shot.sha, size_hint_y=None, height=dp(110)), len(button.children))
            button.bind(on_release=open_large)
            grid.add_widget(button)
        content += [Title(text=day(on), type_size=17), grid]
    return content or [Quiet(text=say("No photograph yet."))]


load_markup(__file__)
