"""Anyone can recompute the chain of seals."""

import subprocess
from collections.abc import Callable
from typing import Any

from app.register import Register

from .making import inspection, judgement


def test_seals_are_what_sha256sum_says(
    register: Register, strangers_sql: Callable[..., list[Any]], program: Callable[[str], str]
) -> None:
    register.log_inspection(inspection("n1"), judgement())
    sha256sum = program("sha256sum")

    def summed(text: str) -> str:
        return subprocess.run([sha256sum], input=text.encode(), capture_output=True, check=True).stdout[:64].decode()

    previous = "first entry of this device"
    for body, body_hash, seal in strangers_sql("SELECT body, body_hash, seal FROM record ORDER BY seq"):
        assert summed(body) == body_hash
        assert summed(previous + body_hash) == seal
        previous = seal
    assert len(previous) == 64
