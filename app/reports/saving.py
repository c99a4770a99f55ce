"""Writing a report whole or not at all."""

import os
import tempfile
from pathlib import Path

from app.reports.errors import ReportError

FOLDER = "reports"


def report_folder(register: Path) -> Path:
    """Return the folder beside a register where its reports are kept, which is made if need be.

    Raises:
        ReportError: it cannot be made.
    """
    folder = register / FOLDER
    try:
        folder.mkdir(exist_ok=True)
    except OSError as error:
        raise ReportError(f"{folder}: the folder cannot be made ({error.strerror}). Name another place.") from error
    return folder


def check_place(out: Path) -> None:
    """Refuse a place where a report cannot be written, before any work is done for it.

    Raises:
        ReportError: `out` is a folder, or its folder is missing or cannot be written.
    """
    folder = out.parent
    if out.is_dir():
        raise ReportError(f"{out}: this is a folder. Name a file in it, for instance {out / 'retirement.pdf'}.")
    if not folder.is_dir():
        raise ReportError(f"{out}: the folder {folder} does not exist. Make it first, or name another place.")
    if not os.access(folder, os.W_OK | os.X_OK):
        raise ReportError(f"{out}: the folder {folder} cannot be written. Name a place where you may write.")


def save(data: bytes, out: Path) -> None:
    """Write the bytes beside their place and move them there in one step.

    Raises:
        ReportError: the disk refused; what was at `out` before is still there.
    """
    part: Path | None = None
    try:
        with tempfile.NamedTemporaryFile(dir=out.parent, prefix=f".{out.name}.", suffix=".part", delete=False) as file:
            part = Path(file.name)
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
        part.chmod(0o644)
        part.replace(out)
    except OSError as error:
        if part is not None:
            part.unlink(missing_ok=True)
        raise ReportError(
            f"{out}: the report could not be written ({error.strerror}). Nothing was kept of it. "
            "Free some space or name another place."
        ) from error
