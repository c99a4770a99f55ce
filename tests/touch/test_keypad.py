"""The keypad's sheet: what stands beside a reading, what is asked before it is recorded, what survives leaving it."""

from collections.abc import Callable
from datetime import timedelta

import pytest
from driver import Driver
from harbour import BURIED, EXAMINER, NOW, sound

from app.register import Register
from app.touch import preferences
from inspection_rules.book import shipped
from inspection_rules.judge import judge
from inspection_rules.words import InspectionKind


@pytest.fixture
def examining(drive: Callable[..., Driver]) -> Driver:
    ui = drive()
    ui.app.person = EXAMINER
    return ui


def to_offset(ui: Driver, tag: str = "RS-01") -> None:
    ui.tap("All items")
    ui.tap(tag)
    ui.tap("Periodic examination")
    ui.good_until("Offset between")
    ui.tap("Type ")


def test_the_state_is_confirmed_before_the_first_reading_of_a_visit(examining: Driver, register: Register) -> None:
    to_offset(examining)
    examining.number("2")
    assert not any(getattr(one, "text", "") == "Record" for one in examining.widgets())
    examining.tap("Hand-taut, dry: as it is now")
    examining.tap("Record")
    reading = register.drafts()[0].inspection.reading("A", "mark_offset")
    assert (reading.tension, reading.moisture) == ("hand-taut", "dry")


def test_the_state_is_asked_once_a_visit(examining: Driver) -> None:
    to_offset(examining)
    examining.tap("Hand-taut, dry: as it is now")
    examining.number("2")
    examining.tap("Record")
    examining.number("2")
    examining.tap("Record")
    examining.tap(examining.station("body", "body"))
    while not examining.shows("Girth at the worst place"):
        examining.good()
    examining.tap("Type ")
    assert not examining.shows(": as it is now")


def test_another_state_than_the_last_is_said_to_be_not_comparable(examining: Driver, register: Register) -> None:
    to_offset(examining)
    assert examining.shows("Last time, 12 Sep 2050: hand-taut, dry")
    examining.tap("It is in another state")
    examining.tap("Hand-taut")
    examining.tap("Wet")
    assert examining.shows("Not comparable with this: as made, bedded in, last, read hand-taut, dry.")
    examining.number("2")
    examining.tap("Record")
    assert register.drafts()[0].inspection.reading("A", "mark_offset").moisture == "wet"


def test_the_state_confirmed_before_an_interruption_is_not_asked_again(examining: Driver) -> None:
    to_offset(examining)
    examining.tap("Hand-taut, dry: as it is now")
    examining.number("2")
    examining.tap("Record")
    for _ in range(3):
        examining.back()
    examining.back()
    examining.tap("Go on with RS-01")
    examining.tap("Type reading 2 of 2")
    assert not examining.shows(": as it is now")


def test_an_improbable_value_is_asked_about_and_typed_again(examining: Driver, register: Register) -> None:
    to_offset(examining)
    examining.say_the_state()
    examining.number("9 0 0")
    examining.tap("Record")
    assert examining.shows("900 mm would be a slip of 900 mm: half of the bury of 1790 mm or more.")
    examining.tap("No: type it again")
    assert examining.page.pad.value.empty
    assert all(draft.inspection.reading("A", "mark_offset") is None for draft in register.drafts())


def test_an_improbable_value_that_is_right_is_recorded_with_its_remark(examining: Driver, register: Register) -> None:
    to_offset(examining)
    examining.say_the_state()
    examining.number("9 0 0")
    examining.tap("Record")
    examining.tap("It is right: keep it")
    reading = register.drafts()[0].inspection.reading("A", "mark_offset")
    assert [value.text for value in reading.values] == ["900 mm"]
    assert reading.note.startswith("900 mm confirmed: 900 mm would be a slip")


def test_an_impossible_pair_in_two_units_is_asked_about(examining: Driver) -> None:
    to_offset(examining)
    examining.say_the_state()
    examining.number("5")
    examining.tap("Record")
    examining.tap("mm | in")
    examining.number("2")
    examining.tap("Record")
    assert examining.shows("5 mm, 2 in (50.8 mm): they lie farther apart")


def test_back_in_the_middle_keeps_what_was_recorded_and_what_was_typed(examining: Driver, register: Register) -> None:
    to_offset(examining)
    examining.say_the_state()
    examining.number("2")
    examining.tap("Record")
    examining.number("3")
    examining.back()
    assert examining.shows("Read: 2 mm")
    assert [value.text for value in register.drafts()[0].inspection.reading("A", "mark_offset").values] == ["2 mm"]
    examining.tap("Type reading 2 of 2")
    assert examining.page.pad.shown == "3"


def test_turning_the_device_keeps_what_was_typed(examining: Driver) -> None:
    to_offset(examining)
    examining.say_the_state()
    examining.number("7")
    examining.resize(892, 412)
    assert examining.page.pad.shown == "7"
    examining.tap("Record")
    assert examining.shows("This visit: 7 mm")


def test_a_phone_call_keeps_what_was_typed(examining: Driver) -> None:
    to_offset(examining)
    examining.number("1 7")
    examining.app.on_pause()
    examining.app.on_resume()
    examining.quiet()
    assert examining.page.pad.shown == "17"


def test_the_last_value_stands_beside_in_the_persons_own_unit(
    folder: object, drive: Callable[..., Driver], register: Register
) -> None:
    preferences.write(register.folder, preferences.Preferences(cautions_seen=preferences.CAUTIONS, length_unit="in"))
    last = sound(BURIED, InspectionKind.PERIODIC, NOW - timedelta(days=3))
    readings = tuple(
        one.model_copy(update={"values": tuple(type(value)("6 mm", value.value * 0 + 6, "mm") for value in one.values)})
        if one.observation == "mark_offset"
        else one
        for one in last.readings
    )
    last = last.model_copy(update={"readings": readings})
    register.log_inspection(last, judge(register.case(last, on=last.on), shipped()))
    ui = drive()
    ui.app.person = EXAMINER
    to_offset(ui)
    assert ui.shows("last 6 mm (1/4 in), 6 mm (1/4 in) · 9 Oct 2050")
    assert ui.page.pad.value.unit == "in"


def test_keys_answer_at_once_after_the_page_has_rested(examining: Driver) -> None:
    to_offset(examining)
    stack = examining.app.stack
    stack.rests, stack._until = True, 0.0
    examining.number("1 2 3 4 5")
    assert examining.page.pad.shown == "12345"
