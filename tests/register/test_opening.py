"""Opening: our own files and nothing else, whole or not at all, and what cannot be opened stays untouched."""

import os
import sqlite3
import subprocess
import sys
from collections.abc import Callable
from contextlib import closing
from pathlib import Path
from typing import Any

import pytest

from app.register import Register, RegisterError

from .making import EXAMINER, day, inspection, judgement, on, pendant, photo

Sql = Callable[..., list[Any]]


def foreign(path: Path) -> None:
    """A database of some other program."""
    with closing(sqlite3.connect(path)) as connection:
        connection.execute("CREATE TABLE record (id TEXT)")


def empty(path: Path) -> None:
    """A file without a byte."""
    path.touch()


def garbage(path: Path) -> None:
    """A file that is no database."""
    path.write_bytes(bytes(range(256)) * 40)


def header_only(path: Path) -> None:
    """What a database begins with, and no more."""
    path.write_bytes(b"SQLite format 3\x00")


@pytest.mark.parametrize("make", [foreign, empty, garbage, header_only])
@pytest.mark.parametrize("name", ["register.db", "pictures.db"])
def test_another_programs_file_is_refused_untouched(tmp_path: Path, name: str, make: Callable[[Path], None]) -> None:
    Register.create(tmp_path, "deck phone").close()
    (tmp_path / name).unlink()
    make(tmp_path / name)
    before = (tmp_path / name).read_bytes()
    with pytest.raises(RegisterError, match=f"{name}: is no register file. It was not touched"):
        Register.open(tmp_path)
    assert (tmp_path / name).read_bytes() == before
    assert sorted(one.name for one in tmp_path.iterdir()) == ["pictures.db", "register.db"]


def test_a_folder_without_a_register_is_refused_and_left_alone(tmp_path: Path) -> None:
    with pytest.raises(RegisterError, match="there is no register here"):
        Register.open(tmp_path)
    assert list(tmp_path.iterdir()) == []


def test_a_register_is_never_made_over_another(register: Register, folder: Path) -> None:
    with pytest.raises(RegisterError, match="there is a register here already"):
        Register.create(folder, "office")
    assert register.item("pendant") == pendant()


def test_a_register_of_a_newer_program_is_refused_with_a_sentence(
    register: Register, folder: Path, strangers_sql: Sql
) -> None:
    register.close()
    strangers_sql("PRAGMA user_version = 9")
    with pytest.raises(RegisterError, match=r"newer version of this program \(format 9.*Update this program"):
        Register.open(folder)


def test_an_older_programs_lists_are_made_anew_with_progress(
    register: Register, folder: Path, strangers_sql: Sql
) -> None:
    register.add_item(pendant("tail", tag="SP-102"), EXAMINER, day(0))
    register.log_inspection(inspection("n1"), judgement())
    rows = register.find(on=on(1))
    register.close()
    strangers_sql("UPDATE setting SET value = '0' WHERE key = 'projection version'")
    strangers_sql("DELETE FROM listed")
    strangers_sql("DELETE FROM listed_word")
    told: list[tuple[int, int]] = []
    with Register.open(folder, progress=lambda done, all_: told.append((done, all_))) as again:
        assert again.find(on=on(1)) == rows
        assert [one.id for one in again.find("pendant 102")] == ["tail"]
    assert told == [(1, 2), (2, 2)]


def test_a_register_from_before_there_were_readings_to_list_gets_them(
    register: Register, folder: Path, strangers_sql: Sql
) -> None:
    register.log_inspection(inspection("n1", 1), judgement(1))
    register.close()
    for table in ("part", "reading", "finding", "ruling", "open_ruling"):
        strangers_sql(f"DROP TABLE {table}")
    strangers_sql("UPDATE setting SET value = '2' WHERE key = 'projection version'")
    with Register.open(folder) as again:
        assert again.verify() == []
        assert [point.inspection for point in again.series("pendant", "A", "mark_tail")] == ["n1"]


def test_lists_of_another_shape_are_made_anew(register: Register, folder: Path, strangers_sql: Sql) -> None:
    register.close()
    strangers_sql("ALTER TABLE listed DROP COLUMN late_sentence")
    strangers_sql("ALTER TABLE reading ADD COLUMN colour TEXT")
    strangers_sql("UPDATE setting SET value = '99' WHERE key = 'projection version'")
    with Register.open(folder) as again:
        assert again.verify() == []
        again.log_inspection(inspection("n1", 1), judgement(1))
    assert "colour" not in {name for _, name, *_ in strangers_sql("PRAGMA table_info(reading)")}


def test_lists_of_a_newer_program_are_made_anew(register: Register, folder: Path, strangers_sql: Sql) -> None:
    register.close()
    strangers_sql("UPDATE setting SET value = '99' WHERE key = 'projection version'")
    strangers_sql("UPDATE listed SET sentence = 'of another shape'")
    with Register.open(folder) as again:
        assert again.verify() == []


def test_the_device_is_remembered_and_may_change(register: Register, folder: Path) -> None:
    register.close()
    with Register.open(folder, "spare phone"):
        pass
    with Register.open(folder) as again:
        assert again.device == "spare phone"
        again.log_inspection(inspection("n1"), judgement())
        assert again.verify() == []


def test_lost_pictures_do_not_lock_the_records_away(register: Register, folder: Path) -> None:
    sha = register.keep_photo(photo(1))
    register.log_inspection(inspection("n1", pictures=(sha,)), judgement())
    register.close()
    (folder / "pictures.db").unlink()
    with Register.open(folder) as again:
        assert [one.inspection.id for one in again.judged("pendant")] == ["n1"]
        assert [(one.record_id, one.kind) for one in again.verify()] == [("n1", "picture")]


def test_a_damaged_file_is_told_and_kept(register: Register, folder: Path) -> None:
    for number in range(40):
        register.log_inspection(inspection(f"n{number}", number), judgement(number))
    register.close()
    whole = (folder / "register.db").read_bytes()
    # All but the first page is overwritten, as by a failing memory card.
    (folder / "register.db").write_bytes(whole[:4096] + b"\xa5" * (len(whole) - 4096))
    with pytest.raises(RegisterError, match=r"is damaged.*latest backup"):
        Register.open(folder)


def test_a_crash_while_making_one_is_made_good(tmp_path: Path) -> None:
    (tmp_path / "register.db.part").write_bytes(b"half")
    with Register.create(tmp_path, "deck phone") as made:
        assert made.find() == []
    assert not list(tmp_path.glob("*.part"))


@pytest.mark.skipif(os.name != "posix" or os.geteuid() != 0, reason="needs to drop from root to another user")
@pytest.mark.parametrize("what", ["open", "create"])
def test_a_folder_that_cannot_be_written_is_told(folder: Path, tmp_path: Path, what: str) -> None:
    Register.create(folder, "deck phone").close()
    script = (
        "import sys; from pathlib import Path; from app.register import Register, RegisterError\n"
        "import os; os.setgroups([]); os.setgid(65534); os.setuid(65534)\n"
        "folder = Path(sys.argv[1])\n"
        "try: Register.open(folder) if sys.argv[2] == 'open' else Register.create(folder / 'new', 'x')\n"
        "except RegisterError as error: print(error)\n"
    )
    for one in (folder, *folder.parents):
        if tmp_path.parent.parent in one.parents:
            one.chmod(0o755)
    for one in tmp_path.parent, tmp_path.parent.parent:
        one.chmod(0o755)
    done = subprocess.run([sys.executable, "-c", script, str(folder), what], capture_output=True, text=True)
    expected = "cannot be written. Nothing was changed" if what == "open" else "no register can be made here"
    assert expected in done.stdout, done.stdout + done.stderr


def test_both_files_are_known_to_be_ours(register: Register, folder: Path) -> None:
    register.close()
    # SQLite, "Database File Format" 1.3: the application id is a big-endian number at offset 68.
    assert (folder / "register.db").read_bytes()[68:72] == b"THMR"
    assert (folder / "pictures.db").read_bytes()[68:72] == b"THMP"


def test_a_closed_register_is_its_two_files(register: Register, folder: Path) -> None:
    register.log_inspection(inspection("n1"), judgement(), [photo(1)])
    register.close()
    assert sorted(one.name for one in folder.iterdir()) == ["pictures.db", "register.db"]


def test_a_closed_register_is_not_used_by_mistake(register: Register) -> None:
    register.close()
    with pytest.raises(RegisterError, match="this register was closed"):
        register.find()
    with pytest.raises(RegisterError, match="this register was closed"):
        register.has_picture("0" * 64)


def test_commits_reach_the_disk_before_they_return(register: Register) -> None:
    # SQLite, "PRAGMA synchronous": 2 is FULL; in WAL mode only FULL syncs the log at every commit.
    for engine in (register._engine, register._pictures):
        with engine.connect() as connection:
            asked = [connection.exec_driver_sql(f"PRAGMA {name}").scalar() for name in ("journal_mode", "synchronous")]
        assert asked == ["wal", 2]
