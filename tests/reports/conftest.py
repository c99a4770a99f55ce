"""A harbour's register to report on, and reports as a reader sees them."""

import re
from collections.abc import Callable, Iterator
from datetime import date
from pathlib import Path

import pytest
from pypdf import PdfReader

from app.register import Register
from app.reports import retirement_report

from .harbour import harbour

ON = date(2026, 10, 25)


@pytest.fixture(scope="session")
def harbour_register(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Register]:
    """The harbour's register; no test of a report writes to it."""
    with harbour(tmp_path_factory.mktemp("harbour") / "sandpiper") as register:
        yield register


@pytest.fixture(scope="session")
def harbour_report(harbour_register: Register, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The report of the harbour, written once."""
    out = tmp_path_factory.mktemp("report") / "retirement.pdf"
    return retirement_report(harbour_register, out, ON, place="Small harbour")


@pytest.fixture
def empty_register(tmp_path: Path) -> Iterator[Register]:
    with Register.create(tmp_path / "register", "quay-1") as register:
        register.set_regimes(("US lifting",))
        yield register


@pytest.fixture
def report(empty_register: Register, tmp_path: Path) -> Callable[[], Path]:
    """Write a report of the test's own register."""
    return lambda: retirement_report(empty_register, tmp_path / "retirement.pdf", ON)


def words(path: Path) -> str:
    """All text of a PDF, its line breaks and runs of blanks as one blank each."""
    return " ".join(" ".join(page.extract_text() for page in PdfReader(path).pages).split())


def block(text: str, tag: str) -> str:
    """The text of one item's block: from its DO NOT USE to the next one."""
    return next(part for part in re.split("DO NOT USE (?=remove –|hold –)", text)[1:] if f"{tag} ·" in part)
