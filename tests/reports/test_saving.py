"""A report is written whole or not at all, and a place where it cannot go is refused with the remedy."""

import errno
import os
import subprocess
import sys
from pathlib import Path

import pytest

from app.register import Register
from app.reports import ReportError, retirement_report, saving

from .conftest import ON


def test_a_folder_that_does_not_exist_is_named_with_the_remedy(empty_register: Register, tmp_path: Path) -> None:
    out = tmp_path / "reports" / "retirement.pdf"
    with pytest.raises(ReportError, match=r"reports does not exist\. Make it first"):
        retirement_report(empty_register, out, ON)
    assert not out.parent.exists()


def test_a_folder_in_place_of_a_file_is_refused(empty_register: Register, tmp_path: Path) -> None:
    with pytest.raises(ReportError, match=r"this is a folder\. Name a file in it"):
        retirement_report(empty_register, tmp_path, ON)


@pytest.mark.skipif(os.name != "posix" or os.geteuid() != 0, reason="needs to drop from root to another user")
def test_a_folder_that_cannot_be_written_is_refused() -> None:
    """Root may write anywhere, so another user tries, below a folder that user may enter."""
    script = (
        "import os; from pathlib import Path; from app.reports import ReportError; from app.reports.saving import *\n"
        "os.setgroups([]); os.setgid(65534); os.setuid(65534)\n"
        "try: check_place(Path('/usr/retirement.pdf'))\n"
        "except ReportError as error: print(error)\n"
    )
    done = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, check=True)
    assert "/usr cannot be written. Name a place where you may write" in done.stdout


def test_a_full_disk_leaves_the_earlier_report_and_no_scraps(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    out = tmp_path / "retirement.pdf"
    out.write_bytes(b"the earlier report")

    def full(_: int) -> None:
        raise OSError(errno.ENOSPC, "No space left on device")

    monkeypatch.setattr("app.reports.saving.os.fsync", full)
    with pytest.raises(ReportError, match=r"No space left on device"):
        saving.save(b"the new report", out)
    assert [one.name for one in tmp_path.iterdir()] == ["retirement.pdf"]
    assert out.read_bytes() == b"the earlier report"


def test_an_earlier_report_is_replaced(tmp_path: Path) -> None:
    out = tmp_path / "retirement.pdf"
    out.write_bytes(b"the earlier report")
    saving.save(b"the new report", out)
    assert out.read_bytes() == b"the new report"
