"""What every test may use: the checkout, real camera files, programs of the system; how hypothesis runs."""

import getpass
import os
import shutil
import tempfile
from collections.abc import Callable
from pathlib import Path

import pytest
from hypothesis import settings
from hypothesis.configuration import set_hypothesis_home_dir

IN_CI = os.environ.get("CI") == "true"

# Nothing is left in the tree, and what hypothesis learnt about a failure outlives one run.
set_hypothesis_home_dir(Path(tempfile.gettempdir()) / f"throatmark-hypothesis-{getpass.getuser()}")
settings.register_profile("throatmark", deadline=None, derandomize=IN_CI)
settings.load_profile("throatmark")


@pytest.fixture(scope="session")
def checkout() -> Path:
    """The source tree that the tests belong to, which is not where the app is installed."""
    return Path(__file__).parents[1]


@pytest.fixture(scope="session")
def photos_folder() -> Path:
    """A folder of real camera files, named by THROATMARK_PHOTOS."""
    named = os.environ.get("THROATMARK_PHOTOS")
    if not named:
        pytest.skip("THROATMARK_PHOTOS names no folder of real camera files")
    folder = Path(named)
    assert folder.is_dir(), f"THROATMARK_PHOTOS names {folder}, which is not a folder"
    return folder


@pytest.fixture(scope="session")
def program() -> Callable[[str], str]:
    """Return the path of a program of the system; without it the test is skipped, in CI it fails."""

    def find(name: str) -> str:
        path = shutil.which(name)
        if path is None and IN_CI:
            pytest.fail(f"{name} is not installed: tests/run should have done that")
        if path is None:
            pytest.skip(f"{name} is not installed")
        return path

    return find
