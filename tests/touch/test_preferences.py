"""What the device remembers for the person."""

from pathlib import Path

import pytest

from app.touch.preferences import FILE, Preferences, begin, read, write


def test_what_was_kept_is_read_again(tmp_path: Path) -> None:
    kept = Preferences(theme="night", text_scale=1.3, length_unit="in", cautions_seen=1, units={"mate": "mm"})
    kept = kept.changed(keep_place=True, keep_original=True)
    write(tmp_path, kept)
    assert read(tmp_path) == kept


@pytest.mark.parametrize("text", ["", "[]", "{", '{"theme": "pink", "text_scale": 9, "cautions_seen": "yes"}', "\x00"])
def test_an_unusable_file_leaves_the_defaults(tmp_path: Path, text: str) -> None:
    (tmp_path / FILE).write_text(text)
    assert read(tmp_path) == Preferences()


def test_no_file_leaves_the_defaults(tmp_path: Path) -> None:
    assert read(tmp_path) == Preferences()


def test_a_person_has_a_unit_of_their_own_and_the_others_the_devices() -> None:
    kept = Preferences(length_unit="mm", units={"mate": "in"})
    assert (kept.of("mate").length_unit, kept.of("climber 1").length_unit) == ("in", "mm")


@pytest.mark.parametrize("units", ["5", '{"mate": "ell"}', '{"mate": ["mm"]}', "null"])
def test_units_that_are_none_are_left_out(tmp_path: Path, units: str) -> None:
    (tmp_path / FILE).write_text(f'{{"units": {units}}}')
    assert read(tmp_path) == Preferences()


def test_the_first_start_takes_the_device_s_language(tmp_path: Path) -> None:
    begin(tmp_path, "de")
    assert read(tmp_path).language == "de"


def test_a_language_the_app_does_not_speak_leaves_english(tmp_path: Path) -> None:
    begin(tmp_path, "xx")
    assert read(tmp_path) == Preferences()


def test_a_later_start_keeps_what_was_chosen(tmp_path: Path) -> None:
    write(tmp_path, Preferences(language="en"))
    begin(tmp_path, "de")
    assert read(tmp_path).language == "en"


def test_a_folder_that_cannot_be_written_stops_no_start(tmp_path: Path) -> None:
    begin(tmp_path / "not there", "de")
    assert read(tmp_path / "not there") == Preferences()
