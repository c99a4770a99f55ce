"""Loading the pages after the first one while nobody waits: the first comes sooner, and no tap waits for a file."""

import gc
from collections.abc import Callable
from importlib import import_module

from kivy.clock import Clock

# In the order in which they are likely to be opened; each brings what it needs.
LATER = (
    "items.items",
    "item.item",
    "inspect.inspect",
    "keypad.keypad",
    "answer.answer",
    "round.places",
    "round.round",
    "round.one",
    "round.summary",
    "photograph.photograph",
    "people.people",
    "settings.settings",
    "rules.rules",
    "rules.regime",
    "round.signed",
    "reports.reports",
    "enter.enter",
)
PAUSE = 0.05  # s between two, in which a touch is answered


def load_when_idle(idle: Callable[[], bool]) -> None:
    """Load one page after the other whenever nothing is waited for; on the window's thread, as kv files must be."""
    left = list(LATER)

    def load(_dt: float) -> bool:
        if left and idle():
            import_module(f"app.touch.screens.{left.pop(0)}")
            if not left:  # these stay as well (see main.py)
                gc.collect()
                gc.freeze()
        return bool(left)

    Clock.schedule_interval(load, PAUSE)
