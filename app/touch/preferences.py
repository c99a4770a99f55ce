"""What this device remembers for the person: theme, text size, units, language, cautions seen.

A small JSON file beside the register; it belongs to the device, so it is no part of the register.
"""

import json
import os
from collections.abc import Mapping
from contextlib import suppress
from dataclasses import asdict, dataclass, field, replace
from pathlib import Path
from typing import Any

from app.language import LANGUAGES

FILE = "touch.json"
# Raised whenever the cautions say something new, so that they are shown again.
CAUTIONS = 1
UNITS = ("mm", "in")


@dataclass(frozen=True)
class Preferences:
    """Theme, text scale (0.85 to 2), unit of length (`mm` or `in`), language and which cautions were seen.

    `units` is the unit of each person who chose one, by their name; the others have the device's. `keep_place` is
    whether the place where a photograph was taken stays with it, `keep_original` whether its untouched file is kept
    as well.
    """

    theme: str = "paper"
    text_scale: float = 1.0
    length_unit: str = "mm"
    cautions_seen: int = 0
    language: str = "en"
    units: Mapping[str, str] = field(default_factory=dict)
    keep_place: bool = False
    keep_original: bool = False

    def changed(self, **what: Any) -> "Preferences":
        """Return a copy with some values changed."""
        return replace(self, **what)

    def of(self, name: str) -> "Preferences":
        """Return them as this person has them: with a unit of length of their own where they chose one."""
        return replace(self, length_unit=self.units.get(name, self.length_unit))


def read(folder: Path) -> Preferences:
    """Return what is kept in `folder`; where the file or a value in it is unusable, the default stands."""
    try:
        kept = json.loads((folder / FILE).read_text(encoding="utf-8"))
    except (OSError, ValueError):
        return Preferences()
    default = Preferences()
    if not isinstance(kept, dict):
        return default
    units = kept.get("units")
    scale, seen = kept.get("text_scale"), kept.get("cautions_seen")
    return Preferences(
        theme=kept["theme"] if kept.get("theme") in ("paper", "night", "glare") else default.theme,
        text_scale=float(scale) if isinstance(scale, int | float) and 0.85 <= scale <= 2 else default.text_scale,
        length_unit=kept["length_unit"] if kept.get("length_unit") in UNITS else default.length_unit,
        cautions_seen=seen if isinstance(seen, int) else default.cautions_seen,
        language=kept["language"] if kept.get("language") in LANGUAGES else default.language,
        units={name: unit for name, unit in units.items() if unit in UNITS} if isinstance(units, dict) else {},
        keep_place=kept.get("keep_place") is True,
        keep_original=kept.get("keep_original") is True,
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
