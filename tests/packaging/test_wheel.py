"""What a person gets who installs the wheel. Run against one by tests/run."""

import importlib.metadata
import os
import subprocess
import sysconfig
from pathlib import Path

import pytest

import app
import assets
import inspection_rules

OURS = {"app", "inspection_rules", "assets"}
# What only a checkout needs: setting up from source, packaging for Android.
NOT_INSTALLED = {Path("assets/setup"), Path("assets/android")}


@pytest.fixture(scope="module")
def installed() -> importlib.metadata.Distribution:
    distribution = importlib.metadata.distribution("throatmark")
    if '"editable": true' in (distribution.read_text("direct_url.json") or ""):
        pytest.skip("the project is installed editable here, not from its wheel")
    return distribution


def source_files(checkout: Path) -> set[Path]:
    """The files of the three packages as the checkout has them, relative to it."""
    found = {
        path.relative_to(checkout)
        for package in OURS
        for path in (checkout / package).rglob("*")
        if path.is_file() and path.suffix != ".pyc" and path.name != ".DS_Store"
    }
    return {path for path in found if not NOT_INSTALLED & set(path.parents) and path.suffix != ".po"}


@pytest.mark.skipif(os.environ.get("THROATMARK_TESTS_INSTALLED") != "1", reason="only tests/run installs the wheel")
@pytest.mark.parametrize("package", [app, inspection_rules, assets], ids=lambda package: package.__name__)
def test_the_tests_see_the_installed_package_not_the_checkout(package: object) -> None:
    file = Path(str(package.__file__))  # type: ignore[attr-defined]
    assert file.is_relative_to(sysconfig.get_path("purelib"))


def test_the_wheel_has_every_file_of_the_packages_and_no_other(
    checkout: Path, installed: importlib.metadata.Distribution
) -> None:
    """Rules, screens, fonts, pictures and examples are read at run time, so one left out is a crash."""
    files = {Path(str(file)) for file in installed.files or []}
    shipped = {file for file in files if file.parts[0] in OURS and file.suffix != ".pyc"}
    assert shipped == source_files(checkout)


def test_the_wheel_has_nothing_beside_the_packages_but_its_own_record(
    installed: importlib.metadata.Distribution,
) -> None:
    tops = {file.parts[0] for file in installed.files or [] if file.parts[0] != ".."}
    assert tops == OURS | {f"throatmark-{app.__version__}.dist-info"}


def test_no_other_distribution_puts_files_in_our_packages() -> None:
    """`app` and `assets` are plain names: another project that installs one would mix with ours."""
    others = {
        distribution.name
        for distribution in importlib.metadata.distributions()
        if distribution.name != "throatmark"
        for file in distribution.files or []
        if file.parts[0] in OURS or file.parts[0] in {f"{name}.py" for name in OURS}
    }
    assert others == set()


def test_the_version_of_the_distribution_is_the_apps() -> None:
    assert importlib.metadata.version("throatmark") == app.__version__


def test_the_licences_come_along(checkout: Path, installed: importlib.metadata.Distribution) -> None:
    """Ours, and the fonts' beside them, which their licences ask for."""
    files = [Path(str(file)) for file in installed.files or []]
    carried = {Path(*file.parts[2:]) for file in files if file.parts[1:2] == ("licenses",)}
    fonts = {path.relative_to(checkout) for path in (checkout / "assets/fonts").glob("*.txt")}
    assert carried == {Path("LICENSE")} | fonts


def test_the_command_is_installed_and_names_itself() -> None:
    command = Path(sysconfig.get_path("scripts")) / "throatmark"
    done = subprocess.run([command, "--help"], capture_output=True, text=True, check=False)
    assert (done.returncode, done.stderr) == (0, "")
    assert done.stdout.startswith("usage: throatmark")
