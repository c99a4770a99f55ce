"""Pictures, in a file of their own: stored once under the hash of their bytes, never changed."""

from collections.abc import Iterable
from typing import TYPE_CHECKING

from sqlalchemy import Connection, Engine, bindparam, insert
from sqlalchemy import select as core_select
from sqlmodel import Session, select

from app.register.errors import RegisterError
from app.register.seals import sha256
from app.register.tables import Picture, Thumbnail, table

if TYPE_CHECKING:  # Pillow is not needed to store what it made
    from app.photos import Photo

_PICTURE, _THUMBNAIL = insert(table("picture")), insert(table("thumbnail"))
_SHA = table("picture").c.sha256
_KNOWN = core_select(_SHA).where(_SHA.in_(bindparam("hashes", expanding=True)))


def keep(engine: Engine, photos: Iterable["Photo"]) -> None:
    """Store photographs and their thumbnails; on the disk when this returns. Known ones are left as they are."""
    by_hash = {photo.sha256: photo for photo in photos}
    if not by_hash:
        return
    with engine.begin() as connection:
        known = stored(connection, by_hash)
        new = [photo for sha, photo in by_hash.items() if sha not in known]
        if new:
            connection.execute(_PICTURE, [_picture(photo) for photo in new])
            connection.execute(_THUMBNAIL, [_thumbnail(photo) for photo in new])


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


def _thumbnail(photo: "Photo") -> dict[str, object]:
    return {"picture": photo.sha256, "sha256": sha256(photo.thumbnail), "jpeg": photo.thumbnail}
