"""Mark a photograph up: arrow, ring, line by hand and text, kept as data and never drawn into the picture."""

from collections.abc import Callable
from functools import partial
from typing import Any

from kivy.uix.widget import Widget

from app.figures.markings import measured_words, over_picture
from app.language import mark, say
from app.touch.screens.ask.ask import ChoicePage, NotePage
from app.touch.screens.inspect.inspect import InspectPage
from app.touch.screens.picture import notes
from app.touch.screens.picture.board import BoardPage, button
from app.touch.services import Services
from app.touch.widgets.buttons import AnswerButton, MainButton, QuietButton
from app.touch.widgets.canvas import Point
from app.touch.widgets.words import Quiet, Title
from app.touch.wording import place_name
from inspection_rules.pictures import MOST_POINTS, Marking, spot
from inspection_rules.walk import Step
from inspection_rules.words import MarkingKind

TOOLS = (MarkingKind.ARROW, MarkingKind.RING, MarkingKind.FREEHAND, MarkingKind.TEXT)
ASKED = {
    MarkingKind.ARROW: (mark("Tap where the arrow begins"), mark("Tap what it points at")),
    MarkingKind.RING: (mark("Tap the middle of the ring"), mark("Tap a place on the ring")),
    MarkingKind.FREEHAND: (mark("Draw the line with a finger"),),
    MarkingKind.TEXT: (mark("Tap where the text belongs"),),
}


class MarkUpPage(BoardPage):
    """Lays markings over one picture; each is saved as it is made.

    Attributes:
        tool: the kind of marking being made; None while one is chosen. points: its points so far.
    """

    def __init__(self, services: Services, inspect: InspectPage, step: Step, sha: str, **kwargs: Any) -> None:
        self._inspect, self._step = inspect, step
        self.tool: MarkingKind | None = None
        self.points: list[Point] = []
        self._had_pending = False
        super().__init__(services, sha, heading=say("Mark it up"), **kwargs)
        self.under = place_name(inspect.visit.item, step.part, step.observation.station)
        self.board.bind(on_spot=lambda *_: self._build(), on_stroke=self._drawn, pending=self._follow_pending)
        self._build()

    @property
    def markings(self) -> tuple[Marking, ...]:
        """What lies over the picture."""
        return notes.note_of(self._inspect.visit, self.sha, self._step.part).markings

    def ready(self) -> None:
        """Draw what lies over it already."""
        self._build()

    def _follow_pending(self, *_changed: object) -> None:
        if (self.board.pending is not None) is not self._had_pending:
            self._build()

    def _build(self) -> None:
        board = self.board
        self._had_pending = board.pending is not None
        board.places = self.tool is not None
        board.draws = self.tool is MarkingKind.FREEHAND
        board.points = self.points
        board.redraw()
        if self.picture is None:
            return
        board.figure = over_picture(self.markings, *self.picture.size)
        content, foot = self._choose() if self.tool is None else self._make(self.tool)
        self.lay(content, foot)

    def _choose(self) -> tuple[list[Widget], list[Widget]]:
        content: list[Widget] = [
            button(AnswerButton, _large(say(str(tool))), partial(self._use, tool)) for tool in TOOLS
        ]
        if self.markings:
            content.append(button(QuietButton, say("Take the last one back"), self._undo))
        if len(self.markings) > 1:
            content.append(button(QuietButton, say("Take one of them back"), self._ask_which))
        content.append(self.pad())
        content.append(Quiet(text=say("The picture itself stays as it was taken.")))
        return content, [button(MainButton, say("Done"), lambda: self.manager.pop(self))]

    def _make(self, tool: MarkingKind) -> tuple[list[Widget], list[Widget]]:
        content: list[Widget] = [Title(text=say(ASKED[tool][len(self.points)]))]
        foot: list[Widget] = []
        content.append(self.pad())
        if tool is not MarkingKind.FREEHAND:
            if self.board.pending is None:
                content.append(button(QuietButton, say("Put the point in the middle"), self._to_middle))
            else:
                foot.append(button(MainButton, say("It is here"), self._confirm))
        content.append(button(QuietButton, say("Leave it"), partial(self._use, None)))
        return content, foot

    # --- what is done ----------------------------------------------------------------------------------

    def _use(self, tool: MarkingKind | None) -> None:
        self.tool, self.points = tool, []
        self._unpend()
        self._build()

    def _unpend(self) -> None:
        """Forget the point being placed, without showing what is half done."""
        self._had_pending = False
        self.board.pending = None

    def _to_middle(self) -> None:
        self.board.pending = self.board.middle

    def _confirm(self) -> None:
        point, tool = self.board.pending, self.tool
        if point is None or tool is None:
            return
        self.points.append(point)
        self._unpend()
        if len(self.points) < len(ASKED[tool]):
            self._build()
        elif tool is MarkingKind.TEXT:
            self._ask_text(partial(self._add, tool, list(self.points)))
        else:
            self._add(tool, list(self.points))

    def _ask_text(self, then: Callable[[str], None]) -> None:
        def written(text: str) -> None:
            if text:
                then(text[:200])
            else:
                self._use(None)

        self.manager.push(NotePage(say("Text in the picture"), "", written))

    def _drawn(self, _board: object, points: list[Point]) -> None:
        step = max(1, -(-len(points) // MOST_POINTS))
        kept = points[::step]
        self._add(MarkingKind.FREEHAND, kept if len(kept) > 1 else points[:2])

    def _add(self, kind: MarkingKind, points: list[Point], text: str = "") -> None:
        if self.picture is None:
            return
        spots = tuple(spot(one, self.picture.size) for one in points)
        self._save((*self.markings, Marking(kind=kind, points=spots, text=text)))

    def _undo(self) -> None:
        self._save(self.markings[:-1])

    def _ask_which(self) -> None:
        said = {f"{number}: {_said(one)}": number - 1 for number, one in enumerate(self.markings, 1)}

        def chosen(text: str) -> None:
            gone = said[text]
            self._save(tuple(one for number, one in enumerate(self.markings) if number != gone))

        self.manager.push(ChoicePage(say("Which one?"), list(said), chosen))

    def _save(self, markings: tuple[Marking, ...]) -> None:
        changed = notes.with_markings(self._inspect.visit, self.sha, self._step.part, markings)
        self._inspect.confirm(changed, onward=False, done=partial(self._use, None))


def _said(marking: Marking) -> str:
    words = measured_words(marking.measured) if marking.measured is not None else marking.text
    return " ".join(one for one in (say(str(marking.kind)), words) if one)


def _large(text: str) -> str:
    return text[:1].upper() + text[1:]
