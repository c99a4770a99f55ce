"""The README's first command on machines that lack something. A whole set-up needs a network: not here."""

import os
import shutil
import subprocess
from pathlib import Path

import pytest

pytestmark = pytest.mark.skipif(os.name != "posix", reason="the command is for a Unix shell")

TOOLS = ("sh", "dirname", "basename", "head", "find", "cksum", "sort", "cat", "mktemp", "rm", "env", "true")


class Machine:
    """A machine with the plain tools of Unix and the programs that a test puts there, and a fresh checkout."""

    def __init__(self, checkout: Path, folder: Path) -> None:
        self.programs = folder / "bin"
        self.programs.mkdir()
        self.checkout = folder / "checkout"
        for tool in TOOLS:
            found = shutil.which(tool)
            assert found is not None, tool
            (self.programs / tool).symlink_to(found)
        for part in ("app", "inspection_rules", "assets/setup"):
            shutil.copytree(checkout / part, self.checkout / part)
        for file in ("pyproject.toml", "README.md", "LICENSE"):
            shutil.copy(checkout / file, self.checkout / file)
        self.program("id", "echo 1000")

    def program(self, name: str, script: str) -> None:
        path = self.programs / name
        path.write_text(f"#!/bin/sh\n{script}\n", encoding="utf-8")
        path.chmod(0o755)

    def start(self, *arguments: str) -> subprocess.CompletedProcess[str]:
        return subprocess.run(
            ["sh", self.checkout / "assets/setup/start", *arguments],
            env={"PATH": str(self.programs), "HOME": str(self.checkout)},
            capture_output=True,
            text=True,
            check=False,
        )


@pytest.fixture
def machine(checkout: Path, tmp_path: Path) -> Machine:
    return Machine(checkout, tmp_path)


# Answers as a Python that may lack its venv module and the window's libraries: `sh` stands in for it,
# and its `-m venv` makes an environment whose throatmark prints what it was called with.
PYTHON = """
case "$*" in
    *ensurepip*) exit {venv} ;;
    *libGL*) exit {window} ;;
    *version_info*) exit 0 ;;
    "-m venv "*) for last; do :; done; {mkdir} -p "$last/bin"; {cp} "$0" "$last/bin/python" ;;
    "-m pip "*) here=$(dirname "$0"); echo 'echo throatmark "$@"' >"$here/throatmark"; {chmod} +x "$here/throatmark" ;;
esac
"""


def stand_in(*, venv: bool, window: bool) -> str:
    tools = {tool: shutil.which(tool) for tool in ("mkdir", "cp", "chmod")}
    return PYTHON.format(venv=int(not venv), window=int(not window), **tools)


def test_without_python_the_versions_it_needs_are_named_in_one_line(machine: Machine) -> None:
    done = machine.start()
    assert (done.returncode, done.stdout) == (2, "")
    assert done.stderr == (
        "Throatmark needs Python 3.11, 3.12 or 3.13 with its venv module. Install that, then run this again.\n"
    )


def test_on_debian_without_the_right_to_install_the_packages_are_named_in_one_line(machine: Machine) -> None:
    machine.program("apt-get", "echo must not be called; exit 1")
    machine.program("python3", stand_in(venv=False, window=False))
    done = machine.start()
    assert (done.returncode, done.stdout) == (2, "")
    assert done.stderr == (
        "Throatmark needs Python 3.11, 3.12 or 3.13 with its venv module. "
        "As root: apt-get update && apt-get install -y python3-venv libgl1 libegl1 libmtdev1\n"
    )


def test_a_later_python_is_asked_for_by_its_own_package(machine: Machine) -> None:
    machine.program("apt-get", "exit 1")
    machine.program("python3", "exit 1")
    machine.program("python3.12", stand_in(venv=False, window=True))
    assert machine.start().stderr.endswith(" python3.12-venv\n")


def test_a_python_that_can_make_environments_goes_before_one_that_cannot(machine: Machine) -> None:
    machine.program("python3", stand_in(venv=False, window=True))
    machine.program("python3.12", stand_in(venv=True, window=True))
    done = machine.start("--seed", "7")
    assert (done.returncode, done.stdout) == (0, "throatmark demo --seed 7\n")


@pytest.mark.parametrize("who", ["root", "a person whose sudo asks nothing"])
def test_who_may_install_gets_what_is_missing_installed(machine: Machine, who: str) -> None:
    log = machine.checkout / "apt.log"
    if who == "root":
        machine.program("id", "echo 0")
    else:
        machine.program("sudo", f'[ "$1" = -n ] || exit 1; shift; echo "sudo $1" >>{log}; exec "$@"')
    machine.program("ready-python", stand_in(venv=True, window=True))
    machine.program("python3", stand_in(venv=False, window=False))
    move = f"{shutil.which('mv')} {machine.programs}/ready-python {machine.programs}/python3"
    machine.program("apt-get", f'echo "$*" >>{log}; case "$*" in *install*) {move} ;; esac')
    done = machine.start()
    assert (done.returncode, done.stdout) == (0, "throatmark demo\n")
    assert [line for line in log.read_text(encoding="utf-8").splitlines() if not line.startswith("sudo")] == [
        "-q update",
        "-q -y install --no-install-recommends python3-venv libgl1 libegl1 libmtdev1",
    ]
    assert ("sudo env" in log.read_text(encoding="utf-8")) == (who != "root")


def test_a_sudo_that_wants_a_password_is_not_waited_for(machine: Machine) -> None:
    machine.program("apt-get", "exit 1")
    machine.program("sudo", 'echo "sudo: a password is required" >&2; exit 1')
    machine.program("python3", stand_in(venv=False, window=True))
    done = machine.start()
    assert done.returncode == 2
    assert done.stderr.splitlines() == [
        "Throatmark needs Python 3.11, 3.12 or 3.13 with its venv module. "
        "As root: apt-get update && apt-get install -y python3-venv"
    ]


def test_without_the_windows_libraries_it_goes_on_without_a_window_and_says_so(machine: Machine) -> None:
    machine.program("apt-get", "exit 1")
    machine.program("python3", stand_in(venv=True, window=False))
    done = machine.start("--seed", "7")
    assert (done.returncode, done.stdout) == (0, "throatmark demo --no-window --seed 7\n")
    assert done.stderr.splitlines()[1:] == [
        "No window yet, going on without. As root: apt-get update && apt-get install -y libgl1 libegl1 libmtdev1"
    ]


def test_who_wants_no_window_is_not_told_about_one(machine: Machine) -> None:
    machine.program("python3", stand_in(venv=True, window=False))
    done = machine.start("--no-window")
    assert done.stdout == "throatmark demo --no-window\n"
    assert "No window" not in done.stderr


def test_a_second_start_installs_nothing_again(machine: Machine) -> None:
    machine.program("python3", stand_in(venv=True, window=True))
    machine.start()
    (machine.checkout / ".venv/bin/throatmark").write_text("#!/bin/sh\necho still this one\n", encoding="utf-8")
    done = machine.start()
    assert (done.returncode, done.stdout, done.stderr) == (0, "still this one\n", "")


def test_a_changed_source_is_installed_by_the_next_start(machine: Machine) -> None:
    machine.program("python3", stand_in(venv=True, window=True))
    machine.start()
    (machine.checkout / ".venv/bin/throatmark").write_text("#!/bin/sh\necho the old one\n", encoding="utf-8")
    (machine.checkout / "app/added.py").write_text("", encoding="utf-8")
    assert machine.start().stdout == "throatmark demo\n"


def test_a_failed_installation_shows_why_and_is_tried_again(machine: Machine) -> None:
    works = stand_in(venv=True, window=True)
    machine.program("python3", works.replace('"-m pip "*)', '"-m pip "*) echo no network >&2; exit 1;'))
    failed = machine.start()
    assert failed.returncode == 1
    assert "no network" in failed.stderr
    machine.program("python3", works)
    assert machine.start().stdout == "throatmark demo\n"


def test_a_moved_checkout_gets_an_environment_of_its_own(machine: Machine) -> None:
    machine.program("python3", stand_in(venv=True, window=True))
    machine.start()
    machine.checkout = machine.checkout.rename(machine.checkout.with_name("elsewhere"))
    (machine.checkout / ".venv/bin/throatmark").write_text("#!/bin/sh\necho the old one\n", encoding="utf-8")
    assert machine.start().stdout == "throatmark demo\n"
