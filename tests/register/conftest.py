"""Registers in real files, closed when the test ends."""

import sqlite3
from collections.abc import Callable, Iterator
from contextlib import closing
from pathlib import Path
from typing import Any

import pytest

from app.register import Register

from .making import MATE, START, pendant


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """Where the register of a test lies."""
    return tmp_path / "register"


@pytest.fixture
def register(folder: Path) -> Iterator[Register]:
    """A new register with one item in it, the pendant."""
    with Register.create(folder, "deck phone") as made:
        made.add_item(pendant(), MATE, START)
        yield made


@pytest.fixture
def strangers_sql(folder: Path) -> Callable[..., list[Any]]:
    """Run SQL on one of the files as any other program would: without a single setting of ours."""

    def run(sql: str, *values: Any, file: str = "register.db") -> list[Any]:
        with closing(sqlite3.connect(folder / file, isolation_level=None)) as connection:
            return connection.execute(sql, values).fetchall()

    return run


@pytest.fixture
def unguarded_sql(strangers_sql: Callable[..., list[Any]]) -> Callable[..., list[Any]]:
    """Run SQL after taking the guards off, and put them back: a forger's way."""

    def run(sql: str, *values: Any, file: str = "register.db") -> list[Any]:
        guards = strangers_sql("SELECT name, sql FROM sqlite_master WHERE type = 'trigger'", file=file)
        for name, _ in guards:
            strangers_sql(f"DROP TRIGGER {name}", file=file)
        try:
            return strangers_sql(sql, *values, file=file)
        finally:
            for _, statement in guards:
                strangers_sql(statement, file=file)

    return run
