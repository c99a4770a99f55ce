"""A tour of every page, as a person comes to it."""

from collections.abc import Iterator
from pathlib import Path

from driver import Driver
from harbour import EXAMINER

from app.register import RegisterError


def tour(ui: Driver, pictures: Path) -> Iterator[str]:
    """Go to each page in turn and yield its name."""
    ui.app.pictures_folder = pictures
    yield "today"
    ui.tap("All items")
    yield "items"
    ui.tap("Filter")
    ui.tap("Do not use")
    yield "filter"
    ui.tap("Show these")
    yield "items of a filter"
    ui.tap("Only: ")
    ui.tap("RS-01")
    yield "item"
    ui.tap("Another inspection")
    yield "other inspections"
    ui.back()
    ui.tap("Before use")
    yield "question"
    ui.good_until("Is every lock stitch whole")
    ui.tap("A stitch leans")
    yield "condition seen"
    ui.tap("Go on along the rope")
    ui.tap("Could not examine")
    yield "why not examined"
    ui.tap("No light to see it by")
    ui.tap("Note")
    yield "note"
    ui.back()
    ui.tap("Picture")
    yield "photographs"
    ui.tap("Choose picture files")
    ui.tap("stitch.jpg")
    yield "choose pictures"
    ui.tap("Take in 1 picture")
    yield "photograph kept"
    ui.back()
    ui.tap("Stop here and see the answer")
    yield "answer hold"
    ui.tap("Sign and log")
    yield "secured"
    ui.tap("DO NOT USE tag hung")
    yield "today with a hold"
    ui.tap("RS-01")
    yield "item on hold"
    ui.tap("Periodic examination")
    yield "who may examine it"
    ui.good_until("Offset between")
    yield "reading"
    ui.tap("Why")
    yield "why"
    ui.back()
    ui.tap("Type ")
    yield "keypad that asks for the state"
    ui.say_the_state()
    yield "keypad"
    ui.tap("mm | in")
    ui.number("1 1/4 1/8")
    yield "keypad in inches"
    ui.tap("erase")
    ui.number("9 0")
    ui.tap("Record")
    yield "a value that looks wrong"
    ui.tap("No: type it again")
    ui.tap("steel rule")
    yield "how it is read"
    ui.back()
    ui.back()
    ui.tap("More to look at here")
    yield "more to look at"
    ui.back()
    ui.tap(ui.station("body", "body"))
    ui.tap("More to look at here")
    ui.tap("Load-bearing strands cut")
    ui.tap("Type the first one")
    ui.number("1")
    ui.tap("Record")
    yield "place of a damage"
    ui.number("3")
    ui.tap("Take this place")
    yield "keypad for damages"
    ui.back()
    ui.back()
    ui.back()
    yield "today with an interruption"
    ui.tap("Settings")
    yield "settings"
    ui.tap("Choose which regimes count")
    yield "regimes, to read"
    ui.back()
    ui.app.person = EXAMINER
    ui.tap("Packs of your own")
    yield "packs"
    ui.back()
    ui.tap("Your organisation's own values")
    yield "own values"
    ui.tap("Set a value")
    yield "length"
    ui.back()
    ui.back()
    ui.tap("About, and checking the register")
    ui.tap("Check the register")
    yield "about"
    ui.back()
    ui.tap("Choose which regimes count")
    yield "regimes"
    ui.back()
    ui.tap("Every rule and its source")
    yield "rules"
    ui.tap("US lifting")
    yield "rules of a regime"
    ui.search("strand tail beyond")
    ui.tap("Strand tail beyond the last full tuck")
    yield "rule"
    ui.back()
    ui.back()
    ui.tap("Each criterion with its rules")
    yield "criteria"
    ui.search("strand tails")
    ui.tap("Strand tails of a laid sling")
    yield "criterion"
    ui.back()
    ui.back()
    ui.back()
    ui.app.failed(RegisterError("/deck: the disk is full. Free some space on the device and enter it again."))
    ui.quiet()
    yield "error"
    ui.tap("Go back")
    ui.back()
    ui.tap("Inspecting")
    yield "people"
    ui.tap("Change people and PINs")
    yield "people and PINs"
    ui.tap("mate")
    yield "person"
    ui.back()
    ui.back()
    ui.back()
    ui.tap("All items")
    ui.tap("RS-02")
    ui.tap("Before use")
    ui.good_to_the_end()
    yield "answer serviceable"
    ui.tap("Why these limits")
    yield "why these limits"
    ui.back()
    ui.tap("Sign and log")
    yield "today after logging"
