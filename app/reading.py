"""Reading a case from a file: one message that names the place and the remedy, whatever the file holds."""

import json
from pathlib import Path
from typing import Any

from pydantic import ValidationError

from inspection_rules.case import Case

LARGEST_CASE = 16 * 2**20


class CaseFileError(ValueError):
    """A case file cannot be used; the message names the file, the place in it and what to do."""


def read_case(path: Path) -> Case:
    """Return the case in a JSON file.

    Raises:
        CaseFileError: not there, too large, no JSON, or no `Case`.
    """
    try:
        if path.stat().st_size > LARGEST_CASE:
            raise CaseFileError(f"{path}: larger than {LARGEST_CASE // 2**20} MB; a case is one item's inspection")
        data = path.read_bytes()
    except OSError as error:
        raise CaseFileError(f"{path}: cannot be read ({error.strerror}); check the name") from None
    return case_from_json(data, str(path))


def case_from_json(data: bytes, name: str) -> Case:
    """Return the case in JSON bytes; `name` stands in messages.

    Raises:
        CaseFileError: no JSON, or no `Case`.
    """
    try:
        json.loads(data.decode("utf-8-sig"), object_pairs_hook=_once, parse_constant=_no_constant)
    except _RefusedError as error:
        raise CaseFileError(f"{name}: {error}") from None
    except (UnicodeDecodeError, RecursionError, ValueError) as error:
        raise CaseFileError(
            f"{name}: is no JSON text ({_plain(error)}); `throatmark schema` describes a case"
        ) from None
    try:
        return Case.model_validate_json(data.removeprefix(b"\xef\xbb\xbf"), strict=True)
    except ValidationError as error:
        raise CaseFileError(f"{name}: {explain(error)}") from None


def explain(error: ValidationError) -> str:
    """Say the first thing that is wrong: where, what, and how to put it right."""
    problems = error.errors(include_url=False)
    first = problems[0]
    place = shown(".".join(str(step) for step in first["loc"]) or "the case")
    if first["type"] == "missing":
        said = "is missing; add it"
    elif first["type"] == "extra_forbidden":
        said = "is not known here; take it out, or check the spelling"
    else:
        said = shown(first["msg"], 300)
        written = first["input"]
        if isinstance(written, str) and written not in said:
            said += f"; written is '{shown(written)}'"
    more = f" (and {len(problems) - 1} more)" if len(problems) > 1 else ""
    return f"{place}: {said}{more}"


def shown(text: str, longest: int = 80) -> str:
    """Return a text from a file as a terminal may show it: on one line, printable, not endless."""
    plain = "".join(sign if sign.isprintable() else "·" for sign in text[: longest + 1])
    return plain if len(plain) <= longest else plain[:longest] + "…"


class _RefusedError(ValueError):
    pass


def _once(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    found: dict[str, Any] = {}
    for name, value in pairs:
        if name in found:
            raise _RefusedError(f"'{shown(name)}' stands twice in one object; keep one")
        found[name] = value
    return found


def _no_constant(name: str) -> None:
    raise _RefusedError(f"{name} is no number; write quantities as texts with their unit")


def _plain(error: Exception) -> str:
    if isinstance(error, RecursionError):
        return "brackets are nested too deeply"
    if isinstance(error, UnicodeDecodeError):
        return f"byte {error.start} is not UTF-8"
    return str(error)
