"""Making and opening the two files of a register, and the connections to them."""

import os
import sqlite3
from collections.abc import Iterable
from pathlib import Path

from sqlalchemy import Connection, Engine, Table, create_engine, event
from sqlmodel import SQLModel

from app.register.errors import RegisterError
from app.register.guards import INSERT_ONLY, guards

REGISTER_FILE, PICTURES_FILE = "register.db", "pictures.db"
REGISTER_ID = 0x54484D52  # "THMR", shown by file(1)
PICTURES_ID = 0x54484D50  # "THMP"
# Raised when a table that is no projection changes, and when a body version is added that older programs would
# read wrongly. One that they refuse by its version (`bodies.py`) only holds the item it is about. Projections have a
# version of their own.
SCHEMA_VERSION = 1
BUSY_SECONDS = 10
# Photographs are read in one piece: large pages read faster (SQLite, "Internal Versus External BLOBs").
_PAGE_SIZES = {REGISTER_ID: 4096, PICTURES_ID: 16384}
_MAGIC = b"SQLite format 3\x00"


def create_file(path: Path, tables: Iterable[Table], application_id: int) -> None:
    """Make a database file with its tables and triggers; it appears under its name only when whole.

    Raises:
        FileExistsError: the name is taken.
    """
    part = path.with_name(path.name + ".part")
    part.unlink(missing_ok=True)
    engine = create_engine(f"sqlite:///{part}")
    try:
        with engine.begin() as connection:
            connection.exec_driver_sql(f"PRAGMA page_size={_PAGE_SIZES[application_id]}")
            connection.exec_driver_sql("BEGIN")  # sqlite3 would commit, and sync, each statement by itself
            tables = list(tables)
            SQLModel.metadata.create_all(connection, tables=tables)
            for table in tables:
                if table.name in INSERT_ONLY:
                    for statement in guards(table.name).values():
                        connection.exec_driver_sql(statement)
            connection.exec_driver_sql(f"PRAGMA application_id={application_id}")
            connection.exec_driver_sql(f"PRAGMA user_version={SCHEMA_VERSION}")
    finally:
        engine.dispose()
    try:
        os.link(part, path)  # unlike a rename, never over a file that came in between
    except FileExistsError:
        raise
    except OSError:  # a file system without hard links, as on memory cards
        if path.exists():
            raise FileExistsError(path) from None
        part.rename(path)
    finally:
        part.unlink(missing_ok=True)
    _sync_folder(path.parent)


def check_file(path: Path, application_id: int) -> None:
    """Look at a file's first bytes without opening it as a database.

    Raises:
        RegisterError: it is not there, cannot be read, is no register, or a newer program made it.
    """
    try:
        with path.open("rb") as file:
            head = file.read(100)
    except FileNotFoundError:
        raise RegisterError(f"{path}: there is no register here. Check the folder, or make a new register.") from None
    except OSError as error:
        raise RegisterError(
            f"{path}: cannot be read ({error.strerror}). Nothing was changed. Check that you may read it."
        ) from None
    if len(head) < 100 or not head.startswith(_MAGIC) or int.from_bytes(head[68:72]) != application_id:
        raise RegisterError(f"{path}: is no register file. It was not touched. Choose the folder of a register.")
    version = int.from_bytes(head[60:64])
    if version > SCHEMA_VERSION:
        raise RegisterError(
            f"{path}: was written by a newer version of this program (format {version}; this one reads up to "
            f"{SCHEMA_VERSION}). It was not touched. Update this program."
        )


def open_engine(path: Path) -> Engine:
    """Return the engine of one file: every commit on the disk before it returns, writers one at a time."""
    engine = create_engine(f"sqlite:///{path}", connect_args={"timeout": BUSY_SECONDS})

    @event.listens_for(engine, "connect")
    def configure(connection: sqlite3.Connection, _record: object) -> None:
        connection.isolation_level = None  # transactions begin where we say, DDL included
        # A damaged text must be told by name, not make its whole table unreadable.
        connection.text_factory = _text
        for pragma in (
            "journal_mode=WAL",
            "synchronous=FULL",
            "foreign_keys=ON",
            "recursive_triggers=ON",
            "fullfsync=ON",  # of effect on Apple systems only
            "checkpoint_fullfsync=ON",
            "trusted_schema=OFF",
        ):
            connection.execute(f"PRAGMA {pragma}").close()

    @event.listens_for(engine, "begin")
    def begin(connection: Connection) -> None:
        # A writer takes the lock at once: none is refused half-way because another was quicker.
        reads = connection.get_execution_options().get("reads")
        connection.exec_driver_sql("BEGIN" if reads else "BEGIN IMMEDIATE")

    return engine


def close_engine(engine: Engine) -> None:
    """Close an engine's connections for good; otherwise the next use would open new ones that nobody closes."""
    engine.dispose()

    @event.listens_for(engine, "do_connect")
    def refuse(*_arguments: object) -> None:
        raise RegisterError("this register was closed. Open it again.")


def _text(data: bytes) -> str:
    return data.decode(errors="surrogateescape")


def _sync_folder(folder: Path) -> None:
    if os.name != "posix":  # elsewhere a folder cannot be opened
        return
    descriptor = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(descriptor)
    finally:
        os.close(descriptor)
