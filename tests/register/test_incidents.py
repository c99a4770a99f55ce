"""Incidents in the register: they hold what shared the load, known here or not, in whatever order records come."""

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from app.register import Register, RegisterError
from inspection_rules.words import Answer, InspectionKind, State

from .making import (
    EXAMINER,
    MATE,
    START,
    condemn,
    day,
    disposal,
    incident,
    inspection,
    judgement,
    on,
    pendant,
    photo,
)
from .test_projections import COLUMNS, empty_office, rows_of

Sql = Callable[..., list[Any]]


def bridle(register: Register) -> None:
    """The tow's bridle, of another place, sound on day 1."""
    register.add_item(pendant("bridle", tag="Q-7", place="quay yard"), MATE, START)
    register.log_inspection(inspection("b1", 1, item="bridle"), judgement(1))


def after(record_id: str, number: int, item: str = "pendant", **changes: Any) -> Any:
    """An examination after the incident, by a competent person."""
    return inspection(record_id, number, item=item, kind=InspectionKind.AFTER_INCIDENT, **changes)


@pytest.fixture
def shaken(register: Register) -> Register:
    """The pendant and the bridle, sound on day 1, in one incident on day 5, with a shackle nobody knows here."""
    register.log_inspection(inspection("n1", 1), judgement(1))
    bridle(register)
    register.log_incident(incident("shock", 5, "bridle", "shackle"))
    return register


@pytest.mark.parametrize("item", ["pendant", "bridle"])
def test_everything_that_shared_the_load_is_held(shaken: Register, item: str) -> None:
    stands = shaken.standing(item, on(6))
    assert (stands.answer, stands.open[0].inspection) == (Answer.HOLD, "shock")
    assert {row.id: row.answer for row in shaken.find(on=on(6))}[item] is Answer.HOLD
    assert item in [row.item for row in shaken.open_rulings()]
    assert shaken.history(item)[-1] == incident("shock", 5, "bridle", "shackle")
    assert shaken.verify() == []


def test_each_comes_back_by_its_own_examination(shaken: Register) -> None:
    shaken.log_inspection(after("b2", 6, "bridle"), judgement(6))
    assert shaken.standing("bridle", on(6)).answer is Answer.SERVICEABLE
    assert shaken.standing("pendant", on(6)).answer is Answer.HOLD
    assert [row.item for row in shaken.open_rulings()] == ["pendant"]
    assert shaken.verify() == []


def test_an_item_that_comes_later_is_held_from_the_start(shaken: Register) -> None:
    assert [row.id for row in shaken.find(on=on(6))] == ["bridle", "pendant"]
    shaken.add_item(pendant("shackle", tag="Q-8"), MATE, day(7))
    shaken.log_inspection(inspection("s1", 7, item="shackle"), judgement(7))
    (row,) = [one for one in shaken.find(on=on(7)) if one.id == "shackle"]
    assert row.answer is Answer.HOLD
    assert row.sentence == "It shared the load of an incident on 2050-03-06: the tow parted and came back."
    assert shaken.verify() == []


def test_an_item_nobody_knows_here_is_not_to_be_used(shaken: Register) -> None:
    assert shaken.standing("shackle", on(6)).answer is Answer.HOLD


def test_an_incident_of_an_item_nobody_knows_is_refused(register: Register) -> None:
    with pytest.raises(RegisterError, match="item ghost is not in this register"):
        register.log_incident(incident("shock", 5, "pendant", item="ghost"))
    assert register.history("pendant") == []


def test_the_same_incident_once_more_changes_nothing(shaken: Register) -> None:
    shaken.log_incident(incident("shock", 5, "bridle", "shackle"))
    assert len(shaken.history("bridle")) == 2


@pytest.mark.parametrize("item", ["pendant", "bridle"])
def test_evidence_is_not_disposed_of_before_it_was_examined(shaken: Register, item: str) -> None:
    picture = photo(1)
    shaken.log_decision(condemn("c", 6, item=item))
    gone = disposal("d", 8, picture.sha256).model_copy(update={"item": item})
    with pytest.raises(RegisterError, match=rf"item {item} is evidence of the incident of 2050-03-06, shock\. Nothing"):
        shaken.log_disposal(gone, [picture])
    assert shaken.standing(item, on(8)).state is State.CONDEMNED
    shaken.log_inspection(after("examined", 7, item), judgement(7))
    shaken.log_disposal(gone, [picture])
    assert shaken.standing(item, on(8)).state is State.DISPOSED


def test_evidence_is_not_disposed_of_by_a_date_before_the_incident(shaken: Register) -> None:
    picture = photo(1)
    with pytest.raises(RegisterError, match="is evidence"):
        shaken.log_disposal(disposal("d", 2, picture.sha256), [picture])


def test_no_correction_takes_an_incident_back(shaken: Register) -> None:
    with pytest.raises(RegisterError, match="records an incident, and no correction lifts that"):
        shaken.correct("shock", "it was a small one", EXAMINER, day(6))
    assert shaken.standing("bridle", on(6)).answer is Answer.HOLD


@pytest.mark.parametrize(
    "statement", ["DELETE FROM load_path WHERE item = 'bridle'", "INSERT INTO load_path VALUES ('ghost', 'shock')"]
)
def test_what_an_incident_holds_is_checked_and_mended(shaken: Register, strangers_sql: Sql, statement: str) -> None:
    strangers_sql(statement)
    assert ("shock", "projection") in [(one.record_id, one.kind) for one in shaken.verify()]
    shaken.rebuild()
    assert shaken.verify() == []
    assert shaken.standing("bridle", on(6)).answer is Answer.HOLD


@settings(max_examples=30, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(data=st.data())
def test_records_come_in_any_order_and_say_the_same(
    shaken: Register, strangers_sql: Sql, tmp_path_factory: pytest.TempPathFactory, data: st.DataObject
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


def test_an_item_that_comes_from_another_device_after_the_incident_is_held(
    shaken: Register, strangers_sql: Sql, tmp_path: Path
) -> None:
    shaken.add_item(pendant("shackle", tag="Q-8"), MATE, day(2))
    found = strangers_sql(f"SELECT {', '.join(COLUMNS)} FROM record")
    records = [dict(zip(COLUMNS, one, strict=True)) for one in found]
    (tmp_path / "office").mkdir()
    office = empty_office(tmp_path / "office")
    try:
        office.take_in([one for one in records if one["item"] != "shackle"])
        assert "shackle" not in [row.id for row in office.listed()]
        office.take_in(records)
        assert {row.id: row.answer for row in office.listed()}["shackle"] == Answer.HOLD.value
    finally:
        office.engine.dispose()
