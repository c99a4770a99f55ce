"""The log and the pictures are insert-only for whoever opens the files, with whatever settings."""

import sqlite3
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from app.register import Register

from .making import inspection, judgement, photo, stamp

Sql = Callable[..., list[Any]]
PACK = "[pack]\n"


@pytest.fixture
def filled(register: Register) -> Register:
    """A register with something in every guarded table."""
    sha = register.keep_photo(photo(1))
    register.keep_pack(PACK)
    register.log_inspection(inspection("n1", pictures=(sha,)), judgement(packs=(stamp(PACK.encode()),)))
    return register


@pytest.mark.parametrize(
    ("file", "statement"),
    [
        ("register.db", "UPDATE record SET body = '{}'"),
        ("register.db", "UPDATE OR REPLACE record SET id = 'n1'"),
        ("register.db", "DELETE FROM record"),
        ("register.db", "INSERT OR REPLACE INTO record SELECT * FROM record WHERE id = 'n1'"),
        (
            "register.db",
            "INSERT OR REPLACE INTO record SELECT 'new', kind, item, at, device, seq, '{}', body_hash, seal "
            "FROM record",
        ),
        (
            "register.db",
            "INSERT OR REPLACE INTO record (rowid, id, kind, item, at, device, seq, body, body_hash, seal) "
            "SELECT rowid, 'new', kind, item, at, device, 99, body, body_hash, seal FROM record WHERE id = 'n1'",
        ),
        (
            "register.db",
            "INSERT INTO record SELECT * FROM record WHERE id = 'n1' ON CONFLICT (id) DO UPDATE SET body = '{}'",
        ),
        ("register.db", "UPDATE pack_text SET text = ''"),
        ("register.db", "DELETE FROM pack_text"),
        ("register.db", "INSERT OR REPLACE INTO pack_text SELECT sha256, '' FROM pack_text"),
        ("pictures.db", "UPDATE picture SET jpeg = x'00'"),
        ("pictures.db", "DELETE FROM picture"),
        ("pictures.db", "INSERT OR REPLACE INTO picture SELECT * FROM picture"),
        ("pictures.db", "UPDATE thumbnail SET jpeg = x'00'"),
        ("pictures.db", "DELETE FROM thumbnail"),
        ("pictures.db", "INSERT OR REPLACE INTO thumbnail SELECT * FROM thumbnail"),
    ],
)
def test_nothing_written_is_changed_or_replaced(
    filled: Register, strangers_sql: Sql, file: str, statement: str
) -> None:
    with pytest.raises(sqlite3.IntegrityError, match="is insert-only"):
        strangers_sql(statement, file=file)
    assert filled.verify() == []


def test_our_own_connections_refuse_a_replacement_too(filled: Register, folder: Path) -> None:
    connection = sqlite3.connect(folder / "register.db")
    try:
        connection.execute("PRAGMA recursive_triggers=ON")
        with pytest.raises(sqlite3.IntegrityError, match="is insert-only"):
            connection.execute("INSERT OR REPLACE INTO record SELECT * FROM record")
    finally:
        connection.close()
    assert len(filled.history("pendant")) == 1


def test_a_known_id_is_refused_even_with_another_key(filled: Register, strangers_sql: Sql) -> None:
    with pytest.raises(sqlite3.IntegrityError, match="is insert-only"):
        strangers_sql("INSERT INTO record SELECT id, kind, item, at, 'x', 1, body, body_hash, seal FROM record")
