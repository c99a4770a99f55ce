"""The item that is being entered, kept on the disk with every answer; it belongs to the device, not to the register."""

import json
import os
from dataclasses import asdict, dataclass, field
from pathlib import Path

from inspection_rules.entering import NAMES

FILE = "new-item.json"


@dataclass
class Begun:
    """What was said so far.

    Attributes:
        said: texts by name. skipped: names that are not known. confirmed: what looked wrong and was said to be right.
        offered: what another item has, to be taken with a tap.
    """

    said: dict[str, str] = field(default_factory=dict)
    skipped: list[str] = field(default_factory=list)
    confirmed: list[str] = field(default_factory=list)
    offered: dict[str, str] = field(default_factory=dict)


def read(folder: Path) -> Begun | None:
    """Return what is kept in `folder`; None where there is nothing that can be used."""
    try:
        kept = json.loads((folder / FILE).read_text(encoding="utf-8"))
    except (OSError, ValueError):
        return None
    if not isinstance(kept, dict):
        return None
    said = _texts(kept.get("said"))
    if not said:
        return None
    skipped = [one for one in _list(kept.get("skipped")) if one in NAMES]
    return Begun(said, skipped, _list(kept.get("confirmed")), _texts(kept.get("offered")))


def _texts(kept: object) -> dict[str, str]:
    found = kept if isinstance(kept, dict) else {}
    return {name: text for name, text in found.items() if name in NAMES and isinstance(text, str)}


def _list(kept: object) -> list[str]:
    return [one for one in kept if isinstance(one, str)] if isinstance(kept, list) else []


def keep(folder: Path, begun: Begun) -> None:
    """Keep it, whole or not at all.

    Raises:
        OSError: the folder cannot be written.
    """
    part = folder / f"{FILE}.part"
    with part.open("w", encoding="utf-8") as out:
        json.dump(asdict(begun), out)
        out.flush()
        os.fsync(out.fileno())
    part.replace(folder / FILE)


def forget(folder: Path) -> None:
    """Forget it: it was entered, or thrown away."""
    (folder / FILE).unlink(missing_ok=True)
