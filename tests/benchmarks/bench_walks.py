"""Walk as the three people do, by touches in the window, and print taps and what the window itself took.

`python tests/benchmarks/bench_walks.py`. What the hands and eyes take is not in it: every tap comes as soon as the
window has answered the one before.
"""

import sys
import tempfile
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from datetime import timedelta
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parent.parent / "touch"))

import conftest  # noqa: F401 - sets Kivy up before anything imports it
from driver import Driver
from harbour import BURIED, EXAMINER, MATE, NOW, harbour, sound
from test_rounds import begin, enter, inspect_next

from app.register import Register
from app.touch import preferences
from app.touch.application import ThroatmarkApp
from inspection_rules.book import shipped
from inspection_rules.judge import judge
from inspection_rules.words import InspectionKind

LINES, KIT, WRONG = 12, 6, 7
PAST = ((InspectionKind.AS_MADE, 190), (InspectionKind.BEDDED_IN, 170), (InspectionKind.PERIODIC, 30))


@contextmanager
def window(prepare: Callable[[Register], None]) -> Iterator[Driver]:
    """Open the app on the harbour's two slings and what is added to them."""
    with tempfile.TemporaryDirectory() as folder, harbour(Path(folder)) as register:
        register.set_people([MATE, EXAMINER])
        prepare(register)
        preferences.write(Path(folder), preferences.Preferences(cautions_seen=preferences.CAUTIONS))
        Driver.draws = True  # as a person sees it
        with Driver(ThroatmarkApp(register, now=lambda: NOW)) as ui:
            yield ui


def deck(register: Register) -> None:
    """Twelve mooring lines with two locked eyes each, sound a month ago."""
    for number in range(1, LINES + 1):
        tag = f"ML-{number:02}"
        update = {"id": tag.lower(), "tag": tag, "description": f"mooring line {number}", "place": "deck"}
        item = BURIED.model_copy(update={**update, "kind": "line", "duty": "mooring"})
        item = type(BURIED).model_validate(item.model_dump(mode="json"))
        register.add_item(item, EXAMINER, NOW - timedelta(days=200))
        for kind, days in (
            (InspectionKind.AS_MADE, 190),
            (InspectionKind.BEDDED_IN, 170),
            (InspectionKind.PERIODIC, 30),
        ):
            look = sound(item, kind, NOW - timedelta(days=days))
            register.log_inspection(look, judge(register.case(look, on=look.on), shipped()))


def told(ui: Driver, name: str, began: float, items: int) -> None:
    took = time.perf_counter() - began
    print(
        f"{name}: {ui.taps} taps, {took:.1f} s of the window in all ({took / items:.1f} s an item, drawn in software)"
    )


def one_sling() -> None:
    """The deckhand takes a sling before use."""
    with window(lambda _register: None) as ui:
        began = time.perf_counter()
        ui.tap("All items")
        ui.tap("RS-01")
        ui.tap("Before use")
        ui.good_to_the_end()
        ui.tap("Sign and log")
        told(ui, "a sound two-eye sling before use, from today", began, 1)


def kit_of_six() -> None:
    """The climber checks a kit."""
    with window(lambda register: enter(register, "climbing kit", "RO", KIT)) as ui:
        began = time.perf_counter()
        begin(ui, "climbing kit")
        for _ in range(KIT):
            inspect_next(ui)
        ui.tap("All answered: is it ready?")
        ui.tap("Sign and log: READY")
        told(ui, "a kit of six roundslings, to READY", began, KIT)


def deck_of_twelve() -> None:
    """The deckhand walks the lines; the stitches of one lean."""
    with window(deck) as ui:
        began = time.perf_counter()
        begin(ui, "deck", "Before arrival")
        for number in range(1, LINES + 1):
            ui.tap("Next: ")
            if number == WRONG:
                ui.good_until("Is every lock stitch whole")
                ui.tap("A stitch leans")
                ui.tap("Go on along the rope")
            ui.good_to_the_end()
            ui.tap("Sign and log")
            if number == WRONG:
                ui.tap("DO NOT USE tag hung")
        ui.tap("All answered: is it ready?")
        said = next(text for text in ui.texts() if "ML-07" in text)
        ui.tap("Sign and log: NOT READY")
        told(ui, f"a deck of twelve lines, to '{said}'", began, LINES)


if __name__ == "__main__":
    one_sling()
    kit_of_six()
    deck_of_twelve()
