"""Where an item is, in the register and its list, in whatever order records come; and what may be released."""

from collections.abc import Callable
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from app.register import Register, RegisterError
from app.register.settings import PROJECTION
from inspection_rules.events import Placed
from inspection_rules.standing import Judged
from inspection_rules.words import Answer, Mend, Where

from .making import EXAMINER, MATE, condemn, day, inspection, judgement, on, release, ruling, work
from .test_projections import COLUMNS, empty_office, rows_of

Sql = Callable[..., list[Any]]


def placed(record_id: str, number: int, where: Where = Where.ON_LOAN, note: str = "to the tree crew") -> Placed:
    return Placed(id=record_id, item="pendant", at=day(number), by=MATE, where=where, note=note)


@pytest.fixture
def lent(register: Register) -> Register:
    """The pendant, examined on day 1, due on day 31, lent on day 2."""
    register.log_inspection(inspection("n1", 1), judgement(1))
    register.log_placed(placed("lent", 2))
    return register


def where(register: Register, number: int) -> Where:
    (row,) = register.find(on=on(number))
    return row.whereabouts


def test_the_list_says_where_it_is_on_each_day(lent: Register) -> None:
    assert [where(lent, number) for number in (1, 2, 9)] == [Where.HERE, Where.ON_LOAN, Where.ON_LOAN]
    assert lent.standing("pendant", on(3)).where_note == "to the tree crew"


def test_it_is_in_the_history_and_survives_a_check(lent: Register) -> None:
    assert lent.history("pendant")[-1] == placed("lent", 2)
    assert lent.verify() == []


def test_an_inspection_brings_it_back_in_the_list(lent: Register) -> None:
    lent.log_inspection(inspection("n2", 5), judgement(5))
    assert where(lent, 5) is Where.HERE


def test_what_is_overdue_elsewhere_is_listed_as_overdue(lent: Register) -> None:
    (row,) = lent.today(on(32)).overdue
    assert (row.id, row.whereabouts) == ("pendant", Where.ON_LOAN)


def test_a_word_that_was_wrong_is_taken_back_by_anybody(lent: Register) -> None:
    lent.correct("lent", "it was the other pendant", MATE, day(3))
    assert where(lent, 3) is Where.HERE


def test_the_place_of_an_item_nobody_knows_is_refused(register: Register) -> None:
    with pytest.raises(RegisterError, match="item ghost is not in this register"):
        register.log_placed(placed("p", 1).model_copy(update={"item": "ghost"}))


def test_lists_of_a_register_without_places_are_made_anew(lent: Register, strangers_sql: Sql, folder: Path) -> None:
    lent.close()
    strangers_sql("UPDATE listed SET whereabouts = 'here'")
    strangers_sql(f"UPDATE setting SET value = '4' WHERE key = '{PROJECTION}'")
    with Register.open(folder) as opened:
        assert where(opened, 3) is Where.ON_LOAN


@settings(max_examples=20, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(data=st.data())
def test_records_come_in_any_order_and_say_the_same(
    lent: Register, strangers_sql: Sql, tmp_path_factory: pytest.TempPathFactory, data: st.DataObject
) -> None:
    found = strangers_sql(f"SELECT {', '.join(COLUMNS)} FROM record")
    records = [dict(zip(COLUMNS, one, strict=True)) for one in found]
    shuffled = data.draw(st.permutations(records))
    cut = data.draw(st.integers(0, len(records)))
    office = empty_office(tmp_path_factory.mktemp("office"))
    try:
        office.take_in(shuffled[:cut])
        office.take_in(shuffled)
        assert office.projected() == rows_of(strangers_sql)
    finally:
        office.engine.dispose()


# --- what may be released and corrected --------------------------------------------------------------------


def test_what_may_be_released_is_told_before_anything_is_signed(register: Register) -> None:
    register.log_inspection(
        inspection("bad", 1), judgement(1, ruling(Answer.HOLD), ruling(Answer.REMOVE, "cut", mends=Mend.NOTHING))
    )
    assert [one.ruling.rule for one in register.may_be_released("pendant", on(2))] == ["tail-slip"]
    register.log_decision(release("r", 2, "bad"))
    assert register.may_be_released("pendant", on(2)) == ()


def test_why_a_correction_is_refused_is_told_before_it_is_made(register: Register) -> None:
    register.log_inspection(inspection("good", 1), judgement(1))
    register.log_work(work("w", 2))
    register.log_decision(condemn("c", 3))
    assert register.may_correct("good", MATE) == ""
    assert register.may_correct("w", MATE) == ""
    assert "ends the item for good" in register.may_correct("c", EXAMINER)


def test_a_user_does_not_take_a_re_splicing_back_and_lift_its_hold(register: Register) -> None:
    register.log_inspection(inspection("n1", 1), judgement(1))
    register.log_work(work("w", 2, Mend.RE_SPLICE))
    assert register.standing("pendant", on(3)).answer is Answer.HOLD
    with pytest.raises(RegisterError, match="Have a competent person correct it"):
        register.correct("w", "not spliced at all", MATE, day(3))
    register.correct("w", "not spliced at all", EXAMINER, day(3))
    assert register.standing("pendant", on(3)).answer is Answer.SERVICEABLE


def test_an_inspection_already_logged_stands_in_for_one_that_was_wrong(register: Register) -> None:
    register.log_inspection(inspection("wrong", 1), judgement(1, ruling(Answer.HOLD)))
    right = Judged(inspection=inspection("right", 2), judgement=judgement(2))
    register.log_inspection(right.inspection, right.judgement)
    assert register.standing("pendant", on(2)).answer is Answer.HOLD
    register.correct("wrong", "the other pendant", EXAMINER, datetime(2050, 3, 4, tzinfo=UTC), right)
    assert register.standing("pendant", on(3)).answer is Answer.SERVICEABLE
    assert register.verify() == []


def test_it_stands_in_even_where_another_device_logged_it(register: Register, folder: Path) -> None:
    register.log_inspection(inspection("wrong", 1), judgement(1, ruling(Answer.HOLD)))
    right = Judged(inspection=inspection("right", 2), judgement=judgement(2))
    register.close()
    with Register.open(folder, "second phone") as second:
        second.log_inspection(right.inspection, right.judgement)
    with Register.open(folder, "third phone") as third:
        third.correct("wrong", "the other pendant", EXAMINER, day(3), right)
        assert third.standing("pendant", on(3)).answer is Answer.SERVICEABLE
        assert third.verify() == []
