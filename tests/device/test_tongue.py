"""Which language the device is set to."""

import pytest

from app.device import device_language


@pytest.mark.parametrize(
    ("said", "language"),
    [("de_DE.UTF-8", "de"), ("en_GB.UTF-8", "en"), ("de", "de"), ("German_Germany.1252", "de")],
)
def test_the_language_is_the_one_the_system_says(monkeypatch: pytest.MonkeyPatch, said: str, language: str) -> None:
    monkeypatch.setenv("LC_ALL", said)
    assert device_language() == language


def test_the_strongest_setting_counts(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("LC_ALL", "")
    monkeypatch.setenv("LC_MESSAGES", "de_AT.UTF-8")
    monkeypatch.setenv("LANG", "en_US.UTF-8")
    assert device_language() == "de"


@pytest.mark.parametrize("said", ["C", "C.UTF-8", "POSIX"])
def test_a_system_without_a_language_names_none_of_ours(monkeypatch: pytest.MonkeyPatch, said: str) -> None:
    monkeypatch.setenv("LC_ALL", said)
    assert device_language() not in ("de", "en")
