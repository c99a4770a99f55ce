"""The text of every pack a judgement used, kept once: what was decided stays readable under its own rules."""

from collections.abc import Iterable
from functools import cache
from importlib.resources import files

from sqlalchemy import Connection, bindparam, insert, select

from app.register.seals import sha256
from app.register.tables import table
from inspection_rules.judgement import PackStamp

_TABLE = table("pack_text")
_INSERT = insert(_TABLE)
_KNOWN = select(_TABLE.c.sha256).where(_TABLE.c.sha256.in_(bindparam("hashes", expanding=True)))


@cache
def shipped() -> dict[str, str]:
    """Return the texts of the packs that ship with the program, by their SHA-256."""
    folder = files("inspection_rules").joinpath("packs")
    texts = [entry.read_bytes() for entry in folder.iterdir() if entry.name.endswith(".toml")]
    return {sha256(data): data.decode() for data in texts}


def keep(connection: Connection, stamps: Iterable[PackStamp]) -> None:
    """Keep the shipped texts among these, in the caller's transaction."""
    hashes = {stamp.sha256 for stamp in stamps} & shipped().keys()
    for sha in hashes - set(connection.scalars(_KNOWN, {"hashes": list(hashes)})):
        connection.execute(_INSERT, {"sha256": sha, "text": shipped()[sha]})


def keep_text(connection: Connection, text: str) -> str:
    """Keep one pack's text and return its SHA-256, in the caller's transaction."""
    sha = sha256(text.encode())
    if get(connection, sha) is None:
        connection.execute(_INSERT, {"sha256": sha, "text": text})
    return sha


def get(connection: Connection, sha: str) -> str | None:
    """Return a kept pack's text; None when it was never kept."""
    return connection.scalar(select(_TABLE.c.text).where(_TABLE.c.sha256 == sha))
