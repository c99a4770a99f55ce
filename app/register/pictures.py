"""Pictures, in a file of their own: stored once under the hash of their bytes, never changed."""

from collections.abc import Iterable
from typing import TYPE_CHECKING

from sqlalchemy import Connection, Engine, insert
from sqlmodel import Session, select

from app.register.errors import RegisterError
from app.register.seals import sha256
from app.register.tables import Picture, Thumbnail, table

if TYPE_CHECKING:  # Pillow is not needed to store what it made
    from app.photos import Photo


def keep(engine: Engine, photos: Iterable["Photo"]) -> None:
    """Store photographs and their thumbnails; on the disk when this returns. Known ones are left as they are.

    Raises:
        RegisterError: a photograph's bytes are not the ones its hash names.
    """
    photos = list(photos)
    if not photos:
        return
    for photo in photos:
        if sha256(photo.jpeg) != photo.sha256:
            raise RegisterError(
                f"photograph {photo.source_name}: its bytes changed on the way. It was not kept. Take it again."
            )
    with engine.begin() as connection:
        for photo in photos:
            if not _known(connection, photo.sha256):
                _insert(connection, photo)


def has(session: Session, sha: str) -> bool:
    """Tell whether a picture is stored."""
    return session.exec(select(Picture.sha256).where(Picture.sha256 == sha)).first() is not None


def missing(session: Session, hashes: Iterable[str]) -> list[str]:
    """Return the hashes of which no picture is stored."""
    return [sha for sha in hashes if not has(session, sha)]


def picture(session: Session, sha: str) -> bytes | None:
    """Return the stored JPEG; None when there is none."""
    return session.exec(select(Picture.jpeg).where(Picture.sha256 == sha)).first()


def thumbnail(session: Session, sha: str) -> bytes | None:
    """Return the small JPEG of a picture; None when there is none."""
    return session.exec(select(Thumbnail.jpeg).where(Thumbnail.picture == sha)).first()


def _known(connection: Connection, sha: str) -> bool:
    column = table("picture").c.sha256
    return connection.scalar(table("picture").select().with_only_columns(column).where(column == sha)) is not None


def _insert(connection: Connection, photo: "Photo") -> None:
    place = None if photo.place is None else "{:.6f},{:.6f}".format(*photo.place)
    connection.execute(
        insert(table("picture")),
        {
            "sha256": photo.sha256, "original_sha256": photo.original_sha256, "width": photo.width,
            "height": photo.height, "taken_at": photo.taken_at, "place": place, "source_name": photo.source_name,
            "source_format": photo.source_format, "jpeg": photo.jpeg,
        },
    )  # fmt: skip
    connection.execute(
        insert(table("thumbnail")),
        {"picture": photo.sha256, "sha256": sha256(photo.thumbnail), "jpeg": photo.thumbnail},
    )
