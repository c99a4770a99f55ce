"""Loading the pages after the first one while nobody waits: the first comes sooner, and no tap waits for a file."""

import gc
from collections.abc import Iterator
from importlib import import_module

from kivy.clock import Clock, ClockEvent

from app.touch.services import Services
from inspection_rules.fields import build_validators

# In the order in which they are likely to be opened; each brings what it needs.
LATER = (
    "items.items",
    "item.item",
    "inspect.inspect",
    "keypad.keypad",
    "answer.answer",
    "use.use",
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
DONE = object()


def load_when_idle(services: Services) -> ClockEvent:
    """Read the rules, then load one page after the other whenever nothing is waited for.

    Pages are loaded on the window's thread, as kv files must be.

    The event that is returned is triggered no more once everything is there.
    """
    steps = _steps(services)

    def load(_dt: float) -> bool:
        return not services.idle or next(steps, DONE) is not DONE

    return Clock.schedule_interval(load, PAUSE)


def _steps(services: Services) -> Iterator[object]:
    services.records.do(services.register.book, failed=_is_told_later)
    yield None
    for page in LATER:
        yield import_module(f"app.touch.screens.{page}")
    yield from build_validators()
    gc.collect()  # what is left stays (see main.py)
    gc.freeze()


def _is_told_later(_error: Exception) -> None:
    """Rules that cannot be read are told of where something asks for them."""
