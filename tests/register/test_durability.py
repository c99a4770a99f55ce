"""What the register has confirmed survives kills, full disks and other writers."""

import contextlib
import os
import random
import signal
import subprocess
import sys
import time
from collections.abc import Iterator
from pathlib import Path

import pytest

from app.register import Register, RegisterError
from app.register import engine as engines

from .making import MATE, START, inspection, judgement, pendant, photo

WRITERS = Path(__file__).with_name("writers.py")
KILLS = 16


@pytest.fixture
def items(register: Register) -> Register:
    """A register with the items the writers inspect."""
    for number in range(7):
        register.add_item(pendant(f"item {number}", tag=f"SP-{number}"), MATE, START)
    return register


def confirmed(register: Register) -> set[str]:
    """The ids of all inspections in the register."""
    return {one.inspection.id for row in register.find() for one in register.judged(row.id)}


@pytest.mark.skipif(os.name != "posix", reason="needs fork and SIGKILL")
def test_nothing_confirmed_is_lost_to_a_kill(items: Register, folder: Path) -> None:
    moments = random.Random(20500301)
    logged: set[str] = set()
    begun: set[str] = set()
    patience = 1.0
    with subprocess.Popen(
        [sys.executable, str(WRITERS)], stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True, bufsize=1
    ) as writers:
        if writers.stdin is None or writers.stdout is None:
            pytest.fail("no pipes")
        for kill in range(KILLS):
            writers.stdin.write(f"{folder} {kill}\n")
            pid = int(writers.stdout.readline().removeprefix("pid "))
            time.sleep(moments.uniform(0.02, 0.25) * patience)
            os.kill(pid, signal.SIGKILL)
            begun_now = ""
            for line in iter(writers.stdout.readline, "gone\n"):
                what, record_id = line.split()
                if what == "logged":
                    logged.add(record_id)
                else:
                    begun_now = record_id
            begun |= {begun_now} - {""}
            assert logged <= confirmed(items)
            kept = {one.inspection.id for one in items.drafts()}
            assert begun <= kept | confirmed(items)
            if len(logged) <= kill:
                patience *= 1.3  # a busy machine writes later
        writers.stdin.close()
    assert len(logged) >= KILLS, "the writers were killed before they wrote"
    assert items.verify() == []


def test_two_processes_write_at_once(items: Register, folder: Path) -> None:
    script = f"import sys; sys.path.insert(0, {str(WRITERS.parent)!r}); import writers, pathlib\n"
    script += "writers.write(pathlib.Path(sys.argv[1]), sys.argv[2], 25)"
    both = [subprocess.Popen([sys.executable, "-c", script, str(folder), seed]) for seed in ("x", "y")]
    assert [one.wait(60) for one in both] == [0, 0]
    assert confirmed(items) == {f"{seed}-{number}" for seed in "xy" for number in range(25)}
    assert items.verify() == []


def test_the_same_device_in_two_processes_keeps_one_chain(items: Register, folder: Path) -> None:
    with Register.open(folder) as other:
        for number in range(6):
            (items, other)[number % 2].log_inspection(inspection(f"n{number}", number), judgement(number))
        assert other.device == items.device
        assert other.verify() == []
    assert len(items.judged("pendant")) == 6


def fill(register: Register) -> tuple[list[str], str]:
    """Log until the register refuses; return what it confirmed and what it said."""
    done: list[str] = []
    for number in range(10_000):
        photos = [photo(number * 10 + one, 100_000) for one in range(4)]
        named = tuple(one.sha256 for one in photos)
        try:
            done.append(
                register.log_inspection(inspection(f"n{number}", number, pictures=named), judgement(number), photos)
            )
        except RegisterError as error:
            return done, str(error)
    pytest.fail("the disk never filled")


@pytest.fixture
def small_disk(tmp_path: Path) -> Iterator[Path]:
    """A disk of four megabytes."""
    disk = tmp_path / "disk"
    disk.mkdir()
    if os.name != "posix" or os.geteuid() != 0:
        pytest.skip("only root may mount a small disk")
    mounted = subprocess.run(["mount", "-t", "tmpfs", "-o", "size=4m", "tmpfs", str(disk)], capture_output=True)
    if mounted.returncode:
        pytest.skip("a small disk cannot be mounted here")
    yield disk
    subprocess.run(["umount", str(disk)], check=True)


def test_a_full_disk_keeps_what_was_confirmed_and_nothing_half(small_disk: Path) -> None:
    ballast = small_disk / "ballast"
    ballast.write_bytes(bytes(1_000_000))
    with Register.create(small_disk / "register", "deck phone") as register:
        register.add_item(pendant(), MATE, START)
        done, said = fill(register)
        assert "the disk is full. Nothing of this entry was kept, all earlier ones are" in said
        assert done and confirmed(register) == set(done)
        assert register.verify() == []
    ballast.unlink()
    with Register.open(small_disk / "register") as again:
        again.log_inspection(inspection("after", 300), judgement(300))
        assert confirmed(again) == {*done, "after"}
        assert again.verify() == []


def test_opening_on_a_full_disk_says_so(small_disk: Path) -> None:
    Register.create(small_disk / "register", "deck phone").close()
    with (small_disk / "ballast").open("wb", buffering=0) as ballast, contextlib.suppress(OSError):
        while True:
            ballast.write(bytes(4096))
    with pytest.raises(RegisterError, match=r"the disk is full.*Free some space"):
        Register.open(small_disk / "register")


def test_a_full_record_file_leaves_no_record_half(register: Register) -> None:
    with register._engine.connect() as connection:
        pages = connection.exec_driver_sql("PRAGMA page_count").scalar_one()
        connection.exec_driver_sql(f"PRAGMA max_page_count={pages + 12}")
    done, said = fill(register)
    assert "the disk is full. Nothing of this entry was kept, all earlier ones are" in said
    assert done and confirmed(register) == set(done)
    assert register.verify() == []


def test_a_locked_register_is_told(register: Register, folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(engines, "BUSY_SECONDS", 0.1)
    with Register.open(folder) as second, register._engine.begin():
        with pytest.raises(RegisterError, match=r"another program keeps the register locked.*try again"):
            second.log_inspection(inspection("n1"), judgement())
        assert second.find()[0].id == "pendant"
    assert register.history("pendant") == []


def test_pictures_without_a_record_do_no_harm(register: Register) -> None:
    sha = register.keep_photo(photo(1))
    assert register.verify() == []
    register.log_inspection(inspection("n1", pictures=(sha,)), judgement(), [photo(1)])
    assert register.picture(sha) == photo(1).jpeg
