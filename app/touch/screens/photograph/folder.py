"""The app's own chooser: folders and picture files as large rows, several files at a time."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from app.language import mark, say, say_many, told
from app.touch.services import Services
from app.touch.widgets.buttons import MainButton, RowButton
from app.touch.widgets.page import Page
from app.touch.widgets.words import Quiet, Words
from app.touch.wording import broken

MOST_ROWS = 300


@dataclass(frozen=True, slots=True)
class Listing:
    """What lies in a folder: its folders, its picture files newest first, and why it cannot be read."""

    folders: tuple[Path, ...] = ()
    files: tuple[tuple[Path, int], ...] = ()
    problem: str = ""


class FolderPage(Page):
    """One folder; `chosen` is called with the files after the page has gone.

    Those that choose other files than pictures bring their own words.
    """

    HEADING = mark("Choose pictures")
    NONE = mark("No picture files in this folder.")

    def __init__(
        self, app: Any, services: Services, endings: Sequence[str], chosen: Callable[[list[Path]], None], **kwargs: Any
    ) -> None:
        super().__init__(heading=say(self.HEADING), **kwargs)
        self._app, self._services, self._endings, self._chosen = app, services, tuple(endings), chosen
        self._picked: list[Path] = []
        self._listing = Listing()
        self._open(app.pictures_folder)

    def take_words(self, count: int) -> str:
        """What the button says that takes the files chosen."""
        return say_many("Take in {count} picture", "Take in {count} pictures", count)

    def _open(self, folder: Path) -> None:
        self._folder = folder
        self._picked = []
        self._services.pictures.do(lambda: listed(folder, self._endings), self._show)

    def _show(self, listing: Listing) -> None:
        self._listing = listing
        self.under = broken(str(self._folder))
        rows = []
        if listing.problem:
            rows.append(Words(text=told(listing.problem), bold=True))
        if self._folder.parent != self._folder:
            rows.append(self._row(say("Up one folder"), broken(str(self._folder.parent)), self._folder.parent))
        rows += [self._row(folder.name, say("folder"), folder) for folder in listing.folders]
        rows += [self._row(file.name, _size(size), file) for file, size in listing.files]
        if not listing.files and not listing.problem:
            rows.append(Quiet(text=say(self.NONE)))
        if len(listing.files) == MOST_ROWS:
            rows.append(Quiet(text=say("The newest {count} are shown.", count=MOST_ROWS)))
        self.fill(*rows)
        self.ids.scroll.scroll_y = 1
        self._count()

    def _row(self, title: str, line: str, path: Path) -> RowButton:
        row = RowButton(title=title, line=line, key=path, chosen=path in self._picked)
        row.bind(on_release=self._tapped)
        return row

    def _tapped(self, row: RowButton) -> None:
        path = row.key
        if path in [file for file, _ in self._listing.files]:
            if path in self._picked:
                self._picked.remove(path)
            else:
                self._picked.append(path)
            row.chosen = path in self._picked
            self._count()
        else:
            self._open(path)

    def _count(self) -> None:
        number = len(self._picked)
        if not number:
            self.fill_foot()
            return
        take = MainButton(text=self.take_words(number))
        take.bind(on_release=lambda _one: self._take())
        self.fill_foot(take)

    def _take(self) -> None:
        self._app.pictures_folder = self._folder
        self.manager.pop(self)
        self._chosen(list(self._picked))


def _size(count: int) -> str:
    return f"{count / 1e6:.1f} MB" if count >= 100_000 else f"{count / 1e3:.0f} kB"


def listed(folder: Path, endings: Sequence[str]) -> Listing:
    """List a folder: what is hidden is left out, what cannot be read says so."""
    wanted = {f".{ending.lower()}" for ending in endings}
    try:
        entries = [entry for entry in folder.iterdir() if not entry.name.startswith(".")]
        folders = sorted((entry for entry in entries if entry.is_dir()), key=lambda entry: entry.name.casefold())
        files = [(entry, entry.stat()) for entry in entries if entry.suffix.lower() in wanted and entry.is_file()]
    except OSError as error:
        return Listing(problem=f"{folder} cannot be read ({error.strerror or error}). Choose another folder.")
    files.sort(key=lambda one: one[1].st_mtime, reverse=True)
    return Listing(tuple(folders), tuple((file, stat.st_size) for file, stat in files[:MOST_ROWS]))
