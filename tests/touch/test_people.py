"""Who is inspecting: chosen, added, asked for a PIN, changed in the list."""

import threading
from collections.abc import Callable
from datetime import datetime, timedelta
from pathlib import Path

import pytest
from driver import Driver
from harbour import EXAMINER, MATE, NOW

from app.register import Register, people
from app.touch.application import ThroatmarkApp
from app.touch.screens.people.acting import Acting
from app.touch.screens.people.again import AgainPage
from app.touch.screens.people.people import PeoplePage
from app.touch.screens.people.pin import GivePinPage
from inspection_rules.words import Competence

PIN = "4711"
RIGGER = EXAMINER.model_copy(update={"name": "dock rigger"})


@pytest.fixture(autouse=True)
def quick(monkeypatch: pytest.MonkeyPatch) -> None:
    """A hash that takes no time; what it must be is tested with the register."""
    monkeypatch.setattr(people, "_hash", lambda pin, salt, *_cost: salt + pin.encode())


@pytest.fixture
def pinned(folder: Path) -> None:
    """The examiner has a PIN and acted last."""
    with Register.open(folder) as register:
        register.set_people([EXAMINER, MATE])
        register.pins.set(EXAMINER, PIN, EXAMINER, NOW)


def give(ui: Driver, pin: str) -> None:
    for digit in pin:
        ui.tap(digit)
    ui.tap("Go on")


def test_without_a_pin_a_tap_chooses_who_acts(ui: Driver, register: Register) -> None:
    register.set_people([MATE, EXAMINER])
    ui.tap("Inspecting")
    ui.tap("yard examiner")
    assert ui.app.person == EXAMINER


@pytest.fixture
def third(pinned: None, folder: Path) -> None:
    """A second competent person, who has no PIN; the mate acted last."""
    with Register.open(folder) as register:
        register.set_people([MATE, EXAMINER, RIGGER])


def test_where_somebody_has_a_pin_a_competent_name_without_one_is_confirmed(
    third: None, drive: Callable[..., Driver]
) -> None:
    ui = drive()
    ui.tap("Inspecting")
    ui.tap("dock rigger")
    assert ui.page.heading == "You act as dock rigger, competent person?"
    assert ui.app.person == MATE
    ui.tap("Yes, I act as dock rigger · competent person")
    assert ui.app.person == RIGGER


def test_who_does_not_confirm_the_name_does_not_act(third: None, drive: Callable[..., Driver]) -> None:
    ui = drive()
    ui.tap("Inspecting")
    ui.tap("dock rigger")
    ui.tap("No, go back")
    assert isinstance(ui.page, PeoplePage)
    assert ui.app.person == MATE


def test_a_user_is_not_asked_to_confirm(third: None, drive: Callable[..., Driver]) -> None:
    ui = drive()
    ui.app.person = RIGGER
    ui.tap("Inspecting")
    ui.tap("mate")
    assert ui.app.person == MATE


def test_where_somebody_has_a_pin_the_names_without_one_are_told(third: None, drive: Callable[..., Driver]) -> None:
    ui = drive()
    ui.tap("Inspecting")
    told = "Anybody can act under these names, since they have no PIN: dock rigger · competent person."
    assert ui.shows(told)
    assert ui.shows("acts as competent person · no PIN")
    ui.tap("Change people and PINs")
    assert ui.shows(told)


def test_without_any_pin_nothing_is_told_of_pins(both: None, ui: Driver) -> None:
    ui.tap("Inspecting")
    assert not ui.shows("no PIN")


def test_at_a_new_start_who_has_a_pin_is_asked_for_it(pinned: None, drive: Callable[..., Driver]) -> None:
    ui = drive()
    assert isinstance(ui.page, PeoplePage)
    assert ui.app.person is None
    ui.tap("yard examiner")
    give(ui, PIN)
    assert ui.app.person == EXAMINER


def test_a_wrong_pin_lets_nobody_act_and_says_how_long_to_wait(pinned: None, drive: Callable[..., Driver]) -> None:
    ui = drive()
    ui.tap("yard examiner")
    give(ui, "0000")
    assert ui.shows("This is not the PIN. Nothing was changed.")
    give(ui, "0000")
    give(ui, "0000")
    assert ui.shows("Next try in 30 seconds.")
    give(ui, PIN)
    assert ui.shows("Next try in 30 seconds.")
    assert ui.app.person is None


def test_a_pin_is_never_shown(pinned: None, drive: Callable[..., Driver]) -> None:
    ui = drive()
    ui.tap("yard examiner")
    for digit in PIN:
        ui.tap(digit)
    assert ui.shows("••••")
    assert not ui.shows(PIN)


def test_who_acts_already_is_not_asked_but_whoever_comes_back_is(pinned: None, drive: Callable[..., Driver]) -> None:
    ui = drive()
    ui.tap("yard examiner")
    give(ui, PIN)
    ui.tap("Inspecting")
    ui.tap("yard examiner")
    assert ui.app.person == EXAMINER
    ui.tap("Inspecting")
    ui.tap("mate")
    ui.tap("Inspecting")
    ui.tap("yard examiner")
    assert isinstance(ui.page, GivePinPage)


def test_after_eight_hours_the_pin_is_asked_for_above_what_was_under_way(pinned: None, register: Register) -> None:
    clock = [NOW]
    with Driver(ThroatmarkApp(register, now=lambda: clock[0])) as ui:
        ui.tap("yard examiner")
        give(ui, PIN)
        ui.tap("All items")
        clock[0] = NOW + timedelta(hours=8)
        ui.app.on_resume()
        ui.quiet()
        assert isinstance(ui.page, AgainPage)
        ui.back()
        assert isinstance(ui.page, AgainPage)
        give(ui, PIN)
        assert ui.page.heading == "Items"
        clock[0] += timedelta(hours=8)
        ui.app.on_resume()
        ui.tap("Somebody else acts")
        ui.tap("mate")
        assert ui.page.heading == "Items"
        assert ui.app.person == MATE


@pytest.mark.parametrize(
    ("by_wall", "by_ticks", "counts"),
    [(0, 0, True), (7.9, 7.9, True), (8, 0, False), (0, 8, False), (-1, 0.1, False)],
)
def test_a_pin_counts_for_eight_hours_by_either_clock(by_wall: float, by_ticks: float, counts: bool) -> None:
    wall: list[datetime] = [NOW]
    ticks = [100.0]
    acting = Acting(lambda: wall[0], lambda: ticks[0])
    acting.gave(EXAMINER)
    wall[0] += timedelta(hours=by_wall)
    ticks[0] += by_ticks * 3600
    assert acting.counts(EXAMINER) is counts


def to_person(ui: Driver, name: str) -> None:
    ui.tap("Inspecting")
    ui.tap("Change people and PINs")
    ui.tap(name)


@pytest.fixture
def both(register: Register) -> None:
    register.set_people([MATE, EXAMINER])


def test_a_pin_is_set_by_typing_it_twice(both: None, ui: Driver, register: Register) -> None:
    to_person(ui, "yard examiner")
    ui.tap("Set a PIN")
    give(ui, "123")
    assert ui.shows("A PIN has 4 to 12 digits.")
    give(ui, PIN)
    give(ui, "4712")
    assert ui.shows("The two were not the same. Choose it again.")
    give(ui, PIN)
    give(ui, PIN)
    assert ui.shows("The PIN is set.")
    assert register.pins.try_pin(EXAMINER, PIN, NOW).right


def test_a_pin_is_changed_and_taken_off_with_the_one_there_is(both: None, ui: Driver, register: Register) -> None:
    register.pins.set(EXAMINER, PIN, EXAMINER, NOW)
    to_person(ui, "yard examiner")
    ui.tap("Change the PIN")
    give(ui, PIN)
    give(ui, "2222")
    give(ui, "2222")
    ui.tap("Take the PIN off")
    give(ui, "2222")
    assert ui.shows("The PIN is off.")
    assert not register.pins.asked_of(EXAMINER)


def test_a_forgotten_pin_is_reset_and_that_stays_to_be_seen(both: None, ui: Driver, register: Register) -> None:
    register.pins.set(EXAMINER, PIN, EXAMINER, NOW)
    ui.tap("Inspecting")
    ui.tap("yard examiner")
    ui.tap("I have forgotten it")
    ui.tap("Reset it without any PIN")
    ui.tap("Reset it")
    ui.tap("Change people and PINs")
    assert ui.shows("yard examiner · competent person: reset without any PIN · by mate · user")


def test_another_competent_person_takes_a_forgotten_pin_off(both: None, ui: Driver, register: Register) -> None:
    other = EXAMINER.model_copy(update={"name": "splicer"})
    register.pins.set(EXAMINER, PIN, EXAMINER, NOW)
    register.pins.set(other, "9999", other, NOW)
    ui.tap("Inspecting")
    ui.tap("yard examiner")
    ui.tap("I have forgotten it")
    ui.tap("splicer · competent person, with their PIN")
    give(ui, "9999")
    assert not register.pins.asked_of(EXAMINER)
    assert isinstance(ui.page, PeoplePage)


def test_a_user_has_no_pin(ui: Driver) -> None:
    to_person(ui, "mate")
    assert not ui.shows("Set a PIN")


def test_a_new_name_rewrites_no_record(both: None, ui: Driver, register: Register) -> None:
    before = [one.inspection.by for one in register.judged("rs-01")]
    to_person(ui, "yard examiner")
    ui.tap(ui.widget(text="yard examiner", hint_text="Name or role"))
    ui.type(" 2")
    ui.tap("Change the name")
    assert {one.name for one in register.people()} == {"mate", "yard examiner 2"}
    assert [one.inspection.by for one in register.judged("rs-01")] == before


def test_who_is_taken_out_of_the_list_stays_on_the_records(both: None, ui: Driver, register: Register) -> None:
    to_person(ui, "yard examiner")
    ui.tap("Take out of the list")
    ui.tap("Take out of the list")
    assert register.people() == [MATE]
    assert {one.inspection.by for one in register.judged("rs-01")} == {EXAMINER}


def test_a_name_that_shares_a_pin_is_not_changed_without_it(ui: Driver, register: Register) -> None:
    qualified = EXAMINER.model_copy(update={"competence": Competence.QUALIFIED_PERSON})
    register.set_people([MATE, qualified])
    register.pins.set(EXAMINER, PIN, EXAMINER, NOW)
    to_person(ui, "yard examiner")
    assert ui.shows("Take the PIN off before the name is changed")
    assert not ui.shows("Change the name")


@pytest.fixture
def leaving(both: None, ui: Driver, register: Register) -> Driver:
    """The mate is about to take the examiner, who has a PIN, out of the list."""
    register.pins.set(EXAMINER, PIN, EXAMINER, NOW)
    to_person(ui, "yard examiner")
    ui.tap("Take out of the list")
    ui.tap("Take out of the list")
    return ui


def test_nobody_takes_a_person_with_a_pin_out_of_the_list_without_it(leaving: Driver, register: Register) -> None:
    assert isinstance(leaving.page, GivePinPage)
    give(leaving, "0000")
    assert leaving.shows("This is not the PIN.")
    assert register.people() == [MATE, EXAMINER]


def test_a_person_taken_out_of_the_list_with_the_pin_stays_noted(leaving: Driver, register: Register) -> None:
    give(leaving, PIN)
    assert register.people() == [MATE]
    assert leaving.shows("yard examiner · competent person: taken out of the list with the PIN · by mate · user")


def test_a_person_taken_out_of_the_list_after_a_reset_stays_noted(leaving: Driver, register: Register) -> None:
    leaving.tap("It is forgotten")
    leaving.tap("Reset it without any PIN")
    leaving.tap("Reset it")
    assert register.people() == [MATE, EXAMINER]
    leaving.tap("Take out of the list")
    leaving.tap("Take out of the list")
    assert register.people() == [MATE]
    assert leaving.shows("taken out of the list after the PIN was off · by mate · user")


def test_each_person_reads_lengths_in_a_unit_of_their_own(both: None, ui: Driver) -> None:
    to_person(ui, "yard examiner")
    ui.tap("Inches first")
    assert ui.app.preferences.length_unit == "mm"
    ui.back()
    ui.back()
    ui.tap("yard examiner")
    assert ui.app.preferences.length_unit == "in"


def test_a_pin_is_checked_away_from_the_windows_thread(
    pinned: None, drive: Callable[..., Driver], monkeypatch: pytest.MonkeyPatch
) -> None:
    threads = []

    def noted(pin: str, salt: bytes, *_cost: int) -> bytes:
        threads.append(threading.get_ident())
        return salt + pin.encode()

    monkeypatch.setattr(people, "_hash", noted)
    ui = drive()
    ui.tap("yard examiner")
    give(ui, PIN)
    assert threads
    assert threading.get_ident() not in threads
