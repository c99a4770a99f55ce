"""What a device may be able to do for the app, and how it says that it cannot.

Every ability gives its value or an `Unavailable` with the reason in words for the screen; none raises.
What needs another program (the camera, a file chooser) takes `done`, which is called exactly once,
from whatever thread the answer arrives on; the call itself then returns None.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from typing import Protocol


@dataclass(frozen=True)
class Unavailable:
    """This device cannot do it, and why, as one sentence for the person."""

    reason: str


@dataclass(frozen=True)
class Cancelled:
    """The person left the other program without taking or choosing anything."""


@dataclass(frozen=True)
class Position:
    """Where the device was at `fixed_at` (aware, UTC), in degrees; `accuracy` in metres, when known."""

    latitude: float
    longitude: float
    accuracy: float | None
    fixed_at: datetime


class Device(Protocol):
    """The abilities the app asks for. Tests and other platforms bring their own."""

    def data_folder(self) -> Path | Unavailable:
        """Return the folder of this person's registers, made if need be."""

    def device_id(self) -> str | Unavailable:
        """Return this device's random id, made on first use and kept in the data folder."""

    def take_picture(self, done: Callable[[bytes | Cancelled | Unavailable], None]) -> Unavailable | None:
        """Open the camera; `done` gets the file's bytes."""

    def choose_files(
        self,
        title: str,
        endings: Sequence[str],
        done: Callable[[list[Path] | Cancelled | Unavailable], None],
    ) -> Unavailable | None:
        """Open the platform's chooser for files with these endings (`jpg`); `done` gets readable paths.

        Where it is unavailable the touch app shows a chooser of its own.
        """

    def position(self) -> Position | Unavailable:
        """Return where the device is, if it knows from the last ten minutes."""

    def share(self, file: Path) -> str | Unavailable:
        """Hand a copy of the file to the person; return where it lies, in words for the screen.

        Nothing that lies there already is replaced.
        """

    def notify(self, title: str, text: str) -> Unavailable | None:
        """Show a notification outside the app."""

    def buzz(self, seconds: float = 0.05) -> Unavailable | None:
        """Vibrate once."""
