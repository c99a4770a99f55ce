"""Taking in pictures one after the other: which is under way, what was refused and why, the rest kept."""

from collections.abc import Callable
from typing import Any

from kivy.uix.widget import Widget

from app.language import say, told
from app.touch.screens.photograph.source import PictureSource, Waiting
from app.touch.services import Intake, Services
from app.touch.widgets.buttons import AnswerButton
from app.touch.widgets.words import Quiet, Words


class Taking:
    """The pictures of one page on their way into the register.

    Attributes:
        source: where they come from.
    """

    def __init__(
        self,
        app: Any,
        services: Services,
        kept: Callable[[str, Callable[[str], None]], None],
        changed: Callable[[], None],
    ) -> None:
        """`kept` gets the hash of each that is stored, and goes on with what it is given, saying what went wrong;
        `changed` shows how it is.
        """
        self._app, self._services, self._kept, self._changed = app, services, kept, changed
        self._waiting: Waiting = []
        self._refused: list[str] = []
        self._count = 0
        self._again: Waiting = []
        self.source = PictureSource(app, services, self._take_in, self._refuse)

    @property
    def under_way(self) -> bool:
        """Whether a picture is being taken in."""
        return bool(self._waiting)

    def told(self, some_kept: bool) -> list[Widget]:
        """Return what is to be said of them: how far it is, and what was refused."""
        content: list[Widget] = []
        if self._waiting:
            number = self._count - len(self._waiting) + 1
            content.append(
                Words(text=say("Taking in picture {number} of {count} …", number=number, count=self._count), bold=True)
            )
            if len(self._waiting) > 1:
                stop = AnswerButton(text=say("Leave out the rest"))
                stop.bind(on_release=self._stop)
                content.append(stop)
        content += [Words(text=told(sentence), bold=True) for sentence in self._refused]
        if self._refused and some_kept:
            content.append(Quiet(text=say("The other pictures are kept.")))
        if self._again and not self._waiting:
            again = AnswerButton(text=say("Try again to keep them"))
            again.bind(on_release=self._once_more)
            content.append(again)
        return content

    def _once_more(self, _button: object) -> None:
        """Take in again what found no room: a picture from the camera lies nowhere else."""
        self._take_in(self._again)

    def _refuse(self, reason: str) -> None:
        self._refused = [reason]
        self._changed()

    def _take_in(self, files: Waiting) -> None:
        if not self._waiting:
            self._refused, self._count, self._again = [], 0, []
        # More that are chosen meanwhile come after those under way.
        begin = not self._waiting
        self._waiting += files
        self._count += len(files)
        if begin:
            self._next()
        else:
            self._changed()

    def _stop(self, _button: object) -> None:
        del self._waiting[1:]  # the one under way is finished
        self._changed()

    def _next(self) -> None:
        self._changed()
        if self._waiting:
            name, read = self._waiting[0]
            has = self._app.preferences
            self._services.take_in(name, read, self._one_done, has.keep_place, has.keep_original)

    def _one_done(self, intake: Intake) -> None:
        if intake.refused:
            self._refused.append(intake.refused)
        if intake.again:
            self._again.append(self._waiting[0])
        if intake.sha256:
            self._kept(intake.sha256, self._gone_on)
        else:
            self._gone_on("")

    def _gone_on(self, wrong: str) -> None:
        if wrong:
            self._refused.append(say("{name}: {why}", name=self._waiting[0][0], why=wrong))
        del self._waiting[:1]
        self._next()
