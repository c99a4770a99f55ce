"""Set Kivy up before anything imports it: no argv, no ~/.kivy, fixed metrics; a register to work on."""

import os

os.environ.update(
    KIVY_NO_ARGS="1",  # leave sys.argv to pytest
    KIVY_NO_CONFIG="1",  # neither read nor write ~/.kivy/config.ini
    KIVY_NO_ENV_CONFIG="1",
    KIVY_NO_FILELOG="1",
    KIVY_LOG_MODE="PYTHON",  # leave logging to pytest
    KIVY_DPI="160",
    KIVY_METRICS_DENSITY="1",
    KIVY_METRICS_FONTSCALE="1",
    LP_NUM_THREADS="0",  # drawing in software: threads of its own only wait for each other
)
if not os.environ.get("DISPLAY"):
    os.environ.setdefault("SDL_VIDEODRIVER", "offscreen")

from kivy.config import Config

Config.set("kivy", "exit_on_escape", "0")
Config.set("graphics", "width", "412")
Config.set("graphics", "height", "892")
Config.set("graphics", "maxfps", "0")  # idle() never sleeps
Config.set("graphics", "vsync", "0")
Config.set("graphics", "multisamples", "0")
for _name, _ in Config.items("input"):
    Config.remove_option("input", _name)

import gc  # noqa: E402
import shutil  # noqa: E402
import sys  # noqa: E402
from collections.abc import Callable, Iterator  # noqa: E402
from pathlib import Path  # noqa: E402

import pytest  # noqa: E402
from kivy.metrics import Metrics  # noqa: E402

sys.path.insert(0, str(Path(__file__).parent))

from driver import Driver  # noqa: E402
from harbour import MATE, NOW, harbour  # noqa: E402

from app.register import Register  # noqa: E402
from app.touch import preferences  # noqa: E402
from app.touch.application import ThroatmarkApp  # noqa: E402

# What is loaded by now stays; a change of theme collects garbage, and need not look through all of it.
gc.collect()
gc.freeze()


@pytest.hookimpl(trylast=True)
def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """What asks whether the tours came by every page is asked after them, in whatever order all else runs."""
    items.sort(key=lambda item: item.name == "test_every_page_lies_on_a_tour")


@pytest.fixture(scope="session")
def made_once(tmp_path_factory: pytest.TempPathFactory) -> Path:
    made = tmp_path_factory.mktemp("harbour") / "register"
    with harbour(made) as register:
        register.set_people([MATE])
    preferences.write(made, preferences.Preferences(cautions_seen=preferences.CAUTIONS))
    return made


@pytest.fixture
def folder(made_once: Path, tmp_path: Path) -> Path:
    """A register with the harbour's two slings, whose cautions were read and where the mate inspects."""
    shutil.copytree(made_once, tmp_path / "register")
    return tmp_path / "register"


@pytest.fixture
def register(folder: Path) -> Iterator[Register]:
    with Register.open(folder) as register:
        yield register


@pytest.fixture
def drive(register: Register) -> Iterator[Callable[..., Driver]]:
    """Start the app on the register; it is ended after the test."""
    running: list[Driver] = []

    def start(size: tuple[int, int] = (412, 892), **how: object) -> Driver:
        driver = Driver(ThroatmarkApp(register, now=lambda: NOW, **how), size)
        running.append(driver)
        return driver.__enter__()

    try:
        yield start
    finally:
        for driver in running:
            driver.__exit__()
        Metrics.fontscale = 1


@pytest.fixture
def ui(drive: Callable[..., Driver]) -> Driver:
    return drive()


@pytest.fixture(scope="session")
def screenshots(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Where pictures of the screens go: THROATMARK_SCREENSHOTS names the folder."""
    named = os.environ.get("THROATMARK_SCREENSHOTS")
    folder = Path(named) if named else tmp_path_factory.mktemp("screenshots")
    folder.mkdir(parents=True, exist_ok=True)
    sys.stdout.write(f"screenshots: {folder}\n")
    return folder
