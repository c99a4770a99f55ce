"""Every page, in every theme, at text scales 1 and 2, in the sizes of phones and a tablet."""

import gc
from collections import defaultdict
from collections.abc import Iterator
from pathlib import Path

import pytest
from audit import Problems, audit
from driver import Driver
from harbour import EXAMINER, MATE, NOW, harbour
from kivy.metrics import Metrics
from kivy.uix.recycleboxlayout import RecycleBoxLayout
from PIL import Image
from tour import tour

from app.touch import preferences
from app.touch.application import ThroatmarkApp
from app.touch.theme import TABLES
from app.touch.widgets.buttons import Tappable
from app.touch.widgets.fields import TextField
from app.touch.widgets.focus import controls

SIZES = [(360, 640), (412, 892), (800, 1280), (892, 412)]
PICTURED = {(412, 892): "phone", (800, 1280): "tablet"}
SCALES = (1, 2)


@pytest.fixture(scope="module", params=SIZES, ids=lambda size: f"{size[0]}x{size[1]}")
def toured(
    request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory, screenshots: Path
) -> Iterator[Problems]:
    """All problems found on a tour, by kind; the pictures are taken on the way."""
    folder = tmp_path_factory.mktemp("tour")
    Image.new("RGB", (640, 480), "grey").save(folder / "stitch.jpg")
    found: Problems = defaultdict(list)
    # Every change of theme collects garbage: what all the other tests have left need not be looked through each time.
    gc.collect()
    gc.freeze()
    with harbour(folder / "register") as register:
        register.set_people([MATE, EXAMINER])
        preferences.write(folder / "register", preferences.Preferences(cautions_seen=preferences.CAUTIONS))
        with Driver(ThroatmarkApp(register, now=lambda: NOW), request.param) as ui:
            for number, name in enumerate(tour(ui, folder)):
                look(ui, f"{number:02d} {name}", request.param, screenshots, found)
    Metrics.fontscale = 1
    yield found


def look(ui: Driver, name: str, size: tuple[int, int], screenshots: Path, found: Problems) -> None:
    theme = ui.app.theme
    for scale in SCALES:
        theme.text_scale = scale
        for each in TABLES:
            theme.name = each
            ui.lay_out()
            for kind, problems in audit(ui).items():
                found[kind] += [f"{name}, {each} × {scale}: {problem}" for problem in problems]
            if size in PICTURED:
                ui.screenshot(screenshots / f"{PICTURED[size]} {each} x{scale}" / f"{name}.png")
    theme.name, theme.text_scale = "paper", 1
    ui.lay_out()
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
