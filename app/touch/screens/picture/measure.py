"""Measure in a photograph: the card's corners, then the rope's path, then the length with its doubt.

Nothing is measured by a single touch: each point is placed, seen in the loupe, moved by pixels where need be, and then
confirmed.
"""

from collections.abc import Callable
from typing import Any

from kivy.metrics import dp
from kivy.uix.widget import Widget

from app.language import say, told
from app.touch.screens.inspect.inspect import InspectPage
from app.touch.screens.keypad.keypad import KeypadPage, OnPhotograph
from app.touch.screens.picture import notes
from app.touch.screens.picture.board import BoardPage, button
from app.touch.screens.picture.cards import BLANK, Card
from app.touch.screens.picture.measured import (
    NO_CARD,
    OFFSET,
    OFFSET_TAPS,
    WHICH,
    asks_length,
    card_page,
    height_of,
    is_minus,
    length_text,
    marking_of,
    study_of,
    u_text,
)
from app.touch.screens.picture.opened import (
    Corners,
    Length,
    Proposed,
    as_tapped,
    edges,
    length_of,
    marks_along,
    sides_of,
)
from app.touch.services import Services
from app.touch.typed import Typed
from app.touch.widgets.buttons import MainButton, QuietButton
from app.touch.widgets.canvas import Point
from app.touch.widgets.words import Quiet, Title, Words
from app.touch.wording import place_name
from inspection_rules.measures.photo_length import recorded_u
from inspection_rules.pictures import Marking
from inspection_rules.quantity import parse
from inspection_rules.record import Reading
from inspection_rules.rulings.numbers import good
from inspection_rules.walk import Step
from inspection_rules.words import Method

MOST_PATH = 12
U_TAP_PX = 1.0  # of a tap seen in the loupe, each coordinate


class MeasurePage(BoardPage):
    """Measures in one picture of the step that the hands are at.

    Attributes:
        offset: whether what is asked for is how much farther one leg's mark lies than the other's.
        corners: the card's, once they are known. path: the points along the rope. result: what came out.
    """

    def __init__(
        self, services: Services, app: Any, inspect: InspectPage, step: Step, sha: str, done: Callable[[], None],
        **kwargs: Any,
    ) -> None:  # fmt: skip
        """`done` is called when a length was kept, after this page has gone."""
        self._app, self._inspect, self._step, self._done = app, inspect, step, done
        self.offset = step.observation.id == OFFSET
        self._rope_mm = height_of(inspect.visit.item)
        self.card: Card = BLANK
        self.taps: list[Point] = []
        self.corners: Corners | None = None
        self.path: list[Point] = []
        self.result: Length | None = None
        self.proposed: list[Point] = []
        self._said: list[str] = []
        self._units: list[float] = []
        self._failed = False
        super().__init__(services, sha, heading=say("Measure in the picture"), **kwargs)
        self.under = place_name(inspect.visit.item, step.part, step.observation.station)
        self.board.bind(on_spot=lambda *_: self._build())
        self.board.bind(pending=self._follow_pending)
        self._had_pending = False
        self._build()

    def ready(self) -> None:
        """Show what was marked in it before, and ask for the card."""
        self._build()

    def _follow_pending(self, *_changed: object) -> None:
        if (self.board.pending is not None) is not self._had_pending:
            self._build()

    # --- what is shown ---------------------------------------------------------------------------------

    def _build(self) -> None:
        self._had_pending = self.board.pending is not None
        self._draw()
        if self.picture is None:
            return
        if self.corners is None:
            content, foot = self._ask_corners()
        elif self.result is None:
            content, foot = self._ask_path()
        else:
            content, foot = self._tell()
        self.lay(content, foot)

    def _draw(self) -> None:
        board = self.board
        board.outline = list(self.corners.points) if self.corners else []
        board.points = [*(self.taps if self.corners is None else []), *self.path, *self.proposed]
        board.lines = [] if self.offset else [self.path]
        board.places = self.result is None
        board.redraw()

    def _problem(self) -> list[Widget]:
        return [Words(text=told(one), bold=True) for one in self._said]

    def _ask_corners(self) -> tuple[list[Widget], list[Widget]]:
        number = len(self.taps) + 1
        content: list[Widget] = []
        foot: list[Widget] = []
        if self._failed:
            content += self._problem()
            content.append(button(QuietButton, say("Tap the corners again"), self._again))
            foot.append(
                button(MainButton, say("Use the corners as I tapped them"), lambda: self._take(as_tapped(self.taps)))
            )
            content.append(Quiet(text=say("Each is then good to 3 pixels only, which makes the length less certain.")))
        elif number > 4:
            content.append(Words(text=say("Looking for the card's edges …"), bold=True))
        else:
            title = say("Tap corner {number} of 4 of the card", number=number)
            content.append(Title(text=title))
            what = button(QuietButton, say("What lies there: {card}", card=say(self.card.name)), self._ask_card)
            roughly = Quiet(
                text=say("Roughly is enough: its edges are looked for. Rounded corners: where the edges would meet.")
            )
            if self.board.pending is None:
                content += [*self._problem(), roughly, what, *self._pads()]
            else:
                content += [*self._pads(), what]
            if self.taps:
                content.append(button(QuietButton, say("Take back the last one"), self._untap))
            if self.board.pending is not None:
                foot.append(button(MainButton, say("Corner {number} is here", number=number), self._confirm))
        return content, foot

    def _ask_path(self) -> tuple[list[Widget], list[Widget]]:
        observation = self._step.observation
        number = len(self.path) + 1
        content: list[Widget] = self._problem()
        foot: list[Widget] = []
        full = number > (len(OFFSET_TAPS) if self.offset else MOST_PATH)
        if self.offset and not full:
            content.append(Title(text=say("Tap {what}", what=say(OFFSET_TAPS[number - 1]))))
        elif not self.offset:
            asked = say(observation.ask) if asks_length(self._step) else say("A length in the picture")
            content.append(Title(text=asked))
            content.append(
                Quiet(
                    text=say("Tap where it begins, and on along the middle of the rope to where it ends.")
                    if number == 1
                    else say("Point {number} along the rope; more of them follow a bend.", number=number)
                )
            )
        if not full:
            content += self._pads()
        if self.path:
            content.append(button(QuietButton, say("Take back the last one"), self._untap))
        if len(self.path) >= 2 and not self.offset and self._rope_mm:
            content.append(button(QuietButton, say("Propose the marks"), self._propose))
        content.append(button(QuietButton, say("Tap the corners again"), self._again))
        if self.board.pending is not None and not full:
            here = say("It is here") if self.offset else say("Point {number} is here", number=number)
            foot.append(button(MainButton, here, self._confirm))
        elif len(self.path) >= (len(OFFSET_TAPS) if self.offset else 2):
            foot.append(button(MainButton, say("Measure"), self._measure))
        return content, foot

    def _tell(self) -> tuple[list[Widget], list[Widget]]:
        if self.result is None:
            return [], []
        found = self.result.found
        minus = is_minus(found)
        content: list[Widget] = [
            Title(text=("−" if minus else "") + length_text(found), type_size=28),
            *([Words(text=say(WHICH[minus]))] if self.offset else []),
            Words(text=say("good to ± {good} mm (u {u})", good=good(recorded_u(found.u_mm)), u=u_text(found))),
            *(Words(text=told(one), type_size=16) for one in found.warnings),
        ]
        if self.corners is not None and not self.corners.found:
            content.append(Words(text=say("The card's edges were not found: its corners are as tapped."), type_size=16))
        stands = self._stands()
        if stands:
            content.append(Words(text=stands))
        content.append(button(QuietButton, say("Measure again"), self._once_more))
        if asks_length(self._step) and not stands and found.reading:
            content.append(
                Quiet(
                    text=say(
                        "A photograph alone never removes an item: beyond a limit it holds, to be measured by hand. "
                        "It is judged with no less doubt than photographs have by default."
                    )
                )
            )
            content.append(button(QuietButton, say("Keep it in the picture only"), self._keep))
            return content, [button(MainButton, say("Take this as the reading"), self._as_reading)]
        return content, [button(MainButton, say("Keep it in the picture"), self._keep)]

    def _stands(self) -> str:
        """Say why it cannot be the reading: one that was read in another way stands."""
        entry = self._inspect.visit.entry(self._step.key)
        if isinstance(entry, Reading) and entry.method is not Method.PHOTOGRAPH:
            return say(
                "It was read here by {method}: that reading stands, and a photograph does not take its place.",
                method=say(str(entry.method)),
            )
        return ""

    def _pads(self) -> list[Widget]:
        what = (
            say("The arrows move the point, a pixel a tap.")
            if self._had_pending
            else say("The arrows move the picture.")
        )
        content: list[Widget] = [self.pad(), Quiet(text=what)]
        if not self._had_pending:
            content.append(button(QuietButton, say("Put the point in the middle"), self._to_middle))
        return content

    # --- what is done ----------------------------------------------------------------------------------

    def _to_middle(self) -> None:
        self.board.pending = self.board.middle

    def _confirm(self) -> None:
        point = self.board.pending
        if point is None:
            return
        self._said = []
        self._unpend()
        if self.corners is None:
            self.taps.append(point)
            if len(self.taps) == 4:
                self._find_edges()
        else:
            self.path.append(point)
            # A finger is not better than the screen's own dots, however good the loupe is.
            self._units.append(max(U_TAP_PX, 0.5 * dp(1) / self.board.unit))
        self._build()

    def _unpend(self) -> None:
        """Forget the point being placed, without showing what is half done."""
        self._had_pending = False
        self.board.pending = None

    def _untap(self) -> None:
        self._unpend()
        if self.corners is None:
            del self.taps[-1:]
        else:
            del self.path[-1:], self._units[-1:]
        self._build()

    def _again(self) -> None:
        self.taps, self.corners, self._failed, self._said = [], None, False, []
        self.path, self._units, self.proposed, self.result = [], [], [], None
        self._unpend()
        self._build()

    def _once_more(self) -> None:
        self.path, self._units, self.proposed, self.result, self._said = [], [], [], None, []
        self._build()

    def _ask_card(self) -> None:
        def chosen(card: Card | None) -> None:
            self.card = card or self.card
            self._said = [] if card is not None else [NO_CARD]
            self._build()

        self.manager.push(card_page(self.card, chosen))

    def _find_edges(self) -> None:
        picture, taps = self.picture, tuple(self.taps)
        if picture is None:
            return

        def found(corners: Corners | str) -> None:
            if tuple(self.taps) != taps or self.corners is not None:
                return
            if isinstance(corners, str):
                self._failed, self._said = True, [f"{corners[:1].upper()}{corners[1:]}."]
                self._build()
            else:
                self._take(corners)

        self._services.pictures.do(lambda: edges(picture, taps), found)

    def _take(self, corners: Corners) -> None:
        self.corners, self._failed, self._said = corners, False, []
        self._unpend()
        self._build()

    def _measure(self) -> None:
        picture, corners, path = self.picture, self.corners, tuple(self.path)
        if picture is None or corners is None:
            return
        u, rope, offset, card = max(self._units), self._rope_mm, self.offset, self.card

        def found(length: Length | str) -> None:
            if tuple(self.path) != path:
                return
            if isinstance(length, str):
                self._said = [length]
            else:
                self.result, self.proposed, self._said = length, [], []
            self._build()

        self._services.pictures.do(lambda: length_of(picture, corners, card, path, u, rope, offset), found)

    def _propose(self) -> None:
        picture, corners, path, rope = self.picture, self.corners, tuple(self.path), self._rope_mm
        if picture is None or corners is None or rope is None:
            return
        sides = sides_of(corners, self.card)

        def found(proposal: Proposed | str) -> None:
            if tuple(self.path) != path:
                return
            if isinstance(proposal, str):
                self._said = [proposal]
            else:
                self._said = [proposal.doubt] if proposal.doubt else []
                self._offer(proposal)
            self._build()

        self._services.pictures.do(lambda: marks_along(picture, corners, sides, path, rope), found)

    def _offer(self, proposal: Proposed) -> None:
        """Let the path run from mark to mark where there are two, else show what stands out."""
        if proposal.path:
            self.path, self._units = list(proposal.path), [max(self._units)] * len(proposal.path)
            said = say("Two marks stand out: the length now runs from one to the other. Look at both.")
            self._said.append(said)
        elif len(proposal.places) == 1:
            self.proposed = list(proposal.places)
        elif proposal.places:
            self._said.append(say("{count} places stand out: tap the two that are meant.", count=len(proposal.places)))
            self.proposed, self.path, self._units = list(proposal.places), [], []

    def _marking(self) -> Marking | None:
        if self.picture is None or self.corners is None or self.result is None:
            return None
        of = self._step.observation.id if asks_length(self._step) else ""
        return marking_of(self.picture.size, self.corners, self.card, self.path, self.result, of, self.offset)

    def _keep(self, then: Callable[[], None] | None = None) -> None:
        """Lay the length over the picture, as data; then go back, or on to the reading."""
        marking = self._marking()
        if marking is None:
            return
        visit = self._inspect.visit
        had = notes.note_of(visit, self.sha, self._step.part).markings
        changed = notes.with_markings(visit, self.sha, self._step.part, (*had, marking))

        def kept() -> None:
            if then is not None:
                then()
            elif self.manager is not None:
                self.manager.pop(self)
                self._done()

        self._inspect.confirm(changed, onward=False, done=kept)

    def _as_reading(self) -> None:
        if self.result is None or self.corners is None:
            return
        found = self.result.found
        number, _, unit = length_text(found).partition(" ")
        typed = Typed(unit, digits=number, minus=is_minus(found))
        measured = OnPhotograph(typed, parse(u_text(found), "length"), study_of(self.card, self.corners))

        def to_keypad() -> None:
            manager = self.manager
            if manager is None:
                return
            manager.pop(next(page for page in manager.screens if getattr(page, "of_step", None) == self._step.key))
            manager.push(KeypadPage(self._app, self._inspect, self._step, measured=measured))

        self._keep(to_keypad)
