"""Photograph: take or choose pictures of the place the hands are at."""

from collections.abc import Callable
from typing import Any

from kivy.metrics import dp
from kivy.uix.widget import Widget

from app.language import say, told
from app.touch import visit as visits
from app.touch.screens.inspect.inspect import InspectPage
from app.touch.screens.photograph.source import PictureSource, Waiting
from app.touch.services import Intake, Services
from app.touch.widgets.buttons import AnswerButton, MainButton
from app.touch.widgets.page import Page
from app.touch.widgets.thumbnail import Thumbnail
from app.touch.widgets.words import Quiet, Words
from app.touch.wording import place_name
from inspection_rules.walk import Step


class PhotographPage(Page):
    """The photographs of one step."""

    def __init__(self, services: Services, app: Any, inspect: InspectPage, step: Step, **kwargs: Any) -> None:
        super().__init__(heading=say("Photographs"), **kwargs)
        self._services, self._app, self._inspect, self._step = services, app, inspect, step
        self.under = place_name(inspect.visit.item, step.part, step.observation.station)
        self._source = PictureSource(app, services, self._take_in, self._refuse)
        self._refused: list[str] = []
        self._waiting: Waiting = []
        self._count = 0
        self._stopped = False
        self._build()

    def _build(self) -> None:
        pictures = visits.pictures_at(self._inspect.visit, self._step.key)
        content: list[Widget] = []
        if self._waiting:
            done = self._count - len(self._waiting)
            content.append(
                Words(
                    text=say("Taking in picture {number} of {count} …", number=done + 1, count=self._count), bold=True
                )
            )
            content.append(self._button(AnswerButton, say("Leave out the rest"), self._stop))
        content += [Words(text=told(sentence), bold=True) for sentence in self._refused]
        if self._refused and pictures:
            content.append(Quiet(text=say("The other pictures are kept.")))
        if not pictures and not self._waiting:
            content.append(Words(text=say("No picture of this place yet.")))
        for sha in pictures:
            content.append(Thumbnail(self._services, sha, size_hint_y=None, height=dp(200)))
        if pictures:
            content.append(Quiet(text=say("{count} kept", count=len(pictures))))
        self.fill(*content)
        choose = self._button(MainButton, say("Choose picture files"), self._source.choose)
        if self._source.has_camera:
            self.fill_foot(choose, self._button(MainButton, say("Take a picture"), self._source.take))
        else:
            self.fill_foot(choose)

    def _button(self, kind: type, text: str, act: Callable[[], None]) -> Widget:
        button = kind(text=text)
        button.bind(on_release=lambda _one: act())
        return button

    def _refuse(self, reason: str) -> None:
        self._refused = [reason]
        self._build()

    def _take_in(self, files: Waiting) -> None:
        self._refused, self._stopped = [], False
        self._waiting, self._count = list(files), len(files)
        self._next()

    def _stop(self) -> None:
        self._waiting = self._waiting[:1]  # the one under way is finished

    def _next(self) -> None:
        self._build()
        if self._waiting:
            name, read = self._waiting[0]
            self._services.take_in(name, read, self._one_done)

    def _one_done(self, intake: Intake) -> None:
        del self._waiting[:1]
        if intake.refused:
            self._refused.append(intake.refused)
            self._next()
            return
        changed = visits.pictured(self._inspect.visit, self._step.key, intake.sha256)
        self._inspect.confirm(changed, onward=False, done=self._next)
