"""Where text is typed."""

from typing import Any

from kivy.graphics import Color, InstructionGroup, Rectangle
from kivy.metrics import dp
from kivy.properties import ColorProperty, NumericProperty
from kivy.uix.textinput import TextInput

from app.touch.markup import load_markup
from app.touch.widgets.words import Quiet

GAP = dp(4)  # between the hint and the box


class TextField(TextInput):
    """A text field whose box is at least 64 dp high; Tab leaves it.

    Its hint stands in a line above the box, and the box is empty until something is typed: in full sun, in black on
    white, a hint in the box is taken for what somebody has typed.

    Attributes:
        line_above: height of that line with its distance to the box, in px; 0 without a hint.
        least, within: least height of the whole, and the distance of the text from the box's sides above and below it,
            in px.
        box_color: colour of the box.
    """

    line_above = NumericProperty(0)
    least = NumericProperty(0)
    within = NumericProperty(0)
    box_color = ColorProperty((1, 1, 1, 1))

    def __init__(self, **kwargs: Any) -> None:
        kwargs.setdefault("multiline", False)
        super().__init__(write_tab=False, **kwargs)
        self._fill, self._box = Color(*self.box_color), Rectangle()
        # A text input empties its own canvas, children and all: the hint is drawn, not added. It is no widget of the
        # page's then, and is said to those who ask for `hint_text`.
        self._hint, self._line = Quiet(text=self.hint_text), Rectangle()
        drawn = InstructionGroup()
        for one in (self._fill, self._box, Color(1, 1, 1, 1), self._line):
            drawn.add(one)
        self.canvas.before.insert(0, drawn)  # below all that the field draws itself: cursor and text come after it
        self._hint.bind(texture=self._place)
        self.bind(pos=self._place, size=self._place, hint_text=self._place, box_color=self._place)
        self._place()

    def _place(self, *_changed: object) -> None:
        """Put the hint above the box, and the box below the hint."""
        hint = self._hint
        hint.text, hint.width = self.hint_text, self.width
        self.line_above = hint.texture_size[1] + GAP if self.hint_text else 0
        self._fill.rgba = self.box_color
        self._box.pos, self._box.size = self.pos, (self.width, self.height - self.line_above)
        self._line.texture = hint.texture
        self._line.size = hint.texture_size if self.hint_text else (0, 0)
        self._line.pos = self.x, self.y + self.height - self._line.size[1]

    def keyboard_on_key_down(self, window: Any, keycode: Any, text: str, modifiers: Any) -> bool:
        """Leave Tab to the app's focus ring, and Escape to going back."""
        if keycode[1] == "tab":
            return False
        if keycode[1] == "escape":
            setattr(self, "focus", False)  # noqa: B010 - mypy cannot see Kivy's properties
            return False
        return bool(super().keyboard_on_key_down(window, keycode, text, modifiers))


load_markup(__file__)
