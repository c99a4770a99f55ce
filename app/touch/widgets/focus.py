"""Working the app from a keyboard: Tab and the arrows move the ring, Enter and Space tap.

Kivy's own FocusBehavior asks for the soft keyboard whenever a widget is focused, which on a phone would
come up with every button; so buttons are ringed here, and only text fields take Kivy's focus.
"""

from collections.abc import Callable, Iterator

from kivy.core.window import Window
from kivy.uix.recycleboxlayout import RecycleBoxLayout
from kivy.uix.scrollview import ScrollView
from kivy.uix.textinput import TextInput
from kivy.uix.widget import Widget

from app.touch.widgets.buttons import Tappable

TAB, ENTER, KEYPAD_ENTER, SPACE, UP, DOWN = 9, 13, 271, 32, 273, 274
MARGIN = 8  # px left free beside a control that was brought into sight


class KeyboardRing:
    """Moves the focus ring over the controls of the page on top."""

    def __init__(self, top: Callable[[], Widget | None]) -> None:
        self._top = top
        self._at: Widget | None = None
        Window.bind(on_key_down=self._key, on_touch_down=self._touched)

    def close(self) -> None:
        """Stop listening."""
        Window.unbind(on_key_down=self._key, on_touch_down=self._touched)

    @property
    def at(self) -> Widget | None:
        """The control with the ring, if it is still on the page."""
        top = self._top()
        return self._at if top is not None and self._at in list(controls(top)) else None

    def move(self, by: int) -> None:
        """Move the ring on or back, round at the ends."""
        top = self._top()
        found = list(controls(top)) if top is not None else []
        if not found:
            return
        here = self.at
        index = (found.index(here) + by) % len(found) if here is not None else (0 if by > 0 else -1)
        self._ring(found[index])

    def clear(self) -> None:
        """Take the ring off."""
        if self._at is not None:
            _show(self._at, False)
        self._at = None

    def _ring(self, widget: Widget) -> None:
        self.clear()
        self._at = widget
        _show(widget, True)
        bring_into_sight(widget)

    def _key(self, _window: object, key: int, _code: int, _text: str | None, modifiers: list[str]) -> bool:
        here = self.at
        typing = isinstance(here, TextInput) and here.focus
        if key == TAB or (key in (UP, DOWN) and not typing):
            back = key == UP or (key == TAB and "shift" in modifiers)
            self.move(-1 if back else 1)
            return True
        if key in (ENTER, KEYPAD_ENTER, SPACE) and isinstance(here, Tappable) and not here.disabled:
            here.trigger_action(0)
            return True
        return False

    def _touched(self, _window: object, touch: object) -> bool:
        if isinstance(self._at, Tappable):
            self.clear()
        return False


def controls(root: Widget) -> Iterator[Widget]:
    """Yield what can be worked on a page, in the order it is read."""
    if root.disabled or root.opacity == 0:
        return
    if isinstance(root, Tappable | TextInput):
        yield root
        return
    children = list(reversed(root.children))
    if isinstance(root, RecycleBoxLayout):  # its rows are used again elsewhere, so their order tells nothing
        children.sort(key=lambda row: -float(row.top))
    for child in children:
        yield from controls(child)


def bring_into_sight(widget: Widget) -> None:
    """Scroll just as far as it takes to see all of a widget (Kivy's own way fails in a RecycleView)."""
    scroll = widget.parent
    while scroll is not None and scroll is not scroll.parent:
        if isinstance(scroll, ScrollView) and scroll.children:
            room = scroll.children[0].height - scroll.height
            bottom = widget.to_window(*widget.pos)[1] - scroll.to_window(*scroll.pos)[1]
            above = bottom + widget.height + MARGIN - scroll.height
            if room > 0 and bottom < MARGIN:
                scroll.scroll_y -= (MARGIN - bottom) / room
            elif room > 0 and above > 0:
                scroll.scroll_y += above / room
            scroll.scroll_y = min(max(scroll.scroll_y, 0), 1)
            return
        scroll = scroll.parent


def _show(widget: Widget, ringed: bool) -> None:
    if isinstance(widget, TextInput):
        widget.focus = ringed
    elif isinstance(widget, Tappable):
        widget.ringed = ringed
