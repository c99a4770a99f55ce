"""Then and now: an earlier picture of the same part and view beside the present one, or laid over it.

Both are brought into line by points that the person finds in both: two or three take out place, turn and size, four
the camera's tilt as well. What lies in line is judged by the eye; nothing here is a reading.
"""

from datetime import date
from functools import partial
from typing import Any

from kivy.metrics import dp
from kivy.uix.gridlayout import GridLayout
from kivy.uix.widget import Widget

from app.figures.markings import over_picture
from app.language import mark, say, told
from app.touch.screens.picture import notes
from app.touch.screens.picture.board import BoardPage, button, pad_button
from app.touch.screens.picture.notes import Earlier
from app.touch.screens.picture.opened import Opened, laid_over
from app.touch.services import Services
from app.touch.widgets.buttons import AnswerButton, MainButton, QuietButton
from app.touch.widgets.canvas import PictureCanvas, Pixels, Point, texture_of
from app.touch.widgets.words import Quiet, Title, Words
from app.touch.wording import day
from inspection_rules.item import Item
from inspection_rules.pictures import PictureNote

MOST_PAIRS = 4
STRENGTHS = ((0.0, mark("Now")), (0.25, "¼"), (0.5, "½"), (0.75, "¾"), (1.0, mark("Then")))
STEP = 0.1


class ComparePage(BoardPage):
    """Holds one picture against an earlier one of its part and view.

    Attributes:
        series: the earlier pictures, the newest first. at: which of them is shown.
        pairs: points found in both pictures, the earlier one's first.
        over: whether the earlier one is laid over the present one.
    """

    def __init__(
        self, services: Services, item: Item, note: PictureNote, on: date | None = None, **kwargs: Any
    ) -> None:
        """`on` is the day of the picture, where it is one of the record: only earlier ones are held against it."""
        self._item, self._note, self._on = item, note, on
        self.series: list[Earlier] | None = None
        self.at = 0
        self.earlier: Opened | None = None
        self.pairs: list[tuple[Point, Point]] = []
        self._first: Point | None = None
        self._aligning = False
        self.over = False
        self._said = ""
        self._had_pending = False
        self.then = PictureCanvas()
        self.then.places = False
        super().__init__(services, note.picture, heading=say("Then and now"), **kwargs)
        self.board.places = False
        self.under = say(str(note.view)) if note.view else ""
        for board in (self.board, self.then):
            board.bind(on_spot=lambda *_: self._build(), pending=self._follow_pending)
        self._find()
        self._build()

    def _find(self) -> None:
        register, note, item, on = self._services.register, self._note, self._item, self._on
        view = note.view
        if view is None:
            self.series = []
            return

        def found(series: list[Earlier]) -> None:
            self.series = series
            self._show_earlier()

        self._services.records.do(
            lambda: notes.series(
                (one.inspection for one in register.judged(item.id) if on is None or one.inspection.on <= on),
                note.part,
                view,
                note.picture,
            ),
            found,
        )

    def _show_earlier(self) -> None:
        self.earlier, self.pairs, self._first, self.over, self._said = None, [], None, False, ""
        self._aligning = False
        self._unpend()
        self.board.over = None
        if not self.series:
            self._build()
            return
        wanted = self.series[self.at]

        def read(picture: Opened) -> None:
            if self.series is None or wanted is not self.series[self.at]:
                return
            self.earlier = picture
            self.then.texture = texture_of(picture.pixels)
            self.then.figure = over_picture(wanted.note.markings, *picture.size)
            self.then.whole()
            self._build()

        self._read(wanted.note.picture, read)
        self._build()

    @property
    def boards(self) -> tuple[PictureCanvas, ...]:
        """The present picture and the earlier one."""
        return (self.board, self.then)

    def ready(self) -> None:
        """The present picture is there."""
        if self.picture is not None:
            self.board.figure = over_picture(self._note.markings, *self.picture.size)
        self._build()

    def _follow_pending(self, *_changed: object) -> None:
        if (self._asked.pending is not None) is not self._had_pending:
            self._build()

    # --- what is shown ---------------------------------------------------------------------------------

    @property
    def _asked(self) -> PictureCanvas:
        """The picture in which a point is to be tapped next."""
        return self.then if self._first is None else self.board

    def _build(self) -> None:
        self._had_pending = self._asked.pending is not None
        both = [self.then, self.board] if self.earlier is not None and not self.over else [self.board]
        self.then.caption = day(self.series[self.at].on) if self.series else ""
        now = say("now") if self._on is None else day(self._on)
        self.board.caption = now if len(both) > 1 else ""
        if both != self._places:
            for one in self._places:
                if one.parent is not None:
                    one.parent.remove_widget(one)
            self._places = both
            self._place_board()
        for board, points in ((self.then, [a for a, _ in self.pairs]), (self.board, [b for _, b in self.pairs])):
            board.points = [] if self.over else points
            board.places = self._aligning and board is self._asked
            board.redraw()
        if self._first is not None:
            self.then.points = [*self.then.points, self._first]
        if self.series is None or self.picture is None:
            return
        if not self.series:
            self.fill(
                Words(text=say("No earlier picture of this part and view.")),
                Quiet(text=say("The next one taken of it can be held against this one.")),
            )
            self.fill_foot()
            return
        if self._aligning:
            content, foot = self._align()
        elif self.over:
            content, foot = self._overlaid()
        else:
            content, foot = self._beside()
        said: list[Widget] = [Words(text=told(self._said), bold=True)] if self._said else []
        self.lay([*said, *content], foot)

    def _beside(self) -> tuple[list[Widget], list[Widget]]:
        series = self.series or []
        content: list[Widget] = [
            Title(
                text=say("{day}, and now", day=day(series[self.at].on))
                if self._on is None
                else say("{day}, and {later}", day=day(series[self.at].on), later=day(self._on))
            ),
            self.pad(),
        ]
        if self.at + 1 < len(series):
            content.append(button(QuietButton, say("An older one"), partial(self._turn, 1)))
        if self.at > 0:
            content.append(button(QuietButton, say("A newer one"), partial(self._turn, -1)))
        foot = [button(MainButton, say("Lay one over the other"), self._begin)] if self.earlier is not None else []
        return content, foot

    def _align(self) -> tuple[list[Widget], list[Widget]]:
        number = len(self.pairs) + 1
        content: list[Widget] = []
        foot: list[Widget] = []
        if number <= MOST_PAIRS:
            title = (
                say("Tap place {number} in the picture of then", number=number)
                if self._first is None
                else say("Tap the same place in the picture of now")
            )
            content.append(Title(text=title))
            which = Quiet(
                text=say("Choose places that cannot move: stitches, a thimble, a card. Two are enough, four are best.")
            )
            if self._asked.pending is None:
                middle = button(QuietButton, say("Put the point in the middle"), self._to_middle)
                content += [which, self.pad(), middle]
            else:  # now it is moved: in large type too, the arrows stand right below the picture
                content += [self.pad(), which]
        content.append(button(QuietButton, say("Leave it"), self._show_earlier))
        if self._asked.pending is not None:
            foot.append(button(MainButton, say("It is here"), self._confirm))
        elif len(self.pairs) >= 2 and self._first is None:
            foot.append(button(MainButton, say("Lay one over the other"), self._lay))
        return content, foot

    def _overlaid(self) -> tuple[list[Widget], list[Widget]]:
        grid = GridLayout(cols=len(STRENGTHS), spacing=dp(12), size_hint_y=None)
        grid.bind(minimum_height=grid.setter("height"), width=_refit)
        for strength, text in STRENGTHS:
            one = pad_button(say(text), partial(self._strong, strength))
            one.chosen = abs(self.board.strength - strength) < 1e-6
            grid.add_widget(one)
        less = GridLayout(cols=2, spacing=dp(12), size_hint_y=None, height=dp(64))
        less.add_widget(pad_button(say("More of now"), lambda: self._strong(self.board.strength - STEP)))
        less.add_widget(pad_button(say("More of then"), lambda: self._strong(self.board.strength + STEP)))
        share = round(self.board.strength * 100)
        return [
            Words(text=say("{share} % of then over now", share=share)),
            grid,
            less,
            self.pad(),
            button(AnswerButton, say("Find the places again"), self._begin),
            Quiet(text=say("To see a movement, not to measure it: only what lies in one plane comes into line.")),
        ], [button(MainButton, say("Side by side"), self._apart)]

    # --- what is done ----------------------------------------------------------------------------------

    def pad(self) -> Widget:
        """Return the buttons that move what is asked for: both pictures together while none is."""
        return self.pad_of(*([self._asked] if self._aligning else self._places))

    def _turn(self, by: int) -> None:
        self.at += by
        self._show_earlier()

    def _begin(self) -> None:
        self.pairs, self._first, self.over, self._said, self._aligning = [], None, False, "", True
        self._unpend()
        self.board.over = None
        self._build()

    def _unpend(self) -> None:
        """Forget the point being placed, without showing what is half done."""
        self._had_pending = False
        self.board.pending = self.then.pending = None

    def _to_middle(self) -> None:
        self._asked.pending = self._asked.middle

    def _confirm(self) -> None:
        asked = self._asked
        point = asked.pending
        if point is None:
            return
        self._unpend()
        if self._first is None:
            self._first = point
        else:
            self.pairs.append((self._first, point))
            self._first = None
        self._build()

    def _lay(self) -> None:
        earlier, present, pairs = self.earlier, self.picture, tuple(self.pairs)
        if earlier is None or present is None:
            return

        def laid(found: Pixels | str) -> None:
            if pairs != tuple(self.pairs):
                return
            if isinstance(found, str):
                self.pairs, self._said = [], found
            else:
                self.board.over, self.over, self._aligning = texture_of(found), True, False
                self.board.whole()
            self._build()

        self._services.pictures.do(
            lambda: laid_over(earlier, present, [a for a, _ in pairs], [b for _, b in pairs]), laid
        )

    def _strong(self, strength: float) -> None:
        self.board.strength = min(max(strength, 0.0), 1.0)
        self._build()

    def _apart(self) -> None:
        self.over, self.board.over = False, None
        self._build()


def _refit(grid: GridLayout, width: float) -> None:
    """Five beside each other where each is wide enough for a glove, else in two rows."""
    grid.cols = len(STRENGTHS) if width >= len(STRENGTHS) * dp(64) + (len(STRENGTHS) - 1) * dp(12) else 3
