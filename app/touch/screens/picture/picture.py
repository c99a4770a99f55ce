"""One photograph of a step: seen near, what it is a view of, and the ways on to measuring, marking and comparing."""

from collections.abc import Callable
from typing import Any

from kivy.uix.widget import Widget

from app.figures.markings import over_picture
from app.language import mark, say, say_many
from app.touch.screens.ask.ask import ChoicePage
from app.touch.screens.inspect.inspect import InspectPage
from app.touch.screens.picture import notes
from app.touch.screens.picture.board import BoardPage, button
from app.touch.screens.picture.compare import ComparePage
from app.touch.screens.picture.markup import MarkUpPage
from app.touch.screens.picture.measure import MeasurePage
from app.touch.screens.picture.measured import asks_length
from app.touch.screens.picture.originals import OriginalFile
from app.touch.screens.picture.taken import taken_words
from app.touch.services import Services
from app.touch.widgets.buttons import AnswerButton, QuietButton
from app.touch.widgets.words import Words
from app.touch.wording import place_name
from inspection_rules.pictures import PictureNote, views_of
from inspection_rules.walk import Step
from inspection_rules.words import View

NO_VIEW = mark("No view of its own")


class PicturePage(BoardPage):
    """Shows a photograph with what was laid over it."""

    def __init__(self, services: Services, app: Any, inspect: InspectPage, step: Step, sha: str, **kwargs: Any) -> None:
        self._app, self._inspect, self._step = app, inspect, step
        super().__init__(services, sha, heading=say("Photograph"), **kwargs)
        self._original = OriginalFile(services, sha, self._build)
        self.under = place_name(inspect.visit.item, step.part, step.observation.station)
        self.board.places = False
        self._build()

    @property
    def note(self) -> PictureNote:
        """What is said of it."""
        return notes.note_of(self._inspect.visit, self.sha, self._step.part)

    def shown(self) -> None:
        """Show what was added meanwhile."""
        self._build()

    def ready(self) -> None:
        """Draw what was laid over it."""
        self._build()

    def _build(self) -> None:
        note = self.note
        if self.picture is not None:
            self.board.figure = over_picture(note.markings, *self.picture.size)
        content: list[Widget] = []
        if self.picture is not None:
            content += taken_words(self.picture.taken, self._inspect.visit.inspection.on)
        content.append(button(QuietButton, view_text(note.view), self._ask_view))
        if note.markings:
            content.append(
                Words(text=say_many("{count} marking lies over it", "{count} markings lie over it", len(note.markings)))
            )
        if self.picture is not None:
            content.append(button(AnswerButton, measure_text(self._step), self._measure))
            content.append(button(AnswerButton, say("Mark it up"), self._mark_up))
            if note.view is not None:
                content.append(button(AnswerButton, say("Then and now"), self._compare))
        content += [self.pad(), *self._original.told()]
        self.fill(*content)

    def _ask_view(self) -> None:
        ask_view(self, self._inspect, self._step, self.note.view, self._set_view)

    def _set_view(self, view: View | None) -> None:
        changed = notes.with_view(self._inspect.visit, self.sha, self._step.part, view)
        self._inspect.confirm(changed, onward=False, done=self._build)

    def _measure(self) -> None:
        self.manager.push(MeasurePage(self._services, self._app, self._inspect, self._step, self.sha, self._build))

    def _mark_up(self) -> None:
        self.manager.push(MarkUpPage(self._services, self._inspect, self._step, self.sha))

    def _compare(self) -> None:
        self.manager.push(ComparePage(self._services, self._inspect.visit.item, self.note))


def measure_text(step: Step) -> str:
    """Return what measuring is called at this step."""
    return say("Measure in it") if asks_length(step) else say("Measure a length in it")


def view_text(view: View | None) -> str:
    """Return what a picture is a view of, as a button says it."""
    return say("View: {view}", view=say(str(view)) if view else say(NO_VIEW))


def ask_view(page: Any, inspect: InspectPage, step: Step, present: View | None, chosen: Callable[[Any], None]) -> None:
    """Ask what a picture is a view of: the view of this station first."""
    views = views_of(inspect.visit.item, step.part, step.observation.station)
    page.manager.push(
        ChoicePage(
            say("What is it a view of?"),
            [*views, NO_VIEW],
            lambda text: chosen(None if text == NO_VIEW else View(text)),
            present=present or NO_VIEW,
        )
    )
