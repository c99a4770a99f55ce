"""What can be known of the Android package without building one.

Not shown by any of this: that a package builds, starts or runs on a phone.
"""

import ast
import configparser
import importlib.metadata
import os
import re
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest
from packaging.markers import default_environment
from packaging.requirements import Requirement
from packaging.utils import canonicalize_name

import app

# The versions that python-for-android 2026.5.9 builds (pythonforandroid/recipes/*/__init__.py there),
# for all that has compiled code.
RECIPES = {"kivy": "2.3.1", "pillow": "11.3.0", "pydantic-core": "2.41.4"}
# Compiled where a wheel fits, but also published as pure Python. The recipe for SQLAlchemy takes that
# wheel by itself; for the others pip must be told to build from source, which gives pure Python.
PURE_WHEEL = {"sqlalchemy"}
PURE_FROM_SOURCE = {"fonttools", "charset-normalizer"}
# Built by python-for-android itself, in versions of its own.
OF_ANDROID = {"python3", "pyjnius", "setuptools", "sqlite3"}
# Modules that do not have their distribution's name.
NAMED_OTHERWISE = {"zxingcpp": "zxing-cpp"}
# Modules that exist on a phone only.
ANDROID_MODULES = {"jnius", "android"}
# python-for-android 2026.5.9 builds Python 3.14, which says of a phone that it is "android" where earlier ones
# said "linux"; what either would need must be there.
PHONE = {
    **default_environment(),
    "extra": "",
    "python_version": "3.14",
    "python_full_version": "3.14.2",
    "implementation_name": "cpython",
    "platform_machine": "aarch64",
    "os_name": "posix",
}
PHONES = [
    {**PHONE, "platform_system": "Linux", "sys_platform": "linux"},
    {**PHONE, "platform_system": "Android", "sys_platform": "android"},
]
SHIPPED_DATA = {".py", ".kv", ".toml", ".ttf", ".otf", ".txt", ".json", ".png", ".svg", ".mo"}
NOT_FOR_A_PHONE = {".typed", ".md", ".pyc", ".po"}


@pytest.fixture(scope="module")
def spec(checkout: Path) -> configparser.SectionProxy:
    parser = configparser.ConfigParser(interpolation=None)
    parser.read(checkout / "assets/android/buildozer.spec", encoding="utf-8")
    return parser["app"]


@pytest.fixture(scope="module")
def wanted(spec: configparser.SectionProxy) -> dict[str, Requirement]:
    """The spec's requirements by canonical name."""
    listed = (Requirement(text) for text in re.split(r"[,\s]+", spec["requirements"]) if text)
    return {canonicalize_name(r.name): r for r in listed}


@pytest.fixture(scope="module")
def constraints(checkout: Path) -> dict[str, str]:
    """The pinned version of each distribution, by canonical name."""
    lines = (checkout / "assets/android/constraints-mobile.txt").read_text(encoding="utf-8").splitlines()
    pins = (line.split("==") for line in lines if line and not line.startswith("#"))
    return {canonicalize_name(name): version for name, version in pins}


@pytest.fixture(scope="module")
def staged(checkout: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("android")
    subprocess.run(["sh", checkout / "assets/android/stage", folder], check=True, capture_output=True)
    return folder


def needs(distribution: str) -> Iterator[Requirement]:
    """What a distribution needs on a phone, without extras."""
    for text in importlib.metadata.requires(distribution) or []:
        requirement = Requirement(text)
        if requirement.marker is None or any(requirement.marker.evaluate(phone) for phone in PHONES):
            yield requirement


def needed_by_the_app() -> dict[str, list[tuple[str, Requirement]]]:
    """Each distribution that the app needs, directly or in turn, with who asks for it and how."""
    asked: dict[str, list[tuple[str, Requirement]]] = {}
    queue = ["throatmark"]
    while queue:
        asking = queue.pop()
        for requirement in needs(asking):
            name = canonicalize_name(requirement.name)
            if name not in asked and name not in OF_ANDROID:
                queue.append(name)
            asked.setdefault(name, []).append((asking, requirement))
    return asked


def for_desktops() -> set[str]:
    """The distributions that Throatmark names for an extra, but not for its tests."""
    extras = set(importlib.metadata.metadata("throatmark").get_all("Provides-Extra") or []) - {"test"}
    return {
        canonicalize_name(requirement.name)
        for requirement in map(Requirement, importlib.metadata.requires("throatmark") or [])
        for extra in extras
        if requirement.marker
        and requirement.marker.evaluate({"extra": extra})
        and not requirement.marker.evaluate({"extra": ""})
    }


def imported_modules(folder: Path) -> set[str]:
    """The top-level modules that the Python files below a folder import, anywhere in them."""
    found = set()
    for path in folder.rglob("*.py"):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Import):
                found |= {alias.name.partition(".")[0] for alias in node.names}
            elif isinstance(node, ast.ImportFrom) and node.module and not node.level:
                found.add(node.module.partition(".")[0])
    return found


def is_compiled(distribution: str) -> bool:
    wheel = importlib.metadata.distribution(distribution).read_text("WHEEL") or ""
    tags = [line.partition(": ")[2] for line in wheel.splitlines() if line.startswith("Tag: ")]
    return not tags or not all(tag.endswith("-none-any") for tag in tags)


def test_the_package_asks_for_exactly_the_versions_the_tests_run_on(
    wanted: dict[str, Requirement], constraints: dict[str, str]
) -> None:
    asked = {name: str(r.specifier) for name, r in wanted.items() if name not in OF_ANDROID}
    assert asked == {name: f"=={version}" for name, version in constraints.items()}


def test_everything_needed_in_turn_is_asked_for_by_name(wanted: dict[str, Requirement]) -> None:
    assert set(needed_by_the_app()) - set(wanted) == set()


def test_the_versions_asked_for_suit_everyone_who_needs_them(constraints: dict[str, str]) -> None:
    """Read from what is installed here, so truly told where that is the Android set."""
    if os.environ.get("THROATMARK_TESTS_ANDROID_VERSIONS") != "1":
        pytest.skip("these are not the versions of the Android build")
    unsuited = [
        f"{asking} needs {requirement}, the package has {constraints[name]}"
        for name, asked in needed_by_the_app().items()
        for asking, requirement in asked
        if name not in OF_ANDROID and not requirement.specifier.contains(constraints[name])
    ]
    assert unsuited == []


def test_the_tests_run_on_the_versions_of_the_android_build(constraints: dict[str, str]) -> None:
    if os.environ.get("THROATMARK_TESTS_ANDROID_VERSIONS") != "1":
        pytest.skip("these are not the versions of the Android build")
    assert {name: importlib.metadata.version(name) for name in constraints} == constraints


def test_every_module_the_app_imports_comes_with_the_package(checkout: Path, wanted: dict[str, Requirement]) -> None:
    owners = importlib.metadata.packages_distributions()
    own = {"app", "inspection_rules", "assets"}
    modules = imported_modules(checkout / "app") | imported_modules(checkout / "inspection_rules")
    foreign = modules - set(sys.stdlib_module_names) - own - ANDROID_MODULES
    # What is not installed here goes by its module's name.
    distributions = {
        m: {canonicalize_name(owner) for owner in owners.get(m, [NAMED_OTHERWISE.get(m, m)])} for m in foreign
    }
    homeless = {m for m, names in distributions.items() if not names & (set(wanted) | for_desktops())}
    assert homeless == set()


def test_what_has_compiled_code_is_built_in_just_that_version(constraints: dict[str, str]) -> None:
    compiled = {name for name in constraints if is_compiled(name)} - PURE_WHEEL - PURE_FROM_SOURCE
    assert {name: constraints[name] for name in compiled} == RECIPES


def test_the_stage_says_how_to_get_pure_python_where_pip_would_not(checkout: Path) -> None:
    stage = (checkout / "assets/android/stage").read_text(encoding="utf-8")
    told = re.search(r"PIP_NO_BINARY=(\S+)", stage)
    assert told is not None
    assert set(told[1].split(",")) == PURE_FROM_SOURCE


def test_the_package_takes_every_kind_of_file_the_app_reads(spec: configparser.SectionProxy, staged: Path) -> None:
    taken = {f".{kind}" for kind in spec["source.include_exts"].split(",")}
    suffixes = {
        path.suffix
        for part in ("app", "inspection_rules", "assets")
        for path in (staged / part).rglob("*")
        if path.is_file()
    }
    assert taken == SHIPPED_DATA
    assert suffixes - NOT_FOR_A_PHONE - taken == set()


def test_the_stage_holds_the_app_and_what_starts_it_and_nothing_else(staged: Path) -> None:
    assert {path.name for path in staged.iterdir()} == {
        "LICENSE.txt",
        "app",
        "assets",
        "buildozer.spec",
        "inspection_rules",
        "main.py",
    }
    assert not (staged / "assets/android").exists()
    assert not (staged / "assets/setup").exists()


def test_the_package_carries_the_version_of_the_app(spec: configparser.SectionProxy, staged: Path) -> None:
    file = Path(spec["version.filename"].replace("%(source.dir)s", str(staged)))
    found = re.search(spec["version.regex"], file.read_text(encoding="utf-8"))
    assert found is not None
    assert found[1] == app.__version__


def test_the_staged_modules_import_stripped_as_on_android(staged: Path) -> None:
    """Python-for-android compiles without asserts and docstrings. The screens want a window: not here."""
    modules = sorted(
        ".".join(path.relative_to(staged).with_suffix("").parts).removesuffix(".__init__")
        for part in ("app", "inspection_rules")
        for path in (staged / part).rglob("*.py")
        if "touch" not in path.relative_to(staged).parts and path.stem != "__main__"
    )
    code = f"import importlib, sys; [importlib.import_module(m) for m in {modules!r}]"
    code += f"; assert False, 'stripped'; print(sys.modules['app'].__file__.startswith({str(staged)!r}))"
    done = subprocess.run(
        [sys.executable, "-OO", "-c", code],
        env={**os.environ, "PYTHONPATH": str(staged), "PYTHONDONTWRITEBYTECODE": "1"},
        cwd=staged,
        capture_output=True,
        text=True,
        check=False,
    )
    assert (done.returncode, done.stdout, done.stderr) == (0, "True\n", "")
