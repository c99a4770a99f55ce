"""Pictures, in a file of their own: stored once under the hash of their bytes, never changed.

So are the original files, where they are kept. A `pictures.db` from before there were any gets their table with the
first: programs that know nothing of it read on as before.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from typing import TYPE_CHECKING

from sqlalchemy import Connection, Engine, bindparam, case, insert, inspect, or_
from sqlalchemy import select as core_select
from sqlmodel import Session, select

from app.register.errors import RegisterError
from app.register.guards import guards
from app.register.log import raw
from app.register.seals import sha256
from app.register.tables import Picture, Thumbnail, table

if TYPE_CHECKING:  # Pillow is not needed to store what it made
    from app.photos import Photo

_PICTURE, _THUMBNAIL, _ORIGINAL = (insert(table(name)) for name in ("picture", "thumbnail", "original"))
_SHA = table("picture").c.sha256
_KNOWN = core_select(_SHA).where(_SHA.in_(bindparam("hashes", expanding=True)))
_KEPT, _OF = table("original").c, table("picture").c
_FOR_PICTURE = (  # the file that the photograph itself names, before another that gave the same photograph
    or_(_KEPT.sha256 == _OF.original_sha256, _KEPT.picture == _OF.sha256),
    case((_KEPT.sha256 == _OF.original_sha256, 0), else_=1),
)


@dataclass(frozen=True, slots=True)
class KeptOriginal:
    """The untouched file of a photograph.

    Attributes:
        sha256: of the file. size: bytes.
        source_name: as it was called where it came from.
        source_format: as the image library calls it, `JPEG`, `PNG`, `WEBP`, `MPO` or `HEIF`.
    """

    sha256: str
    source_name: str
    source_format: str
    size: int


def keep(engine: Engine, photos: Iterable["Photo"]) -> None:
    """Store photographs, their thumbnails and the originals that come along; on the disk when this returns.

    All or none of it. What is known is left as it is.
    """
    by_hash = {photo.sha256: photo for photo in photos}
    if not by_hash:
        return
    with engine.begin() as connection:
        known = stored(connection, by_hash)
        new = [photo for sha, photo in by_hash.items() if sha not in known]
        if new:
            connection.execute(_PICTURE, [_picture(photo) for photo in new])
            connection.execute(_THUMBNAIL, [_thumbnail(photo) for photo in new])
        for photo in by_hash.values():
            if photo.original is not None:
                _keep_original(connection, photo, photo.original)


def _keep_original(connection: Connection, photo: "Photo", original: bytes) -> None:
    if not _has_originals(connection):
        table("original").create(connection)
        for statement in guards("original").values():
            connection.exec_driver_sql(statement)
    if connection.scalar(core_select(_KEPT.sha256).where(_KEPT.sha256 == photo.original_sha256)) is None:
        connection.execute(_ORIGINAL, _original(photo, original))


def _has_originals(connection: Connection) -> bool:
    return inspect(connection).has_table("original")


def original_hash(connection: Connection, sha: str) -> str | None:
    """Return the hash of the file a stored photograph was made from; None when there is no such photograph."""
    found: str | None = connection.scalar(core_select(_OF.original_sha256).where(_OF.sha256 == sha))
    return found


def kept_original(connection: Connection, sha: str) -> KeptOriginal | None:
    """Tell of the original file of a stored photograph; None when it was not kept."""
    if not _has_originals(connection):
        return None
    joined, named_first = _FOR_PICTURE
    query = core_select(_KEPT.sha256, _KEPT.source_name, _KEPT.source_format, _KEPT.size)
    query = query.join(table("picture"), joined).where(_OF.sha256 == sha).order_by(named_first)
    row = connection.execute(query).first()
    return KeptOriginal(*row) if row else None


def original(connection: Connection, sha: str) -> bytes | None:
    """Return the original file of a stored photograph; None when it was not kept.

    Raises:
        RegisterError: it is not any more as it came in.
    """
    kept = kept_original(connection, sha)
    if kept is None:
        return None
    file = raw(original_file(connection, kept.sha256))
    if sha256(file) != kept.sha256:
        raise RegisterError(
            f"The original file of picture {sha} was changed after it was stored. It was not given out. "
            "Check the register, and go on from the latest backup."
        )
    return file


def originals(connection: Connection) -> list[tuple[str, str]]:
    """Return the hash of every original file that is kept, with that of the photograph made from it."""
    if not _has_originals(connection):
        return []
    return [(sha, picture) for sha, picture in connection.execute(core_select(_KEPT.sha256, _KEPT.picture))]


def original_file(connection: Connection, sha: str) -> object:
    """Return the original file of this hash as it is stored, whatever was made of it."""
    return connection.scalar(core_select(_KEPT.file).where(_KEPT.sha256 == sha))


def stored(connection: Connection, hashes: Iterable[str]) -> set[str]:
    """Return which of some pictures are stored."""
    return set(connection.scalars(_KNOWN, {"hashes": list(hashes)}))


def check_stored(engine: Engine, named: set[str]) -> None:
    """Check that every picture a record names is stored.

    Raises:
        RegisterError: one is not.
    """
    if not named:
        return
    with engine.connect() as connection:
        lost = named - stored(connection, named)
    if lost:
        raise RegisterError(f"picture {min(lost)} is not stored. Nothing was logged. Keep the photograph first.")


def picture(session: Session, sha: str) -> bytes | None:
    """Return the stored JPEG; None when there is none."""
    return session.exec(select(Picture.jpeg).where(Picture.sha256 == sha)).first()


def thumbnail(session: Session, sha: str) -> bytes | None:
    """Return the small JPEG of a picture; None when there is none."""
    return session.exec(select(Thumbnail.jpeg).where(Thumbnail.picture == sha)).first()


def _picture(photo: "Photo") -> dict[str, object]:
    place = None if photo.place is None else "{:.6f},{:.6f}".format(*photo.place)
    return {
        "sha256": photo.sha256, "original_sha256": photo.original_sha256, "width": photo.width,
        "height": photo.height, "taken_at": photo.taken_at, "place": place, "source_name": photo.source_name,
        "source_format": photo.source_format, "jpeg": photo.jpeg,
    }  # fmt: skip


def _original(photo: "Photo", original: bytes) -> dict[str, object]:
    return {
        "sha256": photo.original_sha256, "picture": photo.sha256, "source_name": photo.source_name,
        "source_format": photo.source_format, "size": len(original), "file": original,
    }  # fmt: skip


def _thumbnail(photo: "Photo") -> dict[str, object]:
    return {"picture": photo.sha256, "sha256": sha256(photo.thumbnail), "jpeg": photo.thumbnail}
