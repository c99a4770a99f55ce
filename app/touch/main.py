"""Starting the touch app: what must be there is found out first, then Kivy is imported and set up in code."""

import gc
import os
from pathlib import Path
from typing import TYPE_CHECKING, Any

from app.touch.window import check_window, prepare_environment

if TYPE_CHECKING:
    from kivy.app import App

    from app.register import Register


def run(register_folder: Path) -> None:
    """Open the register in this folder, making it on first use, and show the app until it is left.

    Raises:
        WindowUnavailable: no window can be opened here; the message is one line with the remedy.
        RegisterError: the register cannot be opened; the message says what to do.
    """
    check_window()
    prepare_environment(register_folder / "window")
    gc.disable()  # nearly all that is loaded until the first page stays: there is nothing to look for
    try:
        from app.touch.opening import open_register

        with open_register(register_folder) as register:
            app = _made(register, register_folder)
            # What has been loaded stays; a full collection over it would be felt as a late answer to a tap.
            gc.freeze()
            gc.enable()
            app.run()
    finally:
        gc.enable()


def _made(register: "Register", folder: Path) -> "App":
    _configure()
    from kivy.base import ExceptionHandler, ExceptionManager

    from app.device import device_language
    from app.touch import preferences
    from app.touch.application import ThroatmarkApp

    preferences.begin(folder, device_language())
    app = ThroatmarkApp(register)
    app.shows_errors = True

    class ShowError(ExceptionHandler):
        def handle_exception(self, inst: Exception) -> Any:
            if app.root is None:  # there is no window yet to say it in
                return ExceptionManager.RAISE
            app.failed(inst)
            return ExceptionManager.PASS

    ExceptionManager.add_handler(ShowError())
    return app


def _configure() -> None:
    from kivy.config import Config

    Config.set("kivy", "exit_on_escape", "0")
    Config.set("kivy", "window_icon", "")
    Config.set("graphics", "width", "412")
    Config.set("graphics", "height", "892")
    Config.set("graphics", "minimum_width", "360")
    Config.set("graphics", "minimum_height", "412")
    # Two red dots for a right click are no help with gloves.
    Config.set("input", "mouse", "mouse,disable_multitouch")
    if "ANDROID_ARGUMENT" not in os.environ:
        for name in ("%(name)s", "mtdev_%(name)s", "hid_%(name)s"):
            Config.remove_option("input", name)
