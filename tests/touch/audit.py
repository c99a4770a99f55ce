"""What a layout must keep, looked for in the widgets that are on the screen."""

from collections import defaultdict
from collections.abc import Iterator
from itertools import combinations
from typing import Any

from driver import Driver
from kivy.core.text import Label as Text
from kivy.core.window import Window
from kivy.metrics import dp
from kivy.uix.label import Label
from kivy.uix.recycleview import RecycleView
from kivy.uix.scrollview import ScrollView
from kivy.uix.textinput import TextInput

from app.touch.widgets.buttons import Tappable

Problems = dict[str, list[str]]
SMALLEST, GAP, ROUNDING = 64, 12, 0.6  # dp


def audit(ui: Driver) -> Problems:
    """Return what is wrong with the page, by kind."""
    found: Problems = defaultdict(list)
    shown = [w for w in ui.widgets() if _visible(w)]
    targets = [w for w in shown if isinstance(w, Tappable | TextInput)]
    for widget in targets:
        if min(widget.size) < dp(SMALLEST) - ROUNDING:
            found["small"].append(f"{_name(widget)} is {widget.width:.0f} × {widget.height:.0f}")
    for one, other in combinations(targets, 2):
        if _scroller(one) is _scroller(other) and _gap(one, other) < dp(GAP) - ROUNDING:
            found["close"].append(f"{_name(one)} and {_name(other)}: {_gap(one, other):.0f}")
    for widget in shown:
        if isinstance(widget, Label) and widget.text and _cut(widget):
            found["cut"].append(f"{_name(widget)}: {widget.texture_size} in {widget.size}")
        if isinstance(widget, Tappable | Label | TextInput) and _outside(widget):
            found["outside"].append(f"{_name(widget)}: {_box(widget)}")
    return found


def _visible(widget: Any) -> bool:
    if widget.width <= 0 or widget.height <= 0 or widget.opacity == 0:
        return False
    scroller = _scroller(widget)
    if isinstance(scroller, RecycleView):  # its spare rows lie anywhere
        _, bottom, _, top = _box(widget)
        _, low, _, high = _box(scroller)
        return bottom >= low and top <= high
    return True


def _cut(label: Label) -> bool:
    if label.is_shortened:
        return False
    wide, high = label.texture_size
    if wide > label.width + 1 or high > label.height + 1:
        return True
    if label.text_size[0] is None or label.markup:
        return False
    left, _, right, _ = label.padding
    return any(_width(label, word) > label.text_size[0] - left - right + 1 for word in label.text.split())


def _width(label: Label, word: str) -> float:
    text = Text(text=word, font_name=label.font_name, font_size=label.font_size, bold=label.bold)
    text.resolve_font_name()
    return float(text.get_extents(word)[0])


def _outside(widget: Any) -> bool:
    left, bottom, right, top = _box(widget)
    across = left < -1 or right > Window.width + 1
    scrolled = _scroller(widget) is not None
    return across or (not scrolled and (bottom < -1 or top > Window.height + 1))


def _gap(one: Any, other: Any) -> float:
    left, bottom, right, top = _box(one)
    left2, bottom2, right2, top2 = _box(other)
    return max(left2 - right, left - right2, bottom2 - top, bottom - top2)


def _box(widget: Any) -> tuple[float, float, float, float]:
    x, y = widget.to_window(*widget.pos)
    return x, y, x + widget.width, y + widget.height


def _scroller(widget: Any) -> Any:
    return next((w for w in _parents(widget) if isinstance(w, ScrollView)), None)


def _parents(widget: Any) -> Iterator[Any]:
    parent = widget.parent
    while parent is not None and parent is not parent.parent:
        yield parent
        parent = parent.parent


def _name(widget: Any) -> str:
    return f"{type(widget).__name__} {getattr(widget, 'title', '') or widget.text!r}"
