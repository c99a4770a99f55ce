"""Measure in a photograph: the card's corners, then the rope's path, then the length with its doubt.

Nothing is measured by a single touch: each point is placed, seen in the loupe, moved by pixels where need be, and then
confirmed.
"""

import math
from collections.abc import Callable, Sequence
from fractions import Fraction
from typing import Any

from kivy.metrics import dp
from kivy.uix.widget import Widget

from app.language import mark, say, told
from app.touch.screens.ask.ask import ChoicePage
from app.touch.screens.inspect.inspect import InspectPage
from app.touch.screens.keypad.keypad import KeypadPage, OnPhotograph
from app.touch.screens.picture import notes
from app.touch.screens.picture.board import BoardPage, button
from app.touch.screens.picture.cards import BLANK, CARDS, Card, card_of
from app.touch.screens.picture.opened import Corners, Length, as_tapped, edges, length_of, marks_along, sides_of
from app.touch.services import Services
from app.touch.typed import Typed
from app.touch.widgets.buttons import MainButton, QuietButton
from app.touch.widgets.canvas import Point
from app.touch.widgets.words import Quiet, Title, Words
from app.touch.wording import place_name
from inspection_rules.measures.size import nominal_diameter
from inspection_rules.pictures import Marking, Measured, spot
from inspection_rules.quantity import decimal_text, parse
from inspection_rules.record import Item, Reading
from inspection_rules.rulings.numbers import Z
from inspection_rules.uncertainty import PROPAGATED
from inspection_rules.walk import Step
from inspection_rules.words import MarkingKind, Method

OFFSET = "mark_offset"  # two legs lie side by side: only what lies along them counts
OFFSET_TAPS = (
    mark("the tail leg's mark"),
    mark("the standing leg's mark"),
    mark("a place between the legs, near the throat"),
    mark("a place between the legs, far from the throat"),
)
_WHICH = {
    False: mark("The tail leg's mark is the farther one from the throat, or level."),
    True: mark("The tail leg's mark is the nearer one to the throat."),
}
MOST_PATH = 12
U_TAP_PX = 1.0  # of a tap seen in the loupe, each coordinate
NO_CARD = mark("Type it as two sides, for instance 210 x 148 mm.")


def asks_length(step: Step) -> bool:
    """Whether a step is a reading of a length that may be taken on a photograph."""
    observation = step.observation
    lengths = observation.kind == "reading" and observation.dimension == "length"
    return lengths and Method.PHOTOGRAPH in observation.methods


class MeasurePage(BoardPage):
    """Measures in one picture of the step that the hands are at.

    Attributes:
        corners: the card's, once they are known. path: the points along the rope. result: what came out.
    """

    def __init__(
        self, services: Services, app: Any, inspect: InspectPage, step: Step, sha: str, done: Callable[[], None],
        **kwargs: Any,
    ) -> None:  # fmt: skip
        """`done` is called when a length was kept, after this page has gone."""
        self._app, self._inspect, self._step, self._done = app, inspect, step, done
        self.card: Card = BLANK
        self.taps: list[Point] = []
        self.corners: Corners | None = None
        self.path: list[Point] = []
        self.result: Length | None = None
        self._said: list[str] = []
        self._units: list[float] = []
        self._failed = False
        super().__init__(services, sha, heading=say("Measure in the picture"), **kwargs)
        self.under = place_name(inspect.visit.item, step.part, step.observation.station)
        self.board.bind(on_spot=lambda *_: self._build())
        self.board.bind(pending=self._follow_pending)
        self._had_pending = False
        self._build()

    @property
    def offset(self) -> bool:
        """Whether what is asked for is how much farther one leg's mark lies than the other's."""
        return self._step.observation.id == OFFSET

    @property
    def _rope_mm(self) -> float | None:
        return height_of(self._inspect.visit.item)

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
        board.points = [*(self.taps if self.corners is None else []), *self.path]
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
        length, u = self._texts()
        found = self.result.found
        good = decimal_text(Fraction(Z * found.u_mm), 1)
        content: list[Widget] = [
            Title(text=self._signed(length), type_size=28),
            *([Words(text=say(_WHICH[self._minus]))] if self.offset else []),
            Words(text=say("good to ± {good} mm (u {u})", good=good, u=u)),
            *(Words(text=told(one), type_size=16) for one in found.warnings),
        ]
        if self.corners is not None and not self.corners.found:
            content.append(Words(text=say("The card's edges were not found: its corners are as tapped."), type_size=16))
        stands = self._stands()
        if stands:
            content.append(Words(text=stands))
        content.append(button(QuietButton, say("Measure again"), self._once_more))
        if asks_length(self._step) and not stands:
            content.append(
                Quiet(
                    text=say(
                        "A photograph alone never removes an item: beyond a limit it holds, to be measured by hand."
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

    def _signed(self, length: str) -> str:
        return f"−{length}" if self._minus else length

    @property
    def _minus(self) -> bool:
        return self.result is not None and round(self.result.found.length_mm, 1) < 0

    def _texts(self) -> tuple[str, str]:
        """The length without its sign and its u, as they are recorded; u is never rounded down."""
        if self.result is None:
            return "", ""
        found = self.result.found
        u = max(math.ceil(found.u_mm * 10), 1) / 10
        return f"{abs(round(found.length_mm, 1)):.1f} mm", f"{u:.1f} mm"

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
        self.path, self._units, self.result = [], [], None
        self._unpend()
        self._build()

    def _once_more(self) -> None:
        self.path, self._units, self.result, self._said = [], [], None, []
        self._build()

    def _ask_card(self) -> None:
        def chosen(text: str) -> None:
            card = card_of(text)
            if card is not None:
                self.card = card
            self._said = [] if card is not None else [NO_CARD]
            self._build()

        self.manager.push(
            ChoicePage(
                say("What lies beside the rope?"),
                [one.name for one in CARDS],
                chosen,
                present=self.card.name,
                typed=say("Another rectangle: its two sides, for instance 210 x 148 mm"),
            )
        )

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
                self.result = length
            self._build()

        self._services.pictures.do(lambda: length_of(picture, corners, card, path, u, rope, offset), found)

    def _propose(self) -> None:
        picture, corners, path, rope = self.picture, self.corners, tuple(self.path), self._rope_mm
        if picture is None or corners is None or rope is None:
            return
        sides = sides_of(corners, self.card)

        def found(proposal: Any) -> None:
            if isinstance(proposal, str):
                self._said = [proposal]
            else:
                self._said = [proposal.doubt] if proposal.doubt else []
                if len(proposal.marks) == 2:  # the path then runs from mark to mark
                    self.path = [one.pixel for one in proposal.marks]
                    self._units = [max(self._units)] * 2
                    self._said.append(
                        say("Two marks stand out: the length now runs from one to the other. Look at both.")
                    )
                elif proposal.marks:
                    self._said.append(
                        say("{count} places stand out: tap the two that are meant.", count=len(proposal.marks))
                    )
                    self.path, self._units = [], []
                    self.board.points = [one.pixel for one in proposal.marks]
            self._build()

        self._services.pictures.do(lambda: marks_along(picture, corners, sides, path, rope), found)

    def _marking(self) -> Marking | None:
        if self.picture is None or self.corners is None or self.result is None:
            return None
        size = self.picture.size
        length, u = self._texts()
        path: Sequence[Point] = self.path[:2] if self.offset else self.path
        long, short = self.result.sides
        return Marking(
            kind=MarkingKind.LENGTH,
            points=tuple(spot(one, size) for one in path),
            measured=Measured(
                card=tuple(spot(one, size) for one in self.corners.points),
                card_sides=(parse(f"{long:g} mm", "length"), parse(f"{short:g} mm", "length")),
                card_name=self.card.name,
                length=parse(length, "length"),
                u=parse(u, "length"),
                minus=self._minus,
                along=tuple(spot(one, size) for one in self.path[2:]) if self.offset else (),
                of=self._step.observation.id if asks_length(self._step) else "",
                edges_found=self.corners.found,
            ),
        )

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
        length, u = self._texts()
        number, _, unit = length.partition(" ")
        study = f"{PROPAGATED}{self.card.name}, first-order propagation"
        if self.corners is not None and not self.corners.found:
            study += ", corners as tapped"
        typed = Typed(unit, digits=number, minus=self._minus)

        def to_keypad() -> None:
            manager = self.manager
            if manager is None:
                return
            manager.pop(next(page for page in manager.screens if getattr(page, "of_step", None) == self._step.key))
            self._inspect.typed[self._step.key] = typed
            manager.push(
                KeypadPage(
                    self._app, self._inspect, self._step, measured=OnPhotograph(typed, parse(u, "length"), study)
                )
            )

        self._keep(to_keypad)


def height_of(item: Item) -> float | None:
    """Return how high the rope or web stands above the card's plane, mm; None where the record does not say."""
    size = nominal_diameter(item)
    if size is not None:
        return float(size)
    return float(item.thickness.to("mm")) if item.thickness is not None else None
