"""How a question is laid out: beside its drawing where the window is wide; two small buttons side by side."""

from kivy.metrics import Metrics, dp
from kivy.uix.boxlayout import BoxLayout
from kivy.uix.gridlayout import GridLayout
from kivy.uix.widget import Widget


def side_by_side(drawn: Widget, asked: list[Widget]) -> Widget:
    """Lay the question beside its figure, for a window wider than high."""
    words = BoxLayout(orientation="vertical", spacing=dp(8), size_hint_y=None, pos_hint={"center_y": 0.5})
    words.bind(minimum_height=words.setter("height"))
    for widget in asked:
        words.add_widget(widget)
    drawn.size_hint_x = 0.6
    row = BoxLayout(spacing=dp(12), size_hint_y=None)
    words.bind(height=lambda _words, height: setattr(row, "height", max(dp(150), height)))
    row.add_widget(drawn)
    row.add_widget(words)
    return row


def in_a_row(*buttons: Widget) -> Widget:
    """Lay two small buttons beside each other, below each other where they are too narrow for that."""
    row = GridLayout(cols=2, spacing=dp(12), size_hint_y=None)
    row.bind(minimum_height=row.setter("height"), width=lambda one, width: setattr(one, "cols", _columns(width)))
    for button in buttons:
        row.add_widget(button)
    return row


def _columns(width: float) -> int:
    return 2 if width / max(Metrics.fontscale, 1) >= dp(230) else 1
