"""What the lists show is a function of the set of records: not of their order, nor of when they came."""

from collections.abc import Callable, Iterator
from dataclasses import astuple, dataclass
from datetime import date, timedelta
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

import pytest
from hypothesis import HealthCheck, example, given, settings
from hypothesis import strategies as st
from sqlalchemy import Engine

from app.register import Register, RegisterError, log, projections
from app.register.engine import REGISTER_ID, create_file, open_engine
from app.register.tables import REGISTER_TABLES, table
from inspection_rules.standing import Judged
from inspection_rules.words import Answer, InspectionKind, Mend

from .making import (
    EXAMINER,
    MATE,
    START,
    condemn,
    day,
    inspection,
    judgement,
    on,
    pendant,
    release,
    ruling,
    work,
)

Sql = Callable[..., list[Any]]
COLUMNS = ("id", "kind", "item", "at", "device", "seq", "body", "body_hash", "seal")


@dataclass
class Office:
    """A register's record file without anything in it, to take records in."""

    engine: Engine

    def take_in(self, records: list[dict[str, Any]]) -> None:
        with self.engine.begin() as connection:
            for item in sorted(log.take_in(connection, records)):
                projections.refresh(connection, item, {})

    def lists(self) -> tuple[list[Any], list[Any]]:
        with self.engine.connect() as connection:
            return tuple(
                list(connection.execute(table(name).select().order_by(*table(name).primary_key)))
                for name in ("listed", "listed_word")
            )  # type: ignore[return-value]


@pytest.fixture
def office(tmp_path: Path) -> Iterator[Office]:
    """An empty office register."""
    create_file(tmp_path / "office.db", REGISTER_TABLES, REGISTER_ID)
    engine = open_engine(tmp_path / "office.db")
    yield Office(engine)
    engine.dispose()


def empty_office(folder: Path) -> Office:
    """An empty office register in a folder."""
    create_file(folder / "office.db", REGISTER_TABLES, REGISTER_ID)
    return Office(open_engine(folder / "office.db"))


@pytest.fixture
def records(register: Register, folder: Path, strangers_sql: Sql) -> list[dict[str, Any]]:
    """The records of two phones about two items: holds, a release, work, corrections, revisions."""
    register.add_item(pendant("tail", tag="SP-102", description="mooring tail"), MATE, START)
    register.log_inspection(inspection("n1", 1, kind=InspectionKind.AS_MADE), judgement(1))
    register.log_inspection(inspection("bad", 5), judgement(5, ruling(Answer.HOLD)))
    register.close()
    with Register.open(folder, "second phone") as second:
        second.log_decision(release("r", 6, "bad"))
        second.log_inspection(inspection("worse", 9), judgement(9, ruling(Answer.REMOVE, mends=Mend.RE_STITCH)))
        second.log_inspection(inspection("t1", 3, item="tail"), judgement(3, ruling(Answer.WATCH, "wear")))
        right = Judged(inspection=inspection("right", 9), judgement=judgement(9))
        second.correct("worse", "the other line", EXAMINER, day(10), right)
        second.revise_item(pendant(place="quay yard"), MATE, day(11))
        second.log_work(work("w", 12))
        second.log_decision(condemn("gone", 13, item="tail"))
    found = strangers_sql(f"SELECT {', '.join(COLUMNS)} FROM record")
    return [dict(zip(COLUMNS, one, strict=True)) for one in found]


@settings(max_examples=30, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(data=st.data())
def test_records_give_the_same_lists_in_whatever_order_and_batches_they_come(
    records: list[dict[str, Any]], strangers_sql: Sql, data: st.DataObject
) -> None:
    shuffled = data.draw(st.permutations(records))
    cut = data.draw(st.integers(0, len(records)))
    with TemporaryDirectory() as place:
        office = empty_office(Path(place))
        try:
            office.take_in(shuffled[:cut])
            office.take_in(shuffled)
            taken = office.lists()
        finally:
            office.engine.dispose()
    listed = [tuple(row) for row in strangers_sql("SELECT id, answer, place, tag, sentence FROM listed ORDER BY id")]
    assert [(row.id, row.answer, row.place, row.tag, row.sentence) for row in taken[0]] == listed
    assert taken[1] == strangers_sql("SELECT word, item FROM listed_word ORDER BY word, item")


def test_a_foreign_record_under_a_known_id_is_refused_whole(office: Office, records: list[dict[str, Any]]) -> None:
    office.take_in(records[:2])
    before = office.lists()
    forged = {**records[1], "body_hash": "0" * 64}
    with pytest.raises(RegisterError, match=r"says something else\. Nothing was taken in"):
        office.take_in([*records[2:], forged])
    assert office.lists() == before


@pytest.mark.parametrize(
    ("come", "answer", "sentence"),
    [
        (["t1"], Answer.HOLD, "Its own entry is missing. Keep it out of use."),
        (["t1", "gone"], Answer.REMOVE, "Condemned; never used again."),
    ],
)
def test_an_item_whose_own_entry_has_not_come_yet_is_not_used(
    office: Office, records: list[dict[str, Any]], come: list[str], answer: Answer, sentence: str
) -> None:
    office.take_in([one for one in records if one["id"] in come])
    (listed,) = office.lists()[0]
    assert (listed.id, listed.tag, listed.answer, listed.sentence) == ("tail", "tail", answer.value, sentence)


HOLD, WATCH, REMOVE = ruling(Answer.HOLD), ruling(Answer.WATCH, "wear"), ruling(Answer.REMOVE, mends=Mend.LOOK)
STEPS = st.lists(
    st.tuples(st.sampled_from(["fine", "hold", "watch", "remove", "release", "work", "condemn"]), st.integers(1, 40)),
    max_size=6,
)


@settings(max_examples=40)
@example(steps=[("fine", 1), ("work", 40)], later=0)
@example(steps=[("hold", 1), ("release", 3)], later=31)
@example(steps=[("fine", 1), ("hold", 40)], later=-30)
@given(steps=STEPS, later=st.integers(-60, 60))
def test_a_row_says_what_the_standing_says_on_any_day(steps: list[tuple[str, int]], later: int) -> None:
    with TemporaryDirectory() as place, Register.create(Path(place), "deck phone") as register:
        register.add_item(pendant(), MATE, START)
        number, seen = 0, ["none"]
        for index, (what, days) in enumerate(steps):
            number += days
            record_id = f"{what} {index}"
            if what == "release":
                register.log_decision(release(record_id, number, *seen))
            elif what == "work":
                register.log_work(work(record_id, number))
            elif what == "condemn":
                register.log_decision(condemn(record_id, number))
            else:
                rulings = {"fine": (), "hold": (HOLD,), "watch": (WATCH,), "remove": (REMOVE,)}[what]
                register.log_inspection(inspection(record_id, number), judgement(number, *rulings, due=20))
                seen.append(record_id)
        when: date = on(number) + timedelta(days=later)
        (row,) = register.find(on=when)
        stands = register.standing("pendant", when)
    assert (row.answer, row.door, row.sentence, row.overdue, row.next_due) == (
        stands.answer, stands.door, stands.sentence, stands.overdue, stands.next_due,
    )  # fmt: skip


def test_rebuilding_changes_nothing(register: Register) -> None:
    register.log_inspection(inspection("n1", 1), judgement(1, ruling(Answer.HOLD)))
    before = [astuple(row) for row in register.find("pendant sandpiper", on=on(1))]
    register.rebuild()
    assert [astuple(row) for row in register.find("pendant sandpiper", on=on(1))] == before
