"""PINs: what they ask, how they slow down guessing, and what is noted of them."""

from datetime import timedelta
from pathlib import Path

import pytest

from app.register import Register, RegisterError
from app.register.people import PinChange
from inspection_rules.record import Person
from inspection_rules.words import Competence

from .making import EXAMINER, MATE, START

PIN = "4711"


@pytest.fixture(autouse=True)
def quick(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("app.register.people._hash", _quick)


def _quick(pin: str, salt: bytes, *_cost: int) -> bytes:
    return salt + pin.encode()


def wrong(register: Register, times: int, after: int = 0) -> int:
    """Try a wrong PIN some times at one moment and return the wait that follows."""
    at = START + timedelta(seconds=after)
    return [register.pins.try_pin(EXAMINER, "0000", at).wait for _ in range(times)][-1]


@pytest.fixture
def pinned(register: Register) -> Register:
    register.pins.set(EXAMINER, PIN, EXAMINER, START)
    return register


def test_the_right_pin_is_right_and_another_is_not(pinned: Register) -> None:
    assert pinned.pins.try_pin(EXAMINER, PIN, START).right
    assert not pinned.pins.try_pin(EXAMINER, "4712", START).right


def test_the_hash_is_slow_salted_and_holds_no_pin(folder: Path, register: Register, monkeypatch) -> None:
    monkeypatch.undo()
    register.pins.set(EXAMINER, "123456789012", None, START)
    other = Person(name="splicer", competence="competent person")
    register.pins.set(other, "123456789012", None, START)
    one, two = (
        register.pins._reader.connect()
        .exec_driver_sql(
            "SELECT json_extract(value, '$[0].digest'), json_extract(value, '$[1].digest') "
            "FROM setting WHERE key = 'pins'"
        )
        .one()
    )
    assert one != two
    assert "123456789012" not in (one, two)
    assert register.pins.try_pin(other, "123456789012", START).right


@pytest.mark.parametrize("pin", ["", "123", "1234567890123", "12a4", "１２３４", "12 34"])
def test_a_pin_of_another_form_is_refused(register: Register, pin: str) -> None:
    with pytest.raises(RegisterError, match="4 to 12 digits"):
        register.pins.set(EXAMINER, pin, None, START)
    assert not register.pins.asked_of(EXAMINER)


def test_a_user_acts_without_a_pin(register: Register) -> None:
    with pytest.raises(RegisterError, match="Only a competent"):
        register.pins.set(MATE, PIN, None, START)


def test_who_has_a_pin_as_one_is_asked_for_it_as_the_other_too(pinned: Register) -> None:
    assert pinned.pins.asked_of(Person(name=" Yard  EXAMINER", competence="qualified person"))
    assert not pinned.pins.asked_of(Person(name="yard examiner", competence="user"))


def test_the_third_wrong_try_waits_and_each_further_one_twice_as_long_up_to_an_hour(pinned: Register) -> None:
    assert [wrong(pinned, 1) for _ in range(3)] == [0, 0, 30]
    at, waits = 0, []
    wait = 30
    for _ in range(9):
        at += wait
        wait = wrong(pinned, 1, at)
        waits.append(wait)
    assert waits == [60, 120, 240, 480, 960, 1920, 3600, 3600, 3600]


def test_while_it_waits_even_the_right_pin_does_not_count(pinned: Register) -> None:
    wrong(pinned, 3)
    tried = pinned.pins.try_pin(EXAMINER, PIN, START + timedelta(seconds=29))
    assert (tried.right, tried.wait) == (False, 1)
    assert pinned.pins.try_pin(EXAMINER, PIN, START + timedelta(seconds=30)).right


def test_a_restart_does_not_end_the_wait(pinned: Register, folder: Path) -> None:
    wrong(pinned, 3)
    pinned.close()
    with Register.open(folder) as again:
        assert again.pins.wait(EXAMINER, START) == 30


def test_a_try_counts_though_the_program_ends_while_it_is_checked(pinned: Register, monkeypatch) -> None:
    def ends(*_: object) -> bytes:
        raise KeyboardInterrupt

    monkeypatch.setattr("app.register.people._hash", ends)
    for _ in range(3):
        with pytest.raises(KeyboardInterrupt):
            pinned.pins.try_pin(EXAMINER, "0000", START)
    assert pinned.pins.wait(EXAMINER, START) == 30


def test_a_clock_set_back_begins_the_wait_anew_and_no_longer_than_that(pinned: Register) -> None:
    wrong(pinned, 3)
    earlier = START - timedelta(days=2)
    assert pinned.pins.wait(EXAMINER, earlier) == 30
    assert not pinned.pins.try_pin(EXAMINER, PIN, earlier + timedelta(seconds=29)).right
    assert pinned.pins.try_pin(EXAMINER, PIN, earlier + timedelta(seconds=30)).right


def test_a_right_try_forgets_the_wrong_ones(pinned: Register) -> None:
    wrong(pinned, 2)
    pinned.pins.try_pin(EXAMINER, PIN, START)
    assert wrong(pinned, 2) == 0


def test_a_pin_is_changed_only_with_the_one_there_is(pinned: Register) -> None:
    assert not pinned.pins.set(EXAMINER, "2222", EXAMINER, START, before="0000").right
    assert pinned.pins.set(EXAMINER, "2222", EXAMINER, START, before=PIN).right
    assert pinned.pins.try_pin(EXAMINER, "2222", START).right


def test_another_competent_person_takes_a_forgotten_pin_off_with_their_own(pinned: Register) -> None:
    other = Person(name="splicer", competence="competent person")
    pinned.pins.set(other, "9999", other, START)
    assert not pinned.pins.remove(EXAMINER, PIN, START, another=other).right
    assert pinned.pins.remove(EXAMINER, "9999", START, another=other).right
    assert not pinned.pins.asked_of(EXAMINER)


def test_a_reset_without_any_pin_stays_noted(pinned: Register) -> None:
    pinned.pins.reset(EXAMINER, MATE, START + timedelta(days=1))
    assert not pinned.pins.asked_of(EXAMINER)
    assert [(one.what, one.by) for one in pinned.pins.events()] == [
        (PinChange.SET, EXAMINER),
        (PinChange.RESET, MATE),
    ]


def test_who_shares_the_name_of_a_pin_leaves_the_list_only_with_it(pinned: Register) -> None:
    qualified = EXAMINER.model_copy(update={"competence": Competence.QUALIFIED_PERSON})
    pinned.set_people([EXAMINER, qualified])
    assert not pinned.pins.leave(qualified, "0000", MATE, START).right
    assert pinned.people() == [EXAMINER, qualified]


def test_the_pin_of_whoever_stays_in_the_list_is_kept_where_the_same_name_leaves_it(pinned: Register) -> None:
    qualified = EXAMINER.model_copy(update={"competence": Competence.QUALIFIED_PERSON})
    pinned.set_people([EXAMINER, qualified])
    pinned.pins.leave(qualified, PIN, MATE, START)
    assert (pinned.people(), pinned.pins.people()) == ([EXAMINER], [EXAMINER])


def test_who_never_had_a_pin_leaves_the_list_unnoted(register: Register) -> None:
    register.set_people([EXAMINER, MATE])
    register.pins.leave(EXAMINER, "", MATE, START)
    assert (register.people(), register.pins.events()) == ([MATE], [])
