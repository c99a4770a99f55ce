"""The site's and the makers' own packs: files in the folder `packs` beside the register."""

from pathlib import Path

from app.register.errors import RegisterError
from inspection_rules.book import PackError, RuleBook, shipped, with_pack

FOLDER = "packs"
# Name, size and time of change of each file: the same ones hold the same rules.
Signature = tuple[tuple[str, int, int], ...]


def signature(folder: Path) -> Signature:
    """Return what tells whether a register's packs have changed."""
    return tuple((path.name, path.stat().st_size, path.stat().st_mtime_ns) for path in files(folder))


def book(folder: Path) -> RuleBook:
    """Return the shipped rules with the packs of a register's folder, in the order of their names.

    Raises:
        RegisterError: one of them cannot be used; none is left out in silence.
    """
    found = shipped()
    for path in files(folder):
        try:
            found = with_pack(found, path)
        except PackError as error:
            raise RegisterError(
                f"{folder / FOLDER}: {error}. Nothing is judged without it. Put the file right, or take it out of "
                "the folder."
            ) from None
    return found


def texts(folder: Path) -> list[str]:
    """Return the texts of a register's packs that could be used."""
    return [path.read_bytes().decode() for path in files(folder)]


def files(folder: Path) -> list[Path]:
    """Return the files of a register's packs, in the order of their names."""
    place = folder / FOLDER
    return sorted(path for path in place.iterdir() if path.suffix == ".toml") if place.is_dir() else []
