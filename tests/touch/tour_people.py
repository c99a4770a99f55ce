"""A tour of who may act, of what lies with the register, and of what is asked before the first page."""

from collections.abc import Iterator
from datetime import timedelta
from pathlib import Path

from driver import Driver
from harbour import EXAMINER, MATE, NOW

from app.register import Register

PIN = "4711"


def with_a_pin(register: Register) -> None:
    """The examiner has a PIN; the mate acted last."""
    register.pins.set(EXAMINER, PIN, EXAMINER, NOW)


def give(ui: Driver) -> None:
    """Type the examiner's PIN."""
    for digit in PIN:
        ui.tap(digit)
    ui.tap("Go on")


def people(ui: Driver, pictures: Path) -> Iterator[str]:
    """Go to each page in turn and yield its name."""
    ui.app.pictures_folder = pictures
    ui.app.prefer(cautions_seen=0)
    ui.app._take_people([MATE], False)
    ui.quiet()
    yield "before you begin"
    ui.tap("I have read this")
    ui.tap("All places")
    yield "which place"
    ui.back()
    ui.tap("Inspecting")
    ui.tap("yard examiner")
    yield "give the PIN"
    ui.tap("I have forgotten it")
    yield "forgotten PIN"
    ui.tap("Reset it without any PIN")
    yield "reset the PIN"
    ui.tap("Leave it as it is")
    ui.back()
    ui.tap("yard examiner")
    give(ui)
    ui.tap("Inspecting")
    ui.tap("Change people and PINs")
    ui.tap("mate")
    ui.back()
    ui.tap("yard examiner")
    ui.tap("Change the PIN")
    give(ui)
    yield "new PIN"
    ui.back()
    ui.back()
    ui.back()
    ui.back()
    ui.app.acting._now = lambda: NOW + timedelta(hours=9)
    ui.app._ask_again()
    ui.quiet()
    yield "give the PIN again"
    give(ui)
    ui.tap("Settings")
    ui.tap("Packs of your own")
    ui.tap("Add a pack from a file")
    yield "choose a pack"
    ui.tap("harbour.toml")
    ui.tap("Check and add 1 pack")
    yield "packs with one of your own"
    ui.tap("Harbour rules")
    yield "pack"
    ui.tap("Take this pack away")
    yield "take a pack away"
    ui.tap("Leave it")
