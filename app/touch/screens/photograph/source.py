"""Where pictures come from: the camera, or files chosen on a page of the app's own."""

from collections.abc import Callable
from pathlib import Path
from typing import Any

from kivy.clock import Clock
from kivy.utils import platform

from app.device import Cancelled, Unavailable
from app.language import say
from app.touch.screens.photograph.folder import FolderPage
from app.touch.services import Services

ENDINGS = ("jpg", "jpeg", "png", "webp", "heic", "heif")
Waiting = list[tuple[str, Callable[[], bytes]]]


class PictureSource:
    """Takes a picture or lets files be chosen, and gives each with its name and how to read it, or why not."""

    def __init__(
        self, app: Any, services: Services, given: Callable[[Waiting], None], refused: Callable[[str], None]
    ) -> None:
        """`given` and `refused` are called on the window's thread."""
        self._app, self._services, self._given, self._refused = app, services, given, refused

    @property
    def has_camera(self) -> bool:
        """Whether there is a camera that the app can open."""
        return bool(platform == "android")

    def choose(self) -> None:
        """Choose files: on Android with the system's chooser, where there is one."""
        if platform != "android":  # a window of another program is not made for gloves
            self._own_chooser()
            return
        device = self._services.device
        if device.choose_files(say("Pictures"), ENDINGS, lambda found: _later(self._picked, found)) is not None:
            self._own_chooser()

    def take(self) -> None:
        """Open the camera."""
        answer = self._services.device.take_picture(lambda found: _later(self._taken, found))
        if answer is not None:
            self._taken(answer)

    def _own_chooser(self) -> None:
        self._app.stack.push(FolderPage(self._app, self._services, ENDINGS, self._chosen))

    def _picked(self, found: list[Path] | Cancelled | Unavailable) -> None:
        if isinstance(found, Unavailable):
            self._refused(found.reason)
        elif not isinstance(found, Cancelled):
            self._chosen(found)

    def _taken(self, found: bytes | Cancelled | Unavailable) -> None:
        if isinstance(found, Unavailable):
            self._refused(found.reason)
        elif isinstance(found, bytes):
            self._given([("picture", lambda: found)])

    def _chosen(self, files: list[Path]) -> None:
        self._given([(file.name, file.read_bytes) for file in files])


def _later(act: Callable[[Any], None], found: object) -> None:
    """Answer on the window's thread: the device answers on whichever it likes."""
    Clock.schedule_once(lambda _dt: act(found))
