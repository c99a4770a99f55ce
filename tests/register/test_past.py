"""An item's past: every record there is, and what took out those that no longer count."""

from pathlib import Path

import pytest

from app.register import Correction, ItemRevised, Register
from inspection_rules.standing import Judged

from .making import EXAMINER, MATE, condemn, day, inspection, judgement, on, pendant, release, work


@pytest.fixture
def register(tmp_path: Path) -> Register:
    register = Register.create(tmp_path, "yard")
    register.add_item(pendant(), EXAMINER, day(0))
    register.log_inspection(inspection("first", 1), judgement(1))
    return register


def test_every_record_is_there_oldest_first(register: Register) -> None:
    register.log_work(work("sewn", 3))
    register.log_decision(condemn("gone", 2))
    kinds = [type(one.record).__name__ for one in register.past("pendant")]
    assert kinds == ["ItemRevised", "Judged", "Decision", "WorkDone"]


def test_a_record_tells_its_local_day_and_who(register: Register) -> None:
    entered, looked = register.past("pendant")
    assert (entered.on, entered.by) == (on(0), EXAMINER)
    assert (looked.on, looked.by) == (on(1), EXAMINER)


def test_a_corrected_record_names_its_correction(register: Register) -> None:
    correction = register.correct("first", "the other end was read", EXAMINER, day(2))
    struck = {one.id: one.struck for one in register.past("pendant")}
    assert struck["first"] is not None
    assert (struck["first"].id, struck["first"].reason) == (correction, "the other end was read")
    assert struck[correction] is None


def test_the_correction_is_a_record_of_its_own(register: Register) -> None:
    register.correct("first", "the other end was read", MATE, day(2))
    assert isinstance(register.past("pendant")[-1].record, Correction)


def test_a_record_that_counts_is_not_struck(register: Register) -> None:
    assert all(one.struck is None for one in register.past("pendant"))


def test_a_revision_of_the_item_is_part_of_its_past(register: Register) -> None:
    register.revise_item(pendant(place="quay yard"), MATE, day(5))
    last = register.past("pendant")[-1]
    assert isinstance(last.record, ItemRevised)
    assert last.record.item.place == "quay yard"
    assert not isinstance(last.record, Judged)


def test_what_was_decided_since_a_day_is_read_newest_first(register: Register) -> None:
    register.log_decision(release("early", 2, "first"))
    register.log_decision(release("late", 9, "first"))
    register.log_work(work("w", 10))
    assert [(item, one.id) for item, one in register.decided(on(2))] == [("pendant", "late"), ("pendant", "early")]
    assert [one.id for _, one in register.decided(on(3))] == ["late"]


def test_a_decision_that_was_corrected_is_read_with_its_correction(register: Register) -> None:
    register.log_decision(release("r", 2, "first"))
    register.correct("r", "it was another pendant", EXAMINER, day(3))
    ((_, one),) = register.decided(on(1))
    assert one.struck is not None and one.struck.reason == "it was another pendant"
