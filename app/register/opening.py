"""Making the files of a register, and opening both of them or neither."""

from dataclasses import dataclass
from pathlib import Path

from sqlalchemy import Engine
from sqlalchemy.exc import DBAPIError

from app.register import projections, settings
from app.register.engine import (
    PICTURES_FILE,
    PICTURES_ID,
    REGISTER_FILE,
    REGISTER_ID,
    check_file,
    create_file,
    open_engine,
)
from app.register.errors import RegisterError, told
from app.register.projections import Progress
from app.register.tables import PICTURE_TABLES, REGISTER_TABLES


@dataclass(frozen=True, slots=True)
class Opened:
    """Both files of a register, open, and the device that writes."""

    folder: Path
    register: Engine
    pictures: Engine
    device: str


def create(path: Path) -> Path:
    """Make the files of an empty register and return their folder.

    Raises:
        RegisterError: there is one already, or the folder cannot be written.
    """
    folder = _folder(path)
    try:
        folder.mkdir(parents=True, exist_ok=True)
        if (folder / REGISTER_FILE).exists():
            raise RegisterError(f"{folder}: there is a register here already. It was not touched. Open it instead.")
        _ensure_pictures(folder)
        create_file(folder / REGISTER_FILE, REGISTER_TABLES, REGISTER_ID)
    except OSError as error:
        raise RegisterError(
            f"{folder}: no register can be made here ({error.strerror}). Choose a folder you may write to."
        ) from error
    except DBAPIError as error:
        raise told(error, folder) from error
    return folder


def open_files(path: Path, device: str | None, progress: Progress | None) -> Opened:
    """Open both files; see `Register.open`."""
    folder = _folder(path)
    check_file(folder / REGISTER_FILE, REGISTER_ID)
    engine = open_engine(folder / REGISTER_FILE)
    pictures = open_engine(folder / PICTURES_FILE)
    try:
        _ensure_pictures(folder)
        _touch(pictures)
        return Opened(folder, engine, pictures, _prepare(engine, device, progress))
    except BaseException as error:
        engine.dispose()
        pictures.dispose()
        if isinstance(error, DBAPIError | OSError):
            raise told(error, folder) from error
        raise


def _folder(path: Path) -> Path:
    return path.parent if path.name == REGISTER_FILE else path


def _ensure_pictures(folder: Path) -> None:
    """Make `pictures.db` where there is none: records are worth opening without it, and `verify` tells."""
    path = folder / PICTURES_FILE
    if path.exists():
        check_file(path, PICTURES_ID)
    else:
        create_file(path, PICTURE_TABLES, PICTURES_ID)


def _touch(engine: Engine) -> None:
    """Read once, so that a file that cannot be read is told on opening."""
    with engine.execution_options(reads=True).connect() as connection:
        connection.exec_driver_sql("SELECT count(*) FROM sqlite_master")


def _prepare(engine: Engine, device: str | None, progress: Progress | None) -> str:
    """Return the device's name; rebuild the projections when another version of the program made them."""
    with engine.execution_options(reads=True).connect() as connection:
        stored = settings.get(connection, settings.DEVICE)
        current = settings.get(connection, settings.PROJECTION) == projections.PROJECTION_VERSION
    name = device or stored
    if not isinstance(name, str):
        raise RegisterError("this register was never opened by a device. Open it once with the device's name.")
    if current and name == stored:
        return name
    with engine.begin() as connection:
        settings.put(connection, settings.DEVICE, name)
        if not current:
            projections.rebuild(connection, progress)
    return name
