"""The pictures of one record: taken or chosen, each kept at once."""

from collections.abc import Callable
from pathlib import Path
from typing import Any

from kivy.clock import Clock
from kivy.metrics import dp
from kivy.uix.widget import Widget
from kivy.utils import platform

from app.device import Cancelled, Unavailable
from app.language import say, say_many
from app.touch.screens.photograph.folder import FolderPage
from app.touch.screens.records.act import Act, ActPage
from app.touch.services import Intake
from app.touch.widgets.buttons import AnswerButton, MainButton
from app.touch.widgets.thumbnail import Thumbnail
from app.touch.widgets.words import Quiet, Words

ENDINGS = ("jpg", "jpeg", "png", "webp", "heic", "heif")


class PicturesPage(ActPage):
    """The pictures of an act; with `then`, a button goes on once there is one."""

    def __init__(
        self, act: Act, heading: str, *, why: str = "", then: Callable[[], None] | None = None, **kwargs: Any
    ) -> None:
        super().__init__(act, heading, **kwargs)
        self._why, self._then = why, then
        self._refused: list[str] = []
        self._waiting: list[tuple[str, Callable[[], bytes]]] = []
        self.build()

    def build(self) -> None:
        """Show the pictures and the ways to more of them."""
        pictures = self.act.pictures
        content: list[Widget] = [Words(text=self._why)] if self._why else []
        if self._waiting:
            content.append(Words(text=say("Taking in a picture; {count} to go …", count=len(self._waiting)), bold=True))
        content += [Words(text=sentence, bold=True) for sentence in self._refused]
        if not pictures and not self._waiting:
            content.append(Words(text=say("No picture yet.")))
        for sha in pictures:
            content.append(Thumbnail(self.act.services, sha, size_hint_y=None, height=dp(200)))
        if pictures:
            content.append(Quiet(text=say_many("{count} picture kept", "{count} pictures kept", len(pictures))))
        self.fill(*content)
        ready = bool(pictures) and not self._waiting
        ways: list[Widget] = [self._button(say("Choose picture files"), self._choose, quiet=ready)]
        if platform == "android":
            ways.append(self._button(say("Take a picture"), self._take, quiet=ready))
        if ready:
            ways.append(self._button(say("Go on"), self._go))
        self.fill_foot(*ways)

    def _button(self, text: str, act: Callable[[], None], *, quiet: bool = False) -> Widget:
        button = (AnswerButton if quiet else MainButton)(text=text)
        button.bind(on_release=lambda _one: act())
        return button

    def _go(self) -> None:
        if self._then is not None:
            self._then()
        else:
            self.act.app.back()

    def _choose(self) -> None:
        act = self.act
        folder = FolderPage(act.app, act.services, ENDINGS, self._chosen)
        if platform != "android":  # a window of another program is not made for gloves
            act.push(folder)
            return
        answer = act.services.device.choose_files(say("Pictures"), ENDINGS, lambda found: _later(self._picked, found))
        if answer is not None:
            act.push(folder)

    def _picked(self, found: list[Path] | Cancelled | Unavailable) -> None:
        if isinstance(found, Unavailable):
            self._refused = [found.reason]
            self.build()
        elif not isinstance(found, Cancelled):
            self._chosen(found)

    def _take(self) -> None:
        answer = self.act.services.device.take_picture(lambda found: _later(self._taken, found))
        if answer is not None:
            self._taken(answer)

    def _taken(self, found: bytes | Cancelled | Unavailable) -> None:
        if isinstance(found, Unavailable):
            self._refused = [found.reason]
            self.build()
        elif isinstance(found, bytes):
            self._take_in([("picture", lambda: found)])

    def _chosen(self, files: list[Path]) -> None:
        self._take_in([(file.name, file.read_bytes) for file in files])

    def _take_in(self, files: list[tuple[str, Callable[[], bytes]]]) -> None:
        self._refused, self._waiting = [], files
        self._next()

    def _next(self) -> None:
        self.build()
        if self._waiting:
            name, read = self._waiting[0]
            self.act.services.take_in(name, read, self._one_done)

    def _one_done(self, intake: Intake) -> None:
        del self._waiting[:1]
        if intake.refused:
            self._refused.append(intake.refused)
        elif intake.sha256 not in self.act.pictures:
            self.act.pictures.append(intake.sha256)
        self._next()


def _later(act: Callable[[Any], None], found: object) -> None:
    """Answer on the window's thread: the device answers on whichever it likes."""
    Clock.schedule_once(lambda _dt: act(found))
