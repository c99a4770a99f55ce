"""Adding and taking away the site's and the makers' own packs, each a file in the folder `packs` of the register."""

import os
from dataclasses import dataclass
from pathlib import Path

from sqlalchemy import Engine

from app.register import pack_texts, packs, settings
from app.register.errors import RegisterError, telling
from inspection_rules.book import PackError, RuleBook, shipped, with_pack
from inspection_rules.rule import Pack

MOST_BYTES = 2_000_000
TAKEN_OUT = ".taken-out"


@dataclass(frozen=True, slots=True)
class OwnPack:
    """A pack's file in the register's folder: what it says, or in `problem` why nothing can be judged by it."""

    file: str
    pack: Pack | None
    problem: str = ""


class OwnPacks:
    """The packs of one register."""

    def __init__(self, folder: Path, engine: Engine) -> None:
        self.folder, self._engine = folder, engine

    @telling
    def every(self) -> list[OwnPack]:
        """Return every pack in the order of their files; one that cannot be used says why."""
        return self._read()[0]

    @telling
    def add(self, path: Path) -> Pack:
        """Copy a pack's file into the register's folder, once it has been checked beside all others.

        Raises:
            RegisterError: it cannot be used, or a file of this name is there; nothing was added.
        """
        name = f"{path.stem}.toml"
        place = self.folder / packs.FOLDER
        try:
            data = path.read_bytes()
        except OSError as error:
            raise RegisterError(f"{path.name} cannot be read ({error.strerror}). Nothing was added.") from None
        if path.suffix.lower() != ".toml" or name.startswith(".") or len(data) > MOST_BYTES:
            raise RegisterError(f"{path.name} is no pack: a pack is a text file that ends in .toml. Nothing was added.")
        if (place / name).exists():
            raise RegisterError(f"{name} is there already. Nothing was added. Take the old one away first.")
        checking = place / "checking"
        checking.mkdir(parents=True, exist_ok=True)
        part = checking / name  # in a folder of its own, so that it does not count before it was checked
        try:
            with part.open("wb") as out:
                out.write(data)
                out.flush()
                os.fsync(out.fileno())
            book = with_pack(self._read()[1], part)
            part.replace(place / name)
        except PackError as error:
            raise RegisterError(f"{error}. Nothing was added. Have the file put right.") from None
        finally:
            part.unlink(missing_ok=True)
            checking.rmdir()
        with self._engine.begin() as connection:
            pack_texts.keep_text(connection, data.decode())
        return book.packs[-1]

    @telling
    def take_away(self, file: str) -> None:
        """Take a pack's file out of use; it stays in the folder under another name.

        A regime that only this pack knows counts no more, since nothing could be judged under it.
        """
        found = next((one for one in self._read()[0] if one.file == file), None)
        if found is None:
            raise RegisterError(f"{file} is not there any more. Nothing was changed.")
        left = {pack.regime for pack in shipped().packs}
        left |= {one.pack.regime for one in self._read()[0] if one.pack is not None and one.file != file}
        with self._engine.begin() as connection:
            counting = settings.regimes(connection)
            settings.put(connection, settings.REGIMES, [one for one in counting if one in left])
        path = self.folder / packs.FOLDER / file
        path.replace(path.with_name(f"{file}{TAKEN_OUT}"))

    def _read(self) -> tuple[list[OwnPack], RuleBook]:
        book = shipped()
        found = []
        for path in packs.files(self.folder):
            try:
                book = with_pack(book, path)
                found.append(OwnPack(path.name, book.packs[-1]))
            except PackError as error:
                found.append(OwnPack(path.name, None, str(error)))
        return found, book
