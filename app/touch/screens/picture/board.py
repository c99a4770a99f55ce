"""A page with a photograph that stays in place while its buttons scroll: above them, or beside on a wide window."""

from collections.abc import Callable, Sequence
from functools import partial
from itertools import takewhile
from typing import Any

from kivy.metrics import dp
from kivy.uix.boxlayout import BoxLayout
from kivy.uix.gridlayout import GridLayout
from kivy.uix.widget import Widget

from app.language import say
from app.touch.screens.picture.opened import Opened, opened
from app.touch.services import Services
from app.touch.widgets.canvas import PadButton, PictureCanvas, texture_of
from app.touch.widgets.page import NEW_QUESTION_RESTS, Page
from app.touch.widgets.words import Text, Words

LOW = 560  # dp of a window's height: below it a foot would take the buttons' room
TALL_SHARE, WIDE_SHARE = 1.25, 1.4  # of the picture to its buttons


class BoardPage(Page):
    """Base of the pages on one photograph; `ready` is called once it is there."""

    def __init__(self, services: Services, sha: str, **kwargs: Any) -> None:
        super().__init__(**kwargs)
        self._services, self.sha = services, sha
        self.picture: Opened | None = None
        self.board = PictureCanvas()
        self._main: list[str] = []
        self._places: list[PictureCanvas] = [self.board]
        self.bind(wide=self._place_board)
        self._place_board()
        self._read(sha, self._show)

    @property
    def boards(self) -> tuple[PictureCanvas, ...]:
        """Every picture of the page, shown or not."""
        return (self.board,)

    def ready(self) -> None:
        """The photograph is there: show what can be done with it, and again whenever that changes."""

    def lay(self, content: Sequence[Widget], foot: Sequence[Widget]) -> None:
        """Show buttons below the picture; where the main ones change, what has come under the finger rests."""
        said = [getattr(one, "text", "") for one in foot]
        changed, self._main = said != self._main, said
        if self.wide and self.height < dp(LOW):  # no room for a foot: what is next stands right below what is asked
            asked = list(takewhile(lambda one: isinstance(one, Text), content))
            rest = content[len(asked) :]
            self.fill(*asked, *([*foot, *rest] if asked else [*rest, *foot]))
            self.fill_foot()
        else:
            self.fill(*content)
            self.fill_foot(*foot)
        if changed:
            self.ids.scroll.scroll_y = 1
            if self.manager is not None:
                self.manager.rest(NEW_QUESTION_RESTS)

    def _read(self, sha: str, done: Callable[[Opened], None]) -> None:
        def decode(jpeg: bytes | None) -> None:
            if jpeg is None:
                self.fill(
                    Words(
                        text=say(
                            "This photograph is named in the record and is not stored on this device. "
                            "The record is kept."
                        )
                    )
                )
            else:
                self._services.pictures.do(lambda: opened(jpeg), done)

        self._services.records.do(lambda: self._services.register.picture(sha), decode)

    def _show(self, picture: Opened) -> None:
        self.picture = picture
        self.board.texture = texture_of(picture.pixels)
        self.ready()

    def _place_board(self, *_changed: object) -> None:
        middle = self.ids.middle.__self__
        for board in self._places:
            if board.parent is not None:
                board.parent.remove_widget(board)
        for board in self._places:
            if self.wide:
                board.size_hint = (WIDE_SHARE / len(self._places), 1)
                middle.add_widget(board, index=1)
            else:
                board.size_hint = (1, TALL_SHARE / len(self._places))
                self._column.add_widget(board, index=self._column.children.index(middle) + 1)

    def pad(self) -> Widget:
        """Return the buttons that do what fingers do on other screens: come nearer, and move."""
        return self.pad_of(self.board)

    def pad_of(self, *boards: PictureCanvas) -> Widget:
        """Return the pad of one picture, or of several that move together."""

        def all_of(act: Callable[[PictureCanvas], None]) -> None:
            for board in boards:
                act(board)

        def moved(right: int, down: int) -> Callable[[PictureCanvas], None]:
            return lambda one: (one.shift if one.pending is None else one.nudge)(right, down)

        grid = GridLayout(cols=3, spacing=dp(12), size_hint_y=None, height=2 * dp(64) + dp(12))
        for text, act in (
            (say("Nearer"), PictureCanvas.larger),
            (say("Up"), moved(0, -1)),
            (say("Farther"), PictureCanvas.smaller),
            (say("Left"), moved(-1, 0)),
            (say("Down"), moved(0, 1)),
            (say("Right"), moved(1, 0)),
        ):
            grid.add_widget(pad_button(text, partial(all_of, act)))
        if self.board.theme is None or self.board.theme.name != "night":
            return grid
        column = BoxLayout(orientation="vertical", spacing=dp(12), size_hint_y=None, height=grid.height + dp(76))
        column.add_widget(grid)
        column.add_widget(pad_button(say("Dim it again") if self.board.full_light else say("Full light"), self._light))
        return column

    def _light(self) -> None:
        """Show a picture in its own colours at night, or dim it: dyed marks are hard to see in amber."""
        full = not self.board.full_light
        for board in self.boards:
            board.full_light = full
        self.ready()


def pad_button(text: str, act: Callable[[], None]) -> PadButton:
    """Return a button of the pad."""
    button = PadButton(text=text, size_hint_y=None, height=dp(64))
    button.bind(on_release=lambda _one: act())
    return button


def button(kind: type, text: str, act: Callable[[], None], **how: Any) -> Widget:
    """Return a button that does one thing."""
    made: Widget = kind(text=text, **how)
    made.bind(on_release=lambda _one: act())
    return made
