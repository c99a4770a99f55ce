"""The original file of a photograph: whether it is kept, and a copy of it handed on."""

import tempfile
from collections.abc import Callable
from pathlib import Path

from kivy.uix.widget import Widget

from app.device import Unavailable
from app.language import say, told
from app.register import KeptOriginal
from app.touch.screens.picture.board import button
from app.touch.services import Services
from app.touch.widgets.buttons import QuietButton
from app.touch.widgets.words import Quiet, Words
from app.touch.wording import broken

ENDINGS = {"JPEG": "jpg", "MPO": "jpg", "PNG": "png", "WEBP": "webp", "HEIF": "heic"}
LONGEST_NAME = 60


class OriginalFile:
    """What a page says of the original file of its photograph, once that is read."""

    def __init__(self, services: Services, sha: str, changed: Callable[[], None]) -> None:
        """`changed` is called when there is something to be told."""
        self._services, self._sha, self._changed = services, sha, changed
        self._kept: KeptOriginal | None = None
        self._said = ""
        services.records.do(lambda: services.register.kept_original(sha), self._found)

    def told(self) -> list[Widget]:
        """Return it, with the way to a copy; nothing where none is kept."""
        if self._kept is None:
            return []
        said: list[Widget] = [Words(text=self._said, bold=True)] if self._said else []
        return [
            Quiet(text=kept_text(self._kept)),
            *said,
            button(QuietButton, say("Hand on the original"), self._hand_on),
        ]

    def _found(self, kept: KeptOriginal | None) -> None:
        self._kept = kept
        if kept is not None:
            self._changed()

    def _hand_on(self) -> None:
        if self._kept is not None:
            hand_on_original(self._services, self._sha, self._kept, self._tell)

    def _tell(self, said: str) -> None:
        self._said = said
        self._changed()


def kept_text(kept: KeptOriginal) -> str:
    """Say that an original is kept, under which name and how large."""
    return say("The original file is kept: {name}, {size} MB", name=broken(kept.source_name), size=megabytes(kept.size))


def megabytes(size: int) -> str:
    """Return a file's size as it is told."""
    return f"{max(size / 1e6, 0.1):.1f}"


def name_of(kept: KeptOriginal) -> str:
    """Return what a copy is called: as the file was, with the beginning of its hash, by which a record names it."""
    stem = "".join(one if one.isalnum() or one in " -_." else "_" for one in Path(kept.source_name).stem)
    return f"{stem[:LONGEST_NAME].strip(' .') or 'picture'} {kept.sha256[:8]}.{ENDINGS.get(kept.source_format, 'bin')}"


def hand_on_original(services: Services, sha: str, kept: KeptOriginal, tell: Callable[[str], None]) -> None:
    """Hand on a copy of a photograph's original file, and tell where it went or why it could not."""

    def read(file: bytes | None) -> None:
        if file is not None:
            services.pictures.do(lambda: shared(file), lambda said: tell(said))

    def shared(file: bytes) -> str:
        try:
            with tempfile.TemporaryDirectory() as folder:
                copy = Path(folder) / name_of(kept)
                copy.write_bytes(file)
                answer = services.device.share(copy)
        except OSError as error:
            return say("The copy could not be written ({why}). The original is kept.", why=error.strerror or str(error))
        if isinstance(answer, Unavailable):
            return told(answer.reason)
        return say("A copy was handed on: {place}", place=broken(answer))

    services.records.do(lambda: services.register.original(sha), read)
