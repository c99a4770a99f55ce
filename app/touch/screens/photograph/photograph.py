"""Photograph: take or choose pictures of the place the hands are at."""

from collections.abc import Callable
from functools import partial
from typing import Any

from kivy.metrics import dp
from kivy.properties import StringProperty
from kivy.uix.boxlayout import BoxLayout
from kivy.uix.widget import Widget

from app.language import say, told
from app.touch import visit as visits
from app.touch.markup import load_markup
from app.touch.screens.inspect.inspect import InspectPage
from app.touch.screens.photograph.source import PictureSource, Waiting
from app.touch.screens.picture import notes
from app.touch.screens.picture.picture import PicturePage, ask_view, view_text
from app.touch.services import Intake, Services
from app.touch.widgets.buttons import AnswerButton, MainButton, QuietButton, Tappable
from app.touch.widgets.page import Page
from app.touch.widgets.thumbnail import Thumbnail
from app.touch.widgets.words import Quiet, Words
from app.touch.wording import place_name
from inspection_rules.pictures import PictureNote, views_of
from inspection_rules.walk import Step
from inspection_rules.words import View


class PictureButton(Tappable, BoxLayout):
    """A photograph as a large target, with its view and what can be done with it in words below."""

    text = StringProperty("")

    def __init__(self, services: Services, note: PictureNote, act: Callable[[], None], **kwargs: Any) -> None:
        super().__init__(**kwargs)
        self.text = say("Look near, measure, mark up")
        self.add_widget(Thumbnail(services, note.picture, size_hint_y=None, height=dp(190)))
        if note.view is not None:
            self.add_widget(Words(text=say(str(note.view)), bold=True, type_size=16))
        self.add_widget(Words(text=self.text, type_size=16))
        self.bind(on_release=lambda _one: act())


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
        self.of_step = step.key
        self.view: View | None = views_of(inspect.visit.item, step.part, step.observation.station)[0]
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
        if not self._waiting:
            content.append(self._button(QuietButton, view_text(self.view), self._ask_view))
        for sha in pictures:
            note = notes.note_of(self._inspect.visit, sha, self._step.part)
            content.append(PictureButton(self._services, note, partial(self._open, sha)))
        if pictures:
            content.append(Quiet(text=say("{count} kept", count=len(pictures))))
        self.fill(*content)
        choose = self._button(MainButton, say("Choose picture files"), self._source.choose)
        if self._source.has_camera:
            self.fill_foot(choose, self._button(MainButton, say("Take a picture"), self._source.take))
        else:
            self.fill_foot(choose)

    def shown(self) -> None:
        """Show what was said of the pictures meanwhile."""
        self._build()

    def _open(self, sha: str) -> None:
        self.manager.push(PicturePage(self._services, self._app, self._inspect, self._step, sha))

    def _ask_view(self) -> None:
        def chosen(view: View | None) -> None:
            self.view = view
            self._build()

        ask_view(self, self._inspect, self._step, self.view, chosen)

    def _button(self, kind: type, text: str, act: Callable[[], None]) -> Widget:
        button = kind(text=text)
        button.bind(on_release=lambda _one: act())
        return button

    def _refuse(self, reason: str) -> None:
        self._refused = [reason]
        self._build()

    def _take_in(self, files: Waiting) -> None:
        self._refused = []
        self._waiting, self._count = list(files), len(files)
        self._next()

    def _stop(self) -> None:
        self._waiting = self._waiting[:1]  # the one under way is finished

    def _next(self) -> None:
        self._build()
        if self._waiting:
            name, read = self._waiting[0]
            self._services.take_in(name, read, self._one_done, self._app.preferences.keep_place)

    def _one_done(self, intake: Intake) -> None:
        del self._waiting[:1]
        if intake.refused:
            self._refused.append(intake.refused)
            self._next()
            return
        changed = visits.pictured(self._inspect.visit, self._step.key, intake.sha256)
        if self.view is not None and changed.inspection.noted(intake.sha256) is None:
            changed = notes.with_view(changed, intake.sha256, self._step.part, self.view)
        self._inspect.confirm(changed, onward=False, done=self._next)


load_markup(__file__)
