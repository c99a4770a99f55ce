"""What a gloved hand taps: at least 64 dp both ways, worked by keyboard too, with a drawn focus ring."""

from kivy.metrics import dp
from kivy.properties import BooleanProperty, ColorProperty, NumericProperty, ObjectProperty, StringProperty
from kivy.uix.behaviors import ButtonBehavior
from kivy.uix.boxlayout import BoxLayout
from kivy.uix.label import Label

from app.figures import not_yet, sign
from app.touch.drawing import FigureView
from app.touch.markup import load_markup
from app.touch.wording import NOT_YET
from inspection_rules.words import Answer


class Tappable(ButtonBehavior):
    """A button of this app.

    Attributes:
        ringed: whether the keyboard's focus ring is drawn on it.
        chosen: whether it is the answer given, or one of them.
    """

    ringed = BooleanProperty(False)
    chosen = BooleanProperty(False)
    least_height = NumericProperty(dp(64))
    face = ColorProperty((0, 0, 0, 0))
    pressed_face = ColorProperty((0, 0, 0, 0))
    outline = ColorProperty((0, 0, 0, 0))


class TapButton(Tappable, Label):
    """A button with words on it."""


class WideButton(TapButton):
    """A button as wide as its place; its words wrap and it grows with them. `type_size` is in sp."""

    type_size = NumericProperty(17)


class MainButton(WideButton):
    """The one thing to do next on a screen."""


class AnswerButton(WideButton):
    """An answer, or another choice that is tapped without looking long."""


class QuietButton(WideButton):
    """A way out that must not catch the eye before the others."""


class HeadButton(TapButton):
    """A button on the dark head of a page."""


class SignView(FigureView):
    """The sign of an answer; the outlined one of nobody having looked for `NOT_YET`; none while `answer` is empty."""

    answer = StringProperty("")

    def on_answer(self, *_changed: object) -> None:
        """Show the sign of the new answer."""
        if self.answer == NOT_YET:
            self.figure = not_yet()
        else:
            self.figure = sign(Answer(self.answer)) if self.answer else None


class RowButton(Tappable, BoxLayout):
    """A row of a list: sign, name, and what is to be said of it.

    `fixed` keeps the row to its given height, for lists of thousands; then long texts end in an ellipsis.
    """

    answer = StringProperty("")
    title = StringProperty("")
    line = StringProperty("")
    more = StringProperty("")
    fixed = BooleanProperty(False)
    key = ObjectProperty(None, allownone=True)


load_markup(__file__)
