"""What this device remembers for the person: theme, text size, units, language, cautions seen.

A small JSON file beside the register; it belongs to the device, so it is no part of the register.
"""

import json
import os
from contextlib import suppress
from dataclasses import asdict, dataclass, replace
from pathlib import Path
from typing import Any

from app.language import LANGUAGES

FILE = "touch.json"
# Raised whenever the cautions say something new, so that they are shown again.
CAUTIONS = 1


@dataclass(frozen=True)
class Preferences:
    """Theme, text scale (0.85 to 2), unit of length (`mm` or `in`), language and which cautions were seen."""

    theme: str = "paper"
    text_scale: float = 1.0
    length_unit: str = "mm"
    cautions_seen: int = 0
    language: str = "en"

    def changed(self, **what: Any) -> "Preferences":
        """Return a copy with some values changed."""
        return replace(self, **what)


def read(folder: Path) -> Preferences:
    """Return what is kept in `folder`; where the file or a value in it is unusable, the default stands."""
    try:
        kept = json.loads((folder / FILE).read_text(encoding="utf-8"))
    except (OSError, ValueError):
        return Preferences()
    default = Preferences()
    if not isinstance(kept, dict):
        return default
    scale, seen = kept.get("text_scale"), kept.get("cautions_seen")
    return Preferences(
        theme=kept["theme"] if kept.get("theme") in ("paper", "night", "glare") else default.theme,
        text_scale=float(scale) if isinstance(scale, int | float) and 0.85 <= scale <= 2 else default.text_scale,
        length_unit=kept["length_unit"] if kept.get("length_unit") in ("mm", "in") else default.length_unit,
        cautions_seen=seen if isinstance(seen, int) else default.cautions_seen,
        language=kept["language"] if kept.get("language") in LANGUAGES else default.language,
    )


def begin(folder: Path, language: str) -> None:
    """Remember at the very first start here which language the device speaks, where the app speaks it too."""
    if language in LANGUAGES and not (folder / FILE).exists():
        with suppress(OSError):  # it can be chosen in the settings all the same
            write(folder, Preferences(language=language))


def write(folder: Path, preferences: Preferences) -> None:
    """Keep them, whole or not at all.

    Raises:
        OSError: the folder cannot be written.
    """
    part = folder / f"{FILE}.part"
    with part.open("w", encoding="utf-8") as out:
        json.dump(asdict(preferences), out)
        out.flush()
        os.fsync(out.fileno())
    part.replace(folder / FILE)
