"""A photograph of the record, seen near with what was laid over it, and held against earlier ones of its view."""

from datetime import date
from typing import Any

from kivy.uix.widget import Widget

from app.figures.markings import over_picture
from app.language import say, say_many
from app.touch.screens.picture.board import BoardPage, button
from app.touch.screens.picture.compare import ComparePage
from app.touch.screens.picture.originals import OriginalFile
from app.touch.screens.picture.taken import taken_words
from app.touch.services import Services
from app.touch.widgets.buttons import AnswerButton
from app.touch.widgets.words import Quiet, Words
from app.touch.wording import day
from inspection_rules.item import Item
from inspection_rules.pictures import Marking, PictureNote
from inspection_rules.rulings.numbers import good


class LookPage(BoardPage):
    """Shows one photograph of the record; nothing can be changed in it."""

    def __init__(self, services: Services, item: Item, sha: str, on: date, **kwargs: Any) -> None:
        self._item, self._on = item, on
        self.note: PictureNote | None = None
        super().__init__(services, sha, heading=say("Photograph"), under=f"{item.tag} · {day(on)}", **kwargs)
        self.board.places = False
        self._original = OriginalFile(services, sha, self._told_original)
        register = services.register

        def find() -> PictureNote | None:
            noted = (one.inspection.noted(sha) for one in reversed(list(register.judged(item.id))))
            return next((note for note in noted if note is not None), None)

        services.records.do(find, self._noted)

    def _noted(self, note: PictureNote | None) -> None:
        self.note = note
        if self.picture is not None:
            self.ready()

    def _told_original(self) -> None:
        if self.picture is not None:
            self.ready()

    def ready(self) -> None:
        """Draw what was laid over it."""
        note = self.note
        content: list[Widget] = []
        if self.picture is not None:
            content += taken_words(self.picture.taken, self._on)
        if note is not None and self.picture is not None:
            self.board.figure = over_picture(note.markings, *self.picture.size)
            if note.view is not None:
                content.append(Words(text=say("View: {view}", view=say(str(note.view))), bold=True))
                content.append(button(AnswerButton, say("Then and now"), self._compare))
            count = len(note.markings)
            if count:
                content.append(
                    Quiet(text=say_many("{count} marking lies over it", "{count} markings lie over it", count))
                )
            content += [Words(text=measured_text(one), type_size=16) for one in note.markings if one.measured]
        self.fill(self.pad(), *content, *self._original.told())

    def _compare(self) -> None:
        if self.note is not None:
            self.manager.push(ComparePage(self._services, self._item, self.note, on=self._on))


def measured_text(marking: Marking) -> str:
    """Say what a length in a picture came to, how good it is, and by what it was measured."""
    measured = marking.measured
    if measured is None:
        return ""
    minus = "−" if measured.minus else ""
    return say(
        "Measured: {length}, good to ± {good} mm, by: {card}",
        length=f"{minus}{measured.length.text}",
        good=good(float(measured.u.to("mm"))),
        card=say(measured.card_name),
    )
