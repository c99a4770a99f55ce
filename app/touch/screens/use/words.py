"""What was told of a use, and what was not, as the pages say it."""

from collections.abc import Iterable

from app.language import mark, say, told
from app.use_words import NAMES, words_of
from inspection_rules.case import Use

NOT_TOLD = mark("Not told")
SILENT = mark("What is not told is not judged. It is never taken to be in order.")


def value_of(use: Use | None, field: str) -> str:
    """Say what was told under a name; that nothing was, otherwise."""
    words = words_of(use, field) if use is not None else ()
    return ", ".join(told(one) for one in words) or say(NOT_TOLD)


def told_of(use: Use | None) -> list[str]:
    """Say each thing that was told."""
    fields = use.told if use is not None else ()
    return [say("{name}: {value}", name=say(NAMES[one]), value=value_of(use, one)) for one in fields]


def told_in_a_line(use: Use | None) -> str:
    """Say what was told of a use in one line; empty where nothing was."""
    said = told_of(use)
    return say("The use told: {what}.", what="; ".join(said)) if said else ""


def not_told_of(use: Use | None, fields: Iterable[str]) -> str:
    """Name what could have been told of these fields and was not; empty where all was."""
    left = [say(NAMES[one]) for one in fields if use is None or one not in use.told]
    return say("Not told, so not judged: {what}.", what=", ".join(left)) if left else ""
