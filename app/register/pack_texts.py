"""The text of every pack a judgement used, kept once: what was decided stays readable under its own rules."""

from collections.abc import Iterable
from functools import cache
from importlib.resources import files

from sqlalchemy import Connection, insert, select

from app.register.seals import sha256
from app.register.tables import table
from inspection_rules.judgement import PackStamp


@cache
def shipped() -> dict[str, str]:
    """Return the texts of the packs that ship with the program, by their SHA-256."""
    folder = files("inspection_rules").joinpath("packs")
    texts = [entry.read_bytes() for entry in folder.iterdir() if entry.name.endswith(".toml")]
    return {sha256(data): data.decode() for data in texts}


def keep(connection: Connection, stamps: Iterable[PackStamp]) -> None:
    """Keep the shipped texts among these, in the caller's transaction."""
    for stamp in stamps:
        if stamp.sha256 in shipped():
            keep_text(connection, shipped()[stamp.sha256])


def keep_text(connection: Connection, text: str) -> str:
    """Keep one pack's text and return its SHA-256, in the caller's transaction."""
    sha = sha256(text.encode())
    if get(connection, sha) is None:
        connection.execute(insert(table("pack_text")), {"sha256": sha, "text": text})
    return sha


def get(connection: Connection, sha: str) -> str | None:
    """Return a kept pack's text; None when it was never kept."""
    column = table("pack_text").c
    return connection.scalar(select(column.text).where(column.sha256 == sha))
