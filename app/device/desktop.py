"""A desktop: no camera of ours, no position; files, notifications and a folder to share through."""

import os
import shutil
import sys
import threading
import uuid
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any

from app.device import folders
from app.device.abilities import Cancelled, Position, Unavailable
from app.device.borrowed import borrow

CHOOSERS = {"zenity": "gnome", "kdialog": "kde", "yad": "yad"}  # program: plyer's name for it


class Desktop:
    """Linux, macOS and Windows."""

    def data_folder(self) -> Path | Unavailable:
        """See `Device`."""
        return folders.data_folder()

    def device_id(self) -> str | Unavailable:
        """See `Device`."""
        folder = self.data_folder()
        return folder if isinstance(folder, Unavailable) else folders.device_id(folder)

    def take_picture(self, done: Callable[[bytes | Cancelled | Unavailable], None]) -> Unavailable | None:
        """See `Device`."""
        return Unavailable("This device has no camera the app can open: choose a photograph's file instead.")

    def choose_files(
        self,
        title: str,
        endings: Sequence[str],
        done: Callable[[list[Path] | Cancelled | Unavailable], None],
    ) -> Unavailable | None:
        """See `Device`. On Linux this needs zenity, kdialog or yad; macOS wants it on the main thread."""
        patterns = [f"*.{case}" for ending in endings for case in (ending.lower(), ending.upper())]
        how: dict[str, Any] = {"title": title, "multiple": True, "filters": [(title, *patterns)]}
        if not sys.platform.startswith("linux"):
            done(_chosen(borrow("filechooser", "open_file", **how)))
            return None
        if not (os.environ.get("DISPLAY") or os.environ.get("WAYLAND_DISPLAY")):
            return Unavailable("There is no screen to show a file chooser on.")
        found = next((name for name in CHOOSERS if shutil.which(name)), None)
        if found is None:
            return Unavailable(f"No file chooser is installed (one of {', '.join(CHOOSERS)}).")
        how["desktop_override"] = CHOOSERS[found]
        # plyer waits for the chooser's window, which must not hold up ours.
        threading.Thread(target=lambda: done(_chosen(borrow("filechooser", "open_file", **how))), daemon=True).start()
        return None

    def position(self) -> Position | Unavailable:
        """See `Device`."""
        return Unavailable("This device does not know its position: type the place instead.")

    def share(self, file: Path) -> str | Unavailable:
        """See `Device`. The copy goes to the person's Downloads, or home where there is none."""
        home = Path.home()
        folder = home / "Downloads" if (home / "Downloads").is_dir() else home
        try:
            return str(_copied(file, folder))
        except OSError as error:
            return Unavailable(f"{file.name} cannot be copied to {folder}: {error.strerror or error}.")

    def notify(self, title: str, text: str) -> Unavailable | None:
        """See `Device`."""
        if sys.platform.startswith("linux") and not _session_bus():
            return Unavailable("There is no desktop session to show a notification in.")
        answer = borrow("notification", "notify", title=title, message=text, app_name="Throatmark")
        return answer if isinstance(answer, Unavailable) else None

    def buzz(self, seconds: float = 0.05) -> Unavailable | None:
        """See `Device`."""
        return Unavailable("This device does not vibrate.")


def _chosen(answer: list[str] | Unavailable | None) -> list[Path] | Cancelled | Unavailable:
    if isinstance(answer, Unavailable):
        return answer
    paths = [Path(path) for path in answer or [] if path]
    missing = [path for path in paths if not path.is_file()]
    if missing:  # a name with the chooser's own separator in it comes back in pieces
        return Unavailable(f"The file chooser gave a name that is no file: {missing[0]}.")
    return paths or Cancelled()


def _session_bus() -> bool:
    """Tell whether a D-Bus session can be reached; without one the helpers complain on stderr."""
    runtime = os.environ.get("XDG_RUNTIME_DIR")
    return bool(os.environ.get("DBUS_SESSION_BUS_ADDRESS")) or bool(runtime and Path(runtime, "bus").exists())


def _copied(file: Path, folder: Path) -> Path:
    """Copy under the first free name, whole or not at all."""
    target = folder / file.name
    count = 1
    part = folder / f".{uuid.uuid4().hex}.part"
    try:
        shutil.copyfile(file, part)
        while target.exists():
            count += 1
            target = folder / f"{file.stem} ({count}){file.suffix}"
        return part.rename(target)
    finally:
        part.unlink(missing_ok=True)
