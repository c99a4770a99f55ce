"""The pictures of one record: taken or chosen, each kept at once."""

from collections.abc import Callable
from typing import Any

from kivy.metrics import dp
from kivy.uix.widget import Widget

from app.language import say, say_many
from app.touch.screens.photograph.taking import Taking
from app.touch.screens.records.act import Act, ActPage
from app.touch.widgets.buttons import AnswerButton, MainButton
from app.touch.widgets.thumbnail import Thumbnail
from app.touch.widgets.words import Quiet, Words


class PicturesPage(ActPage):
    """The pictures of an act; with `then`, a button goes on once there is one."""

    def __init__(
        self, act: Act, heading: str, *, why: str = "", then: Callable[[], None] | None = None, **kwargs: Any
    ) -> None:
        super().__init__(act, heading, **kwargs)
        self._why, self._then = why, then
        self._taking = Taking(act.app, act.services, self._kept, self.build)
        self.build()

    def build(self) -> None:
        """Show the pictures and the ways to more of them."""
        pictures = self.act.pictures
        content: list[Widget] = [Words(text=self._why)] if self._why else []
        content += self._taking.told(some_kept=bool(pictures))
        if not pictures and not self._taking.under_way:
            content.append(Words(text=say("No picture yet.")))
        for sha in pictures:
            content.append(Thumbnail(self.act.services, sha, size_hint_y=None, height=dp(200)))
        if pictures:
            content.append(Quiet(text=say_many("{count} picture kept", "{count} pictures kept", len(pictures))))
        self.fill(*content)
        ready = bool(pictures) and not self._taking.under_way
        source = self._taking.source
        ways: list[Widget] = [self._button(say("Choose picture files"), source.choose, quiet=ready)]
        if source.has_camera:
            ways.append(self._button(say("Take a picture"), source.take, quiet=ready))
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

    def _kept(self, sha: str, go_on: Callable[[str], None]) -> None:
        if sha not in self.act.pictures:
            self.act.pictures.append(sha)
        go_on("")
