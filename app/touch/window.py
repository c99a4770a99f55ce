"""What must be there before Kivy is imported: a screen, its libraries, an environment of our own.

Kivy without a display opens an invisible window and runs for ever, and without its libraries it ends in a
traceback, so both are found out here first.
"""

import ctypes
import os
import sys
from collections.abc import MutableMapping
from pathlib import Path

# Library the window needs: Debian package that brings it.
LIBRARIES = {"libGL.so.1": "libgl1", "libEGL.so.1": "libegl1", "libmtdev.so.1": "libmtdev1"}


class WindowUnavailable(Exception):  # noqa: N818 - a state of the machine, not a fault of the program
    """No window can be opened here; the message says why and what to do, in one line."""


def check_window(environment: MutableMapping[str, str] = os.environ, platform: str = sys.platform) -> None:
    """Find out whether a window can be opened.

    Raises:
        WindowUnavailable: there is no display, or a library is missing; names the Debian package.
    """
    if not platform.startswith("linux") or "ANDROID_ARGUMENT" in environment:
        return
    if not any(environment.get(name) for name in ("DISPLAY", "WAYLAND_DISPLAY", "SDL_VIDEODRIVER")):
        raise WindowUnavailable(
            "There is no screen here (DISPLAY and WAYLAND_DISPLAY are empty): start the touch app from a desktop "
            "session; the other commands need no screen."
        )
    missing = [package for library, package in LIBRARIES.items() if not _loads(library)]
    if missing:
        raise WindowUnavailable(
            f"The window needs libraries that are not installed: sudo apt-get install {' '.join(missing)}"
        )


def prepare_environment(home: Path, environment: MutableMapping[str, str] = os.environ) -> None:
    """Keep Kivy from reading our arguments and from writing outside `home`; to be called before its import.

    Raises:
        WindowUnavailable: `home` cannot be made.
    """
    try:
        home.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise WindowUnavailable(
            f"{home} cannot be made ({error.strerror}): give this user the right to write there."
        ) from None
    environment.update(
        KIVY_NO_ARGS="1", KIVY_HOME=str(home), KIVY_NO_FILELOG="1", KIVY_NO_CONSOLELOG="1", KIVY_NO_ENV_CONFIG="1"
    )


def _loads(library: str) -> bool:
    try:
        ctypes.CDLL(library)
    except OSError:
        return False
    return True
