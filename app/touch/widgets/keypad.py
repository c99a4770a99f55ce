"""The keypad for gloves: one value, its unit always in sight, − and + beside it."""

from typing import Any

from kivy.metrics import dp
from kivy.properties import BooleanProperty, ListProperty, ObjectProperty, StringProperty
from kivy.uix.boxlayout import BoxLayout
from kivy.uix.gridlayout import GridLayout
from kivy.uix.label import Label
from kivy.uix.widget import Widget

from app.language import mark, say
from app.touch import typed
from app.touch.markup import load_markup
from app.touch.typed import Typed
from app.touch.widgets.buttons import TapButton

UNIT = "unit"
ERASE = mark("erase")
ROWS = (("7", "8", "9", ERASE), ("4", "5", "6", "±"), ("1", "2", "3", UNIT), ("", "0", ".", ""))


class KeyButton(TapButton):
    """A key; its word shrinks rather than wraps, since a key has a given size. `key` is what it types."""

    key = StringProperty("")


class Reading(Label):
    """The number in the keypad's window."""


class Keypad(BoxLayout):
    """Value, steppers, unit and keys.

    Attributes:
        value: what stands in the window, a `Typed`.
        units: those that the unit key goes round; one only when there is no choice.
        signed: whether the sign key is there.
        wide: whether the keys stand beside the value rather than below it.
    """

    value = ObjectProperty(Typed("mm"))
    units = ListProperty(["mm"])
    signed = BooleanProperty(False)
    wide = BooleanProperty(False)
    shown = StringProperty("–")
    unit = StringProperty("mm")
    unit_shown = StringProperty("mm")

    def __init__(self, **kwargs: Any) -> None:
        super().__init__(**kwargs)
        self._lay_keys()

    def on_value(self, *_changed: object) -> None:
        """Show what was typed."""
        self.shown = self.value.shown or "–"
        if self.unit != self.value.unit:
            self.unit = self.value.unit
        # A unit is a sign, the same everywhere. What an angle is measured from is words, and stands above the keypad.
        self.unit_shown = self.unit.split(" ")[0]

    def on_unit(self, *_changed: object) -> None:
        """Inches bring their fractions."""
        self._lay_keys()

    def on_signed(self, *_changed: object) -> None:
        """Bring or take the sign key."""
        self._lay_keys()

    def on_wide(self, *_changed: object) -> None:
        """Lay the fractions where there is room."""
        self._lay_keys()

    def on_units(self, *_changed: object) -> None:
        """Bring or take the unit key."""
        self._lay_keys()

    def press(self, key: str) -> None:
        """Work one key."""
        value = self.value
        if key in typed.FRACTIONS:
            self.value = typed.add_fraction(value, key)
        elif key == ERASE:
            self.value = typed.erase(value)
        elif key == ".":
            self.value = typed.point(value)
        elif key == "±":
            self.value = typed.turn_sign(value)
        elif key in ("−", "+"):
            self.value = typed.stepped(value, 1 if key == "+" else -1, self.signed)
        elif "|" in key:
            here = self.units.index(value.unit)
            self.value = typed.in_unit(value, self.units[(here + 1) % len(self.units)])
        else:
            self.value = typed.digit(value, key)

    def _pressed(self, button: KeyButton) -> None:
        self.press(button.key)

    def _lay_keys(self) -> None:
        if "keyboard" not in self.ids:  # properties are set before the kv rule is applied
            return
        keys: GridLayout = self.ids.keyboard
        keys.clear_widgets()
        names = [name for row in self._rows() for name in row]
        keys.cols = len(self._rows()[0])
        for name in names:
            text = " | ".join(self.units) if name == UNIT else say(name)
            if not self._has(name):
                keys.add_widget(Widget(size_hint_y=None, height=dp(64)))
                continue
            key = KeyButton(text=text, key=text if name == UNIT else name)
            key.bind(on_release=self._pressed)
            keys.add_widget(key)

    def _rows(self) -> list[tuple[str, ...]]:
        if self.value.unit != "in":
            return list(ROWS)
        if self.wide:  # as a column, where there is width and no height
            return [(*row, fraction) for row, fraction in zip(ROWS, typed.FRACTIONS, strict=True)]
        return [*ROWS, typed.FRACTIONS]

    def _has(self, key: str) -> bool:
        if key == "±":
            return self.signed
        if key == UNIT:
            return len(self.units) > 1
        return bool(key) and (key != "." or bool(self.value.unit))


load_markup(__file__)
