"""Calling the command line in a test, and cases and packs to call it with."""

import json
from pathlib import Path
from typing import Any

import pytest

from app.command import main
from app.resources import asset

EXAMPLES = sorted(asset("examples").glob("*.json"))
Json = dict[str, Any]
PACK = """
[pack]
id = "harbour"
version = "1"
title = "Harbour rules"

[[rule]]
id = "harbour-tag"
title = "Tag"
fires = "The tag is not readable."
action = "Ask the safety officer."
source = { document = "Harbour rules", kind = "site", verified = "none" }
condition = { observation = "tag", when = ["unreadable"], outcome = "remove" }
"""


def printed(capsys: pytest.CaptureFixture[str], *arguments: str | Path, code: int = 0) -> str:
    """What a command prints; it must end with this exit code and say nothing on stderr."""
    assert main([str(argument) for argument in arguments]) == code
    out, err = capsys.readouterr()
    assert err == ""
    return out


def complaint(capsys: pytest.CaptureFixture[str], *arguments: str | Path) -> str:
    """The one line a command says on stderr when it ends with exit code 2."""
    assert main([str(argument) for argument in arguments]) == 2
    out, err = capsys.readouterr()
    assert out == ""
    assert err.startswith("throatmark: ")
    assert err.endswith("\n")
    assert err.count("\n") == 1
    return err.rstrip("\n")


def changed(case: Json, *path: str | int, to: Any) -> bytes:
    inner: Any = case
    for step in path[:-1]:
        inner = inner[step]
    inner[path[-1]] = to
    return json.dumps(case).encode()


def measured() -> Json:
    return dict(json.loads(asset("examples/made-to-specification-periodic-serviceable.json").read_bytes()))
