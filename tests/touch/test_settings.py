"""Settings: what this device remembers, packs, own values, the check of the register."""

from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from driver import Driver
from harbour import EXAMINER, MATE

from app import language
from app.register import Register, RegisterError
from app.register.verify import Fault
from app.touch import preferences

SITE = """
[pack]
id = "harbour"
version = "3"
title = "Harbour rules"

[[rule]]
id = "harbour-effective-diameter"
title = "Effective diameter, this harbour"
action = "Do not use it; have a competent person examine the worst place."
source = { document = "Harbour rules", kind = "site", verified = "none" }
mends = "a competent look"
limit = { measure = "effective_diameter_loss", at_most = "8 %", outcome = "hold" }
"""


@pytest.fixture(autouse=True)
def english() -> Iterator[None]:
    yield
    language.use("en")


def test_the_text_grows_and_shrinks_at_once_and_stops_at_its_ends(ui: Driver, folder: Path) -> None:
    ui.tap("Settings")
    for _ in range(8):
        ui.tap("Larger text")
    assert ui.app.theme.text_scale == 2
    for _ in range(9):
        ui.tap("Smaller text")
    assert ui.app.theme.text_scale == 0.85
    assert preferences.read(folder).text_scale == 0.85


def test_the_unit_is_that_of_whoever_acts(ui: Driver, folder: Path) -> None:
    ui.tap("Settings")
    assert ui.shows("Unit of length of mate")
    ui.tap("Inches first")
    assert preferences.read(folder).units == {MATE.name: "in"}
    assert ui.app.preferences.length_unit == "in"


def test_another_language_is_spoken_at_once(ui: Driver) -> None:
    ui.tap("Settings")
    ui.tap("Deutsch")
    assert ui.page.heading == language.say("Settings")
    assert language.spoken() == "de"


def to_packs(ui: Driver, folder: Path, text: str) -> None:
    """As the examiner, add a pack of this text."""
    ui.app.person = EXAMINER
    (folder / "offered").mkdir()
    (folder / "offered" / "site.toml").write_text(text, encoding="utf-8")
    ui.app.pictures_folder = folder / "offered"
    ui.tap("Settings")
    ui.tap("Packs of your own")
    ui.tap("Add a pack from a file")
    ui.tap("site.toml")
    ui.tap("Check and add 1 pack")
    ui.quiet()


def test_a_pack_is_added_shown_and_taken_away(ui: Driver, folder: Path, register: Register) -> None:
    to_packs(ui, folder, SITE)
    assert ui.shows("Harbour rules is added and counts.")
    assert ui.shows("harbour, edition 3 · 1 rule · always counts")
    ui.tap("Harbour rules")
    assert ui.shows("Effective diameter, this harbour")
    ui.tap("Take this pack away")
    ui.tap("Take it away")
    assert ui.shows("There are none.")
    assert not (folder / "packs" / "site.toml").exists()


def test_a_pack_that_loosens_is_refused_with_the_reason(ui: Driver, folder: Path) -> None:
    to_packs(ui, folder, SITE.replace("8 %", "80 %"))
    assert ui.shows("it would loosen")
    assert ui.shows("There are none.")


def test_a_broken_pack_says_so_in_words(ui: Driver, folder: Path) -> None:
    (folder / "packs").mkdir()
    (folder / "packs" / "harbour.toml").write_text("no pack", encoding="utf-8")
    ui.tap("Settings")
    ui.tap("Packs of your own")
    assert ui.shows("It cannot be used. Nothing is judged until it is put right or taken away.")


def test_a_user_reads_the_packs_and_is_told_who_changes_them(ui: Driver, folder: Path) -> None:
    to_packs(ui, folder, SITE)
    ui.app.person = MATE
    ui.back()
    ui.tap("Packs of your own")
    assert ui.shows("Only a competent or a qualified person changes this; you act as mate · user.")
    with pytest.raises(LookupError):
        ui.button("Add a pack from a file")
    ui.tap("Harbour rules")
    with pytest.raises(LookupError):
        ui.button("Take this pack away")


def test_a_user_sets_no_own_values(ui: Driver) -> None:
    ui.tap("Settings")
    ui.tap("Your organisation's own values")
    assert ui.shows("Only a competent or a qualified person changes this; you act as mate · user.")
    with pytest.raises(LookupError):
        ui.button("Set a value")


def test_the_organisations_own_slip_is_set_and_cleared(ui: Driver, register: Register) -> None:
    ui.app.person = EXAMINER
    ui.tap("Settings")
    ui.tap("Your organisation's own values")
    ui.tap("Set a value")
    ui.tap("0")
    ui.tap("Take this length")
    assert ui.shows("A length of nothing would stop every splice.")
    ui.number("erase 1 2")
    ui.tap("Take this length")
    assert str(register.site().slip_action) == "12 mm"
    ui.tap("Set none")
    assert register.site().slip_action is None


def to_about(ui: Driver) -> None:
    ui.tap("Settings")
    ui.tap("About, and checking the register")


def test_about_shows_cautions_and_the_ends_of_the_chains(ui: Driver, register: Register) -> None:
    to_about(ui)
    assert ui.shows("This tool helps a trained person.")
    (end,) = register.chain_ends()
    assert ui.shows(f"test device: {end.entries} records, seal {end.seal[:8]} ")


def test_a_sound_register_is_said_to_be_as_it_was_written(ui: Driver) -> None:
    to_about(ui)
    ui.tap("Check the register")
    assert ui.shows("Every record, seal, picture and list is as it was written.")


def test_faults_are_told_with_what_to_do(
    drive: Callable[..., Driver], register: Register, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(register, "verify", lambda _progress: [Fault("x", "seal", "record x: the seal is another one")])
    ui = drive()
    to_about(ui)
    ui.tap("Check the register")
    assert ui.shows("1 fault found.")
    assert ui.shows("record x: the seal is another one")
    assert ui.shows("Leave everything as it is")


def test_a_check_is_stopped_by_a_tap(
    drive: Callable[..., Driver], register: Register, monkeypatch: pytest.MonkeyPatch
) -> None:
    def endless(progress: Callable[[int, int], None]) -> list[Fault]:
        for done in range(10**9):
            progress(done, 10**9)
        raise RegisterError("nobody stopped it")

    monkeypatch.setattr(register, "verify", endless)
    ui = drive()
    to_about(ui)
    check = ui.button("Check the register")
    check.dispatch("on_release")
    ui.until(lambda: ui.shows("Checking: 0 %"))
    ui.tap("Stop checking")
    assert ui.shows("The check was stopped. It says nothing about the register.")
