"""Time the touch app in one run: `python tests/benchmarks/bench_touch.py [--big]`.

Starting: to the first usable screen, against a bare window that imports the database layer, opens the same file and
asks one question of it; both in fresh processes that take turns.
Lists: opening, searching and scrolling at a thousand, ten thousand and (with --big) a hundred thousand items.
Taps: on the register of ten thousand items and (with --big) a hundred thousand inspections, from the touch to the
first frame that shows what it did, and the longest that the window's thread was held.
"""

import os
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from datetime import timedelta
from itertools import pairwise
from pathlib import Path

ENVIRONMENT = {
    **{name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"},
    "KIVY_NO_ARGS": "1",
    "KIVY_NO_CONFIG": "1",
    "KIVY_NO_ENV_CONFIG": "1",
    "KIVY_NO_FILELOG": "1",
    "KIVY_NO_CONSOLELOG": "1",
    "KIVY_DPI": "160",
    "KIVY_METRICS_DENSITY": "1",
    "LP_NUM_THREADS": "0",
    "SDL_VIDEODRIVER": "offscreen",
}
HERE = Path(__file__).resolve()
STARTS, TIMES, EARLIER = 9, 7, 10

FLOOR = """
import sys, time
from kivy.app import App
from kivy.clock import Clock
from kivy.uix.label import Label
from sqlalchemy import text
from sqlmodel import Session, create_engine

class Bare(App):
    def build(self):
        engine = create_engine("sqlite:///" + sys.argv[1])
        with Session(engine) as session:
            found = session.execute(text("SELECT count(*) FROM listed")).one()
        return Label(text=str(found[0]))
    def on_start(self):
        Clock.schedule_once(lambda _dt: Clock.schedule_once(lambda _dt: self.stop()))

Bare().run()
"""
OURS = """
import sys
from datetime import UTC, datetime
from pathlib import Path
from app.touch import main

def usable(app):
    return app.services.idle and app.stack.top is not None and app.stack.top.body.children

made, folder = main._made, Path(sys.argv[1])

def watched(register, folder):
    from kivy.clock import Clock

    app = made(register, folder)
    app._now = lambda: datetime(2050, 10, 12, 9, 30, tzinfo=UTC)
    began = app.on_start

    def watch():
        began()
        def look(_dt):
            if usable(app):
                Clock.schedule_once(lambda _dt: app.stop())
                return False
        Clock.schedule_interval(look, 0)

    app.on_start = watch
    return app

main._made = watched
main.run(folder)
"""


def run_once(script: str, argument: Path) -> float:
    """Seconds that a fresh process takes from its start to its end."""
    file = Path(tempfile.gettempdir()) / "throatmark_bench_start.py"  # an App wants a file to lie beside
    file.write_text(script)
    command = [sys.executable, str(file), str(argument)]
    began = time.perf_counter()
    subprocess.run(command, env=ENVIRONMENT, check=True, cwd=tempfile.gettempdir())
    return time.perf_counter() - began


def bench_start(folder: Path) -> None:
    """Print what starting costs beside its floor."""
    ours, floor = [], []
    for script, where in ((OURS, folder), (FLOOR, folder / "register.db")):
        run_once(script, where)  # the files are in memory, the byte code is written
    for _ in range(STARTS):
        floor.append(run_once(FLOOR, folder / "register.db"))
        ours.append(run_once(OURS, folder))
    ratios = [one / other for one, other in zip(ours, floor, strict=True)]
    print(
        f"start to the first usable screen: {statistics.median(ours):.2f} s, floor {statistics.median(floor):.2f} s, "
        f"{statistics.median(ratios):.2f} x (goal 1.25 x)"
    )


# --- lists and taps -------------------------------------------------------------------------------------


def filled(folder: Path, items: int, earlier: int) -> Path:
    """Make a register of two-eye pendants, each with so many earlier examinations, and return its folder."""
    from bench_register import EXAMINER, START, fill, inspection, pendant, sound

    from app.register import Register, log, projections
    from app.register.bodies import Inspected
    from app.touch import preferences
    from inspection_rules.book import shipped
    from inspection_rules.case import Case
    from inspection_rules.judge import judge
    from inspection_rules.standing import Judged

    with Register.create(folder, "bench") as register:
        fill(register, 0, items)
        seen = inspection(0, ())
        told = sound(judge(Case(on=START.date(), item=pendant("i0", "SP-0"), inspection=seen), shipped()))
        # A few rulings stand for all: what is timed is the window, not the size of the file.
        told = told.model_copy(update={"inspection_sha256": "", "rulings": told.rulings[:4], "missing": ()})
        for first in range(0, items, 500):
            with register._engine.begin() as connection:
                for number in range(first, min(first + 500, items) if earlier else first):
                    for visit in range(earlier):
                        at = START + timedelta(days=20 * (visit - earlier))
                        update = {"id": f"n{number}-{visit}", "item": f"i{number}", "at": at}
                        one = Judged(inspection=seen.model_copy(update=update), judgement=told)
                        log.append(connection, Inspected(device="bench", judged=one), {})
                    projections.refresh(connection, f"i{number}", {})
        register.set_people([EXAMINER])
    preferences.write(folder, preferences.Preferences(cautions_seen=preferences.CAUTIONS))
    return folder


@contextmanager
def window(folder: Path) -> Iterator[object]:
    """Open the app on a register, in this process."""
    sys.path.insert(0, str(HERE.parent.parent / "touch"))
    import conftest  # noqa: F401 - sets Kivy up before anything imports it
    from driver import Driver
    from harbour import NOW

    from app.register import Register
    from app.touch.application import ThroatmarkApp

    with Register.open(folder) as register, Driver(ThroatmarkApp(register, now=lambda: NOW)) as ui:
        ui.until(lambda: not ui.app.loads.is_triggered, 60)  # some seconds after the start
        yield ui


def until_seen(ui: object, act: Callable[[], object]) -> tuple[float, float]:
    """Return the milliseconds from an act to the frame that shows what it did, and the longest turn of the loop."""
    from kivy.clock import Clock
    from kivy.core.window import Window
    from kivy.lang import Builder

    began = time.perf_counter()
    act()
    longest, turns = (time.perf_counter() - began) * 1000, 0
    while turns < 3 or not ui.app.services.idle:
        turn = time.perf_counter()
        Clock.tick()
        Builder.sync()
        Clock.tick_draw()
        Builder.sync()
        longest = max(longest, (time.perf_counter() - turn) * 1000)
        turns = turns + 1 if ui.app.services.idle else 0
        time.sleep(0.0005)
    Window.dispatch("on_draw")
    return (time.perf_counter() - began) * 1000, longest


def bench_lists(root: Path, sizes: tuple[int, ...]) -> None:
    """Print how opening, searching and scrolling the list of items grows."""
    seen: dict[str, list[float]] = {}
    for size in sizes:
        with window(filled(root / f"list {size}", size, 0)) as ui:
            lasted: dict[str, list[float]] = {"open": [], "search": [], "scroll": []}
            for _ in range(TIMES):
                lasted["open"].append(until_seen(ui, ui.app.show_items)[0])
                page = ui.page
                for text in ("s", "stern", "stern 77"):
                    lasted["search"].append(until_seen(ui, lambda page=page, text=text: _type(page, text))[0])
                _type(page, "")
                ui.quiet()
                for place in (0.7, 0.4, 0.1, 0.02):
                    lasted["scroll"].append(until_seen(ui, lambda page=page, place=place: _scroll(page, place))[0])
                ui.app.back()
                ui.quiet()
        for what, times in lasted.items():
            seen.setdefault(what, []).append(statistics.median(times))
    print(f"the list of items at {' / '.join(map(str, sizes))} items, to the frame that shows it:")
    for what, times in seen.items():
        growth = ", ".join(f"{late / early:.1f}" for early, late in pairwise(times))
        print(f"  {what}: {' / '.join(f'{one:.0f}' for one in times)} ms, x {growth} for each tenfold")


def bench_taps(folder: Path, items: int, inspections: int) -> None:
    """Print what each tap of a walk takes on a large register."""
    with window(folder) as ui:
        for name, act in _walk(ui):
            took, longest = until_seen(ui, act)
            said = "" if took <= 100 else "  more than 100 ms"
            print(f"  {name}: {took:.0f} ms, the window's thread held {longest:.0f} ms at most{said}")
    print(f"  ({items} items, {inspections} inspections; drawn in software)")


def _walk(ui: object) -> Iterator[tuple[str, Callable[[], object]]]:
    yield "all items", ui.app.show_items
    yield "an item", lambda: ui.app.show_item("i77")
    yield "begin before use", lambda: ui.button("Before use").trigger_action(0)
    for number in range(3):
        good = ui.page.visit.step.observation.good
        yield f"answer {number + 1}", lambda good=good: ui.button(good).trigger_action(0)
    yield "see the answer", lambda: ui.button("Stop here").trigger_action(0)
    yield "back to today", ui.app.stack.home


def _type(page: object, text: str) -> None:
    page.ids.search.text = text


def _scroll(page: object, place: float) -> None:
    page.ids.list.scroll_y = place


def main() -> None:
    """Run all three; `--big` adds a hundred thousand items, and a hundred thousand inspections under the taps."""
    big = "--big" in sys.argv
    sys.path.insert(0, str(HERE.parent))
    with tempfile.TemporaryDirectory() as root:
        items = 10_000 if big else 1_000
        folder = filled(Path(root) / "taps", items, EARLIER)
        bench_start(folder)
        print("taps, each to the frame that shows what it did:")
        bench_taps(folder, items, items * EARLIER)
        bench_lists(Path(root), (1_000, 10_000, 100_000) if big else (1_000, 10_000))


if __name__ == "__main__":
    main()
