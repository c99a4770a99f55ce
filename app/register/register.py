"""The register: one method for each thing a person does with it, in four parts and what keeps it sound."""

from pathlib import Path
from types import TracebackType
from typing import Self

from sqlmodel import Session

from app.register import opening, projections
from app.register import verify as checks
from app.register.errors import telling
from app.register.kept_items import KeptItems
from app.register.kept_records import KeptRecords
from app.register.kept_rounds import KeptRounds
from app.register.kept_settings import KeptSettings
from app.register.projections import Progress
from app.register.verify import ChainEnd, Fault


class Register(KeptItems, KeptRecords, KeptRounds, KeptSettings):
    """An open register: a folder with `register.db` and `pictures.db`.

    Every method that writes returns only once what it wrote is on the disk, and writes all of it or nothing.
    Every method raises `RegisterError`, with what was kept and what to do, when it cannot do its work. Use one
    register from one thread at a time; other processes may use the same folder.
    """

    @classmethod
    def create(cls, path: Path, device: str) -> Self:
        """Make an empty register in a folder, which may exist already, and open it.

        Args:
            path: the folder.
            device: the name under which this device's entries are chained.
        """
        return cls.open(opening.create(path), device)

    @classmethod
    def open(cls, path: Path, device: str | None = None, *, progress: Progress | None = None) -> Self:
        """Open the register in a folder.

        Args:
            path: the folder, or the `register.db` in it.
            device: who writes from here on; without it, whoever opened it last under a name.
            progress: told (done, all) items while an older register's projections are made anew.
        """
        return cls(opening.open_files(path, device, progress))

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self.close()

    @telling
    def verify(self, progress: Progress | None = None) -> list[Fault]:
        """Check every record, seal, projection, picture and pack text; see `verify.py` for what that can show."""
        with Session(self._reader) as session, Session(self._picture_reader) as pictures_session:
            return checks.verify(session, pictures_session, progress)

    @telling
    def chain_ends(self) -> list[ChainEnd]:
        """Return how many entries each device has made and the last seal: what an auditor notes down."""
        with Session(self._reader) as session:
            return checks.chain_ends(session)

    @telling
    def rebuild(self, progress: Progress | None = None) -> None:
        """Make every projection anew from the records."""
        with self._engine.begin() as connection:
            projections.rebuild(connection, progress)
