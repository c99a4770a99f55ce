"""Photograph: take or choose pictures of the place the hands are at."""

from collections.abc import Callable, Sequence
from contextlib import suppress
from datetime import date
from functools import partial
from typing import Any

from kivy.clock import Clock
from kivy.metrics import dp
from kivy.properties import StringProperty
from kivy.uix.boxlayout import BoxLayout
from kivy.uix.widget import Widget

from app.language import mark, say
from app.register import RegisterError
from app.touch import visit as visits
from app.touch.markup import load_markup
from app.touch.screens.inspect.inspect import InspectPage
from app.touch.screens.photograph.taking import Taking
from app.touch.screens.picture import notes
from app.touch.screens.picture.picture import PicturePage, ask_view, view_text
from app.touch.screens.picture.taken import apart_text, taken_text
from app.touch.services import Services
from app.touch.widgets.buttons import MainButton, QuietButton, Tappable
from app.touch.widgets.page import Page
from app.touch.widgets.thumbnail import Thumbnail
from app.touch.widgets.words import Quiet, Words
from app.touch.wording import place_name
from inspection_rules.pictures import PictureNote, views_of
from inspection_rules.walk import Step
from inspection_rules.words import View

NOT_PUT_IN = mark("It could not be put into the inspection. Choose it again once the inspection can be saved.")
SAVING_TAKES = 0.1  # seconds, about


class PictureButton(Tappable, BoxLayout):
    """A photograph as a large target, with its view and what can be done with it in words below.

    Above them stands what is `minded` of it.
    """

    text = StringProperty("")

    def __init__(
        self,
        services: Services,
        note: PictureNote,
        minded: Sequence[str],
        taken: str,
        act: Callable[[], None],
        **kwargs: Any,
    ) -> None:
        super().__init__(**kwargs)
        self.text = say("Look near, measure, mark up")
        self.add_widget(Thumbnail(services, note.picture, size_hint_y=None, height=dp(190)))
        for one in minded:
            self.add_widget(Words(text=one, bold=True))
        if note.view is not None:
            self.add_widget(Words(text=say(str(note.view)), bold=True, type_size=16))
        self.add_widget(Words(text=taken, type_size=16))
        self.add_widget(Words(text=self.text, type_size=16))
        self.bind(on_release=lambda _one: act())


class PhotographPage(Page):
    """The photographs of one step."""

    def __init__(self, services: Services, app: Any, inspect: InspectPage, step: Step, **kwargs: Any) -> None:
        super().__init__(heading=say("Photographs"), **kwargs)
        self._services, self._app, self._inspect, self._step = services, app, inspect, step
        self.under = place_name(inspect.visit.item, step.part, step.observation.station)
        self._taking = Taking(app, services, self._kept, self._build)
        self._taken: dict[str, date | None] = {}
        self._asked: set[str] = set()
        self.of_step = step.key
        self.view: View | None = views_of(inspect.visit.item, step.part, step.observation.station)[0]
        self._build()

    def _build(self) -> None:
        pictures = visits.pictures_at(self._inspect.visit, self._step.key)
        content = self._taking.told(some_kept=bool(pictures))
        if not pictures and not self._taking.under_way:
            content.append(Words(text=say("No picture of this place yet.")))
        if not self._taking.under_way:
            content.append(self._button(QuietButton, view_text(self.view), self._ask_view))
        for sha in pictures:
            note = notes.note_of(self._inspect.visit, sha, self._step.part)
            content.append(
                PictureButton(self._services, note, self._minded(sha), self._day_of(sha), partial(self._open, sha))
            )
        if pictures:
            content.append(self._how_many(pictures))
        self.fill(*content)
        choose = self._button(MainButton, say("Choose picture files"), self._taking.source.choose)
        if self._taking.source.has_camera:
            self.fill_foot(choose, self._button(MainButton, say("Take a picture"), self._taking.source.take))
        else:
            self.fill_foot(choose)

    def _minded(self, sha: str) -> list[str]:
        """What speaks against a picture being one of this place, made now. It stops nothing."""
        found = []
        visit = self._inspect.visit
        if sha in self._taken:
            found.append(apart_text(self._taken[sha], visit.inspection.on))
        places = dict.fromkeys(
            place_name(visit.item, one.part, one.observation.station)
            for one in visit.steps
            if one.key != self._step.key and sha in visits.pictures_at(visit, one.key)
        )
        if places:
            found.append(say("This picture is already at: {places}", places="; ".join(places)))
        return [one for one in found if one]

    def _day_of(self, sha: str) -> str:
        """When a picture was taken; it is read once, and the page shows it then."""
        if sha in self._taken:
            return taken_text(self._taken[sha])
        if sha not in self._asked:
            self._asked.add(sha)
            self._ask_day(sha)
        return say("The day it was taken is being read …")

    def _ask_day(self, sha: str) -> None:
        def found(taken: date | None) -> None:
            self._taken[sha] = taken
            if not self._taking.under_way:  # else it is built anew anyhow, once that is done
                self._build()

        def day_of(jpeg: bytes) -> date | None:
            from app.photos.day import taken_day  # late: the first page comes sooner

            return taken_day(jpeg)

        def read(jpeg: bytes | None) -> None:
            if jpeg is None:
                found(None)
            else:
                self._services.pictures.do(lambda: day_of(jpeg), found)

        self._services.records.do(lambda: self._services.register.picture(sha), read)

    def _how_many(self, pictures: Sequence[str]) -> Widget:
        """How many are kept; with their originals, once that is read."""
        line = Quiet(text=say("{count} kept", count=len(pictures)))
        register = self._services.register

        def found(originals: int) -> None:
            if originals:
                line.text = say("{count} kept, original files: {originals}", count=len(pictures), originals=originals)

        self._services.records.do(lambda: sum(register.kept_original(sha) is not None for sha in pictures), found)
        return line

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

    def _kept(self, sha: str, go_on: Callable[[str], None]) -> None:
        if self._inspect.saving:  # a marking of another picture, say: this one comes right after it
            Clock.schedule_once(lambda _dt: self._kept(sha, go_on), SAVING_TAKES)
            return
        register = self._services.register

        def original() -> str | None:
            with suppress(RegisterError):  # the picture counts without it
                return register.original_hash(sha)
            return None

        self._services.records.do(original, lambda found: self._put_in(sha, found, go_on))

    def _put_in(self, sha: str, original: str | None, go_on: Callable[[str], None]) -> None:
        """Put a stored picture into the inspection, with the hash of its file, which the record's seal covers then."""
        if self._inspect.saving:
            self._kept(sha, go_on)
            return
        changed = visits.pictured(self._inspect.visit, self._step.key, sha)
        if changed.inspection.noted(sha) is None and (self.view is not None or original is not None):
            note = PictureNote(picture=sha, part=self._step.part, view=self.view, original=original)
            changed = notes.with_note(changed, note)
        self._inspect.confirm(changed, onward=False, done=lambda: go_on(""), not_saved=lambda: go_on(say(NOT_PUT_IN)))


load_markup(__file__)
