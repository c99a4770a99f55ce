"""What the device remembers for the person."""

from pathlib import Path

import pytest

from app.touch.preferences import FILE, Preferences, read, write


def test_what_was_kept_is_read_again(tmp_path: Path) -> None:
    kept = Preferences(theme="night", text_scale=1.3, length_unit="in", cautions_seen=1)
    write(tmp_path, kept)
    assert read(tmp_path) == kept


@pytest.mark.parametrize("text", ["", "[]", "{", '{"theme": "pink", "text_scale": 9, "cautions_seen": "yes"}', "\x00"])
def test_an_unusable_file_leaves_the_defaults(tmp_path: Path, text: str) -> None:
    (tmp_path / FILE).write_text(text)
    assert read(tmp_path) == Preferences()


def test_no_file_leaves_the_defaults(tmp_path: Path) -> None:
    assert read(tmp_path) == Preferences()
