"""Inspections made as a person makes them: by tapping and typing in the window."""

from pathlib import Path

from driver import Driver
from harbour import NOW

from app.register import Register
from inspection_rules.words import Answer

def to_item(ui: Driver, tag: str) -> None:
    ui.tap("All items")
    ui.tap(tag)


def test_a_sound_two_eye_sling_takes_at_most_fifteen_taps_from_today(ui: Driver, register: Register) -> None:
    to_item(ui, "RS-01")
    ui.tap("Before use")
    ui.good(11)
    ui.tap("Sign and log")
    assert ui.shows("Logged: RS-01, serviceable.")
    assert ui.taps <= 15
    latest = register.judged("rs-01")[-1]
    assert latest.inspection.by.name == "mate"
    assert latest.judgement.answer is Answer.SERVICEABLE
