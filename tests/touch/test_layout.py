"""Every page, in every theme, at text scales 1 and 2, in the sizes of phones and a tablet."""

import gc
import os
from collections import defaultdict
from collections.abc import Iterator
from importlib import import_module
from pathlib import Path
from pkgutil import walk_packages
from types import SimpleNamespace

import pytest
from audit import Problems, audit
from driver import Driver
from harbour import NOW, harbour
from kivy.metrics import Metrics
from kivy.uix.recycleboxlayout import RecycleBoxLayout
from tours import PEOPLE, TOURS, files

from app.touch import preferences, screens
from app.touch import theme as themes
from app.touch.application import ThroatmarkApp
from app.touch.theme import TABLES
from app.touch.widgets.buttons import Tappable
from app.touch.widgets.fields import TextField
from app.touch.widgets.focus import controls
from app.touch.widgets.page import Page

SIZES = [(360, 640), (412, 892), (800, 1280), (892, 412)]
PICTURED = {(412, 892): "phone", (800, 1280): "tablet"}
SCALES = (1, 2)
BY_KEYBOARD = {(412, 892), (892, 412)}  # the ring follows the order of a page, which only its being wide changes
# Themes differ in colours and strokes, so a theme with the widest ones says whether things fit. All is looked at where
# that is asked for: `THROATMARK_EVERY_LAYOUT=1 bash tests/run tests/touch/test_layout.py`.
WIDEST = "glare"
EVERY = bool(os.environ.get("THROATMARK_EVERY_LAYOUT"))


CAME_BY: set[type[Page]] = set()
WAYS = [(size, name) for size in SIZES for name in TOURS]


@pytest.fixture(scope="module", params=WAYS, ids=lambda way: f"{way[0][0]}x{way[0][1]} {way[1]}")
def toured(
    request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory, screenshots: Path
) -> Iterator[Problems]:
    """All problems found on a tour, by kind; the pictures are taken on the way."""
    size, name = request.param
    folder = files(tmp_path_factory.mktemp("tour"))
    found: Problems = defaultdict(list)
    # Every change of theme collects garbage: what all the other tests have left need not be looked through each time.
    gc.collect()
    gc.freeze()
    with harbour(folder / "register") as register:
        register.set_people(PEOPLE)
        TOURS[name].prepare(register)
        preferences.write(folder / "register", preferences.Preferences(cautions_seen=preferences.CAUTIONS))
        with Driver(ThroatmarkApp(register, now=lambda: NOW), size) as ui:
            for number, page in enumerate(TOURS[name].pages(ui, folder)):
                CAME_BY.add(type(ui.page))
                look(ui, f"{name} {number:02d} {page}", size, screenshots, found)
    Metrics.fontscale = 1
    yield found


def look(ui: Driver, name: str, size: tuple[int, int], screenshots: Path, found: Problems) -> None:
    """Look at a page in every theme and both scales, and go round it by keyboard."""
    theme = ui.app.theme
    gc.collect()
    # Once a page is enough: nothing of it goes while it is looked at.
    themes.gc, kept = SimpleNamespace(collect=lambda: 0, disable=gc.disable, enable=lambda: None), themes.gc
    gc.disable()
    try:
        for scale in SCALES:
            theme.text_scale = scale
            ui.lay_out()
            pictured = size in PICTURED and scale == SCALES[0]
            for each in TABLES if pictured or EVERY else [WIDEST]:
                theme.name = each
                ui.lay_out(turns=3)  # colours and strokes only
                for kind, problems in audit(ui).items():
                    found[kind] += [f"{name}, {each} × {scale}: {problem}" for problem in problems]
                if size in PICTURED:
                    ui.screenshot(screenshots / f"{PICTURED[size]} {each} x{scale}" / f"{name}.png")
        theme.name, theme.text_scale = "paper", 1
        ui.lay_out()
    finally:
        themes.gc = kept
        gc.enable()
    if size not in BY_KEYBOARD:
        return
    reached = keyboard_round(ui)
    # The rows of a long list come into being one after the other, as the ring goes down it (see test_rules).
    missed = [
        w
        for w in ui.widgets()
        if isinstance(w, Tappable | TextField)
        and w.opacity
        and w not in reached
        and not isinstance(w.parent, RecycleBoxLayout)
    ]
    found["not reached"] += [f"{name}: {getattr(w, 'title', '') or w.text}" for w in missed]


def keyboard_round(ui: Driver) -> list[object]:
    reached = []
    for _ in list(controls(ui.page)):
        ui.key("tab")
        reached.append(ui.app.ring.at)
    ui.app.ring.clear()
    ui.frames(1)
    return reached


def every_page() -> set[type[Page]]:
    """All kinds of page that the app can show: those that nothing else is derived from."""
    for module in walk_packages(screens.__path__, f"{screens.__name__}."):
        import_module(module.name)
    left, found = [Page], set()
    while left:
        kinds = left.pop().__subclasses__()
        left += kinds
        found |= {kind for kind in kinds if not kind.__subclasses__() and kind.__module__.startswith(screens.__name__)}
    return found


def test_every_target_is_at_least_64_dp_both_ways(toured: Problems) -> None:
    assert not toured["small"], "\n".join(toured["small"])


def test_neighbours_are_12_dp_apart(toured: Problems) -> None:
    assert not toured["close"], "\n".join(toured["close"])


def test_no_text_is_cut_off_and_no_word_broken(toured: Problems) -> None:
    assert not toured["cut"], "\n".join(toured["cut"])


def test_nothing_lies_outside_the_window(toured: Problems) -> None:
    assert not toured["outside"], "\n".join(toured["outside"])


def test_the_keyboard_reaches_every_control(toured: Problems) -> None:
    assert not toured["not reached"], "\n".join(toured["not reached"])


def test_every_page_lies_on_a_tour(request: pytest.FixtureRequest) -> None:
    asked = {item.callspec.params["toured"] for item in request.session.items if "toured" in item.fixturenames}
    if {name for _, name in asked} != set(TOURS):
        pytest.skip("not every tour was asked for")
    assert not {f"{page.__module__}.{page.__name__}" for page in every_page() - CAME_BY}
