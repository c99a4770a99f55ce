"""What the register says when it cannot do what was asked: what happened, what was kept, what to do."""

import sqlite3
from collections.abc import Callable
from functools import wraps
from pathlib import Path
from typing import Concatenate, ParamSpec, Protocol, TypeVar

from sqlalchemy.exc import DBAPIError


class RegisterError(Exception):
    """The register cannot do what was asked; the message is for the person and names the remedy."""


class _Placed(Protocol):
    @property
    def folder(self) -> Path: ...


P = ParamSpec("P")
R = TypeVar("R")
S = TypeVar("S", bound=_Placed)

_SAYINGS = {
    sqlite3.SQLITE_FULL: (
        "the disk is full. Nothing of this entry was kept, all earlier ones are. "
        "Free some space on the device and enter it again"
    ),
    sqlite3.SQLITE_BUSY: (
        "another program keeps the register locked. Nothing of this entry was kept. "
        "Close the other program and try again"
    ),
    sqlite3.SQLITE_READONLY: (
        "the folder or a file in it cannot be written. Nothing was changed. "
        "Give yourself permission to write there, or copy the folder to a place where you may write"
    ),
    sqlite3.SQLITE_CANTOPEN: (
        "a file of the register cannot be opened. Nothing was changed. "
        "Check that the folder is there and that you may read and write it"
    ),
    sqlite3.SQLITE_CORRUPT: (
        "a file of the register is damaged. Nothing was changed. "
        "Copy the whole folder to a safe place, then go on from the latest backup"
    ),
    sqlite3.SQLITE_IOERR: (
        "the storage failed while it was read or written. This entry was not kept. "
        "Check that the disk has space and is still connected, then enter it again"
    ),
}
# The index of the write-ahead log is a file too, and has no room left either.
for _code in (sqlite3.SQLITE_IOERR_SHMSIZE, sqlite3.SQLITE_IOERR_SHMMAP, sqlite3.SQLITE_IOERR_SHMOPEN):
    _SAYINGS[_code] = _SAYINGS[sqlite3.SQLITE_FULL]
_SAYINGS[sqlite3.SQLITE_LOCKED] = _SAYINGS[sqlite3.SQLITE_BUSY]
_SAYINGS[sqlite3.SQLITE_PERM] = _SAYINGS[sqlite3.SQLITE_READONLY]
_SAYINGS[sqlite3.SQLITE_NOTADB] = _SAYINGS[sqlite3.SQLITE_CORRUPT]


def told(error: Exception, folder: Path) -> RegisterError:
    """Return what SQLite or the file system said as a message for the person."""
    cause = error.orig if isinstance(error, DBAPIError) else error
    if isinstance(cause, sqlite3.Error):
        # The low byte is the error, the rest refines it (SQLite, "Result and Error Codes").
        code = getattr(cause, "sqlite_errorcode", -1)
        saying = _SAYINGS.get(code) or _SAYINGS.get(code & 0xFF)
        if saying:
            return RegisterError(f"{folder}: {saying}.")
    return RegisterError(f"{folder}: the register could not be read or written ({cause}). This entry was not kept.")


def telling(method: Callable[Concatenate[S, P], R]) -> Callable[Concatenate[S, P], R]:
    """Decorate a method of something with a `folder`: failures of its files leave it as `RegisterError`."""

    @wraps(method)
    def wrapped(self: S, /, *args: P.args, **kwargs: P.kwargs) -> R:
        try:
            return method(self, *args, **kwargs)
        except (DBAPIError, sqlite3.Error, OSError) as error:
            raise told(error, self.folder) from error

    return wrapped
