"""Where the app keeps its data, and the random id that tells this device's records from another's."""

import os
import sys
import uuid
from collections.abc import Mapping
from pathlib import Path

from app.device.abilities import Unavailable

NAME = "throatmark"
ID_FILE = "device-id"


def data_folder(environment: Mapping[str, str] = os.environ, platform: str = sys.platform) -> Path | Unavailable:
    """Return the data folder of this person on this platform, made if need be.

    Android: the app's private files; Windows: `%APPDATA%`; macOS: `~/Library/Application Support`;
    elsewhere `$XDG_DATA_HOME`, by default `~/.local/share` (XDG base directory specification 0.8,
    which has relative paths ignored).
    """
    folder = _place(environment, platform) / NAME
    try:
        folder.mkdir(mode=0o700, parents=True, exist_ok=True)
    except OSError as error:
        return Unavailable(f"The folder {folder} cannot be made: {error.strerror}. Free or repair that place.")
    if not os.access(folder, os.W_OK | os.X_OK):
        return Unavailable(f"The folder {folder} cannot be written. Give this user the right to write there.")
    return folder


def _place(environment: Mapping[str, str], platform: str) -> Path:
    home = Path(environment.get("HOME") or Path.home())
    if "ANDROID_PRIVATE" in environment:
        return Path(environment["ANDROID_PRIVATE"])
    if platform == "win32":
        return Path(environment.get("APPDATA") or home / "AppData" / "Roaming")
    if platform == "darwin":
        return home / "Library" / "Application Support"
    named = Path(environment.get("XDG_DATA_HOME", ""))
    return named if named.is_absolute() else home / ".local" / "share"


def device_id(folder: Path) -> str | Unavailable:
    """Return the id kept in `folder`, making it on first use: a random UUID, tied to no hardware."""
    file = folder / ID_FILE
    try:
        if not file.exists():
            _keep_first(file, f"{uuid.uuid4()}\n")
        written = file.read_text(encoding="ascii").strip()
    except (OSError, UnicodeDecodeError) as error:
        return Unavailable(f"This device's id in {file} cannot be read or written: {error}.")
    try:
        return str(uuid.UUID(written))
    except ValueError:
        return Unavailable(
            f"{file} holds no device id. Restore it from a backup, or delete it to go on as a new device."
        )


def _keep_first(file: Path, text: str) -> None:
    """Write the file whole or not at all; when another process was first, its file stays."""
    part = file.with_name(f"{file.name}.{uuid.uuid4().hex}.part")
    try:
        with part.open("x", encoding="ascii") as out:
            out.write(text)
            out.flush()
            os.fsync(out.fileno())
        try:
            os.link(part, file)
        except FileExistsError:
            pass
        except OSError:  # no hard links here (Android): one process only, so a rename will do
            part.rename(file)
    finally:
        part.unlink(missing_ok=True)
