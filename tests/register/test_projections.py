"""What the lists show is a function of the set of records: not of their order, nor of when they came."""

import sqlite3
from collections.abc import Callable, Iterator
from contextlib import closing
from dataclasses import dataclass
from datetime import date, timedelta
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

import pytest
from hypothesis import HealthCheck, example, given, settings
from hypothesis import strategies as st
from sqlalchemy import Engine

from app.register import Register, RegisterError, bodies, log, projections
from app.register.engine import REGISTER_ID, create_file, open_engine
from app.register.tables import REGISTER_TABLES, table
from inspection_rules.record import Finding
from inspection_rules.standing import Judged
from inspection_rules.words import Answer, Door, InspectionKind, Mend, Scope, Seen

from .making import (
    EXAMINER,
    MATE,
    START,
    accept,
    condemn,
    day,
    incident,
    inspection,
    judgement,
    may_be_accepted,
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

    def listed(self) -> list[Any]:
        with self.engine.connect() as connection:
            return list(connection.execute(table("listed").select().order_by("id")))

    def projected(self) -> dict[str, list[Any]]:
        with self.engine.connect() as connection:
            return rows_of(lambda sql: connection.exec_driver_sql(sql).fetchall())


def rows_of(sql: Callable[[str], list[Any]]) -> dict[str, list[Any]]:
    """Every row of every projection as it lies in the file."""
    tables = ("listed", "listed_word", "load_path", "part", "reading", "finding", "ruling", "open_ruling")
    return {name: sorted(map(tuple, sql(f"SELECT * FROM {name}")), key=repr) for name in tables}


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
    """The records of two phones about two items: holds, a release, work, corrections, revisions, a use refused."""
    register.add_item(pendant("tail", tag="SP-102", description="mooring tail"), MATE, START)
    register.log_inspection(inspection("n1", 1, kind=InspectionKind.AS_MADE), judgement(1))
    use = ruling(Answer.HOLD, "load", scope=Scope.USE, limit="10")
    register.log_inspection(
        inspection("bad", 5, findings=FOUND), judgement(5, ruling(Answer.HOLD), HELD_TOO, not_for_this_use=(use,))
    )
    register.close()
    with Register.open(folder, "second phone") as second:
        second.log_decision(release("r", 6, "bad"))
        second.log_inspection(inspection("worse", 9), judgement(9, ruling(Answer.REMOVE, mends=Mend.RE_STITCH)))
        second.log_inspection(inspection("t1", 3, item="tail"), judgement(3, ruling(Answer.WATCH, "wear")))
        right = Judged(inspection=inspection("right", 9), judgement=judgement(9))
        second.correct("worse", "the other line", EXAMINER, day(10), right)
        second.revise_item(pendant(place="quay yard"), MATE, day(11))
        second.log_incident(incident("shock", 11, "tail"))
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
            taken = office.projected()
        finally:
            office.engine.dispose()
    # The phones wrote only what each record added, when it was logged.
    logged = rows_of(strangers_sql)
    assert taken == logged
    assert all(logged.values())


def test_a_foreign_record_under_a_known_id_is_refused_whole(office: Office, records: list[dict[str, Any]]) -> None:
    office.take_in(records[:2])
    before = office.projected()
    forged = {**records[1], "body_hash": "0" * 64}
    with pytest.raises(RegisterError, match=r"says something else\. Nothing was taken in"):
        office.take_in([*records[2:], forged])
    assert office.projected() == before


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
    (listed,) = office.listed()
    assert (listed.id, listed.tag, listed.answer, listed.sentence) == ("tail", "tail", answer.value, sentence)


FOUND = (Finding(observation="body_surface", part="body", seen=Seen.PRESENT, conditions=("cut", "glazed")),)
HELD_TOO = ruling(Answer.HOLD, "wear", part="body", limit="10.0", u="0.8")
LOOK = ruling(Answer.HOLD, "entry", door=Door.LOOK_AGAIN, observation="mark_tail")
HOLD, WATCH, REMOVE = may_be_accepted(), ruling(Answer.WATCH, "wear"), ruling(Answer.REMOVE, mends=Mend.LOOK)
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


DEEDS = (
    "fine", "hold", "look", "remove", "again", "release", "work", "correct", "replace", "revise", "condemn", "accept",
    "incident", "shared",
)  # fmt: skip
ACTS = st.lists(st.tuples(st.sampled_from(DEEDS), st.integers(1, 12)), max_size=10)


@settings(max_examples=25)
@example(acts=[("hold", 3), ("replace", 2), ("replace", 2)])
@example(acts=[("remove", 9), ("look", 4), ("correct", 1)])
@example(acts=[("hold", 1), ("again", 1), ("revise", 2), ("condemn", 3)])
@example(acts=[("hold", 1), ("accept", 1), ("correct", 1), ("shared", 2)])
@given(acts=ACTS)
def test_writing_what_each_record_adds_equals_a_rebuild(acts: list[tuple[str, int]]) -> None:
    with TemporaryDirectory() as place, Register.create(Path(place), "deck phone") as register:
        register.add_item(pendant(), MATE, START)
        register.add_item(pendant("tail", tag="SP-102"), MATE, START)
        register.log_inspection(inspection("other", item="tail", findings=FOUND), judgement(0, HOLD))
        logged: list[Judged] = []
        for index, (what, number) in enumerate(acts):
            perform(register, what, f"{what} {index}", number, logged)
        with closing(sqlite3.connect(Path(place) / "register.db", isolation_level=None)) as connection:
            before = rows_of(lambda sql: connection.execute(sql).fetchall())
            assert register.verify() == []
            register.rebuild()
            assert rows_of(lambda sql: connection.execute(sql).fetchall()) == before


def test_an_inspection_corrected_before_it_came_adds_no_row(office: Office, records: list[dict[str, Any]]) -> None:
    office.take_in([one for one in records if one["id"] not in ("worse", "bad")])
    come = {str(one["id"]): bodies.read(str(one["body"])) for one in records}
    for record_id in ("worse", "bad"):
        with office.engine.begin() as connection:
            log.append(connection, come[record_id], {})
            projections.refresh(connection, "pendant", {}, [come[record_id]])
    projected = office.projected()
    named = {row for name in ("reading", "finding", "ruling") for row in projected[name]}
    assert not [row for row in named if "worse" in row]
    assert [row for row in named if "bad" in row]


def perform(register: Register, what: str, record_id: str, number: int, logged: list[Judged]) -> None:
    """One act on the pendant; days come in any order. Those on an inspection take one that was logged."""
    rulings = {"hold": (HOLD, HELD_TOO), "look": (LOOK,), "remove": (REMOVE, WATCH)}.get(what, ())
    seen = inspection(record_id, number, findings=FOUND if rulings else ())
    # A look that finds everything in order: it may stand in place of one that stopped the pendant.
    sound = (ruling(Answer.SERVICEABLE, "wear", part="body"),) if what in ("correct", "replace") else ()
    new = Judged(inspection=seen, judgement=judgement(number, *rulings, *sound))
    one = logged[number % len(logged)] if logged else None
    if what in ("fine", "hold", "look", "remove"):
        register.log_inspection(new.inspection, new.judgement)
        logged.append(new)
    elif what == "work":
        register.log_work(work(record_id, number))
    elif what == "revise":
        register.revise_item(pendant(place=record_id, parts=pendant().parts[: 1 + number % 3]), MATE, day(number))
    elif what == "condemn":
        register.log_decision(condemn(record_id, number))
    elif what == "incident":
        register.log_incident(incident(record_id, number, "tail", "unknown"))
    elif what == "shared":
        register.log_incident(incident(record_id, number, "pendant", item="tail"))
    elif one is None:
        return
    elif what == "accept":
        if HOLD in one.judgement.rulings:
            register.accept(accept(record_id, (one.inspection.at - START).days + 1, one.inspection.id))
    elif what == "again":
        register.log_inspection(one.inspection, one.judgement)
    elif what == "release":
        register.log_decision(release(record_id, number, one.inspection.id))
    else:
        in_place = one.inspection.id.startswith(("correct", "replace"))
        stopped = in_place or one.judgement.answer in (Answer.HOLD, Answer.REMOVE)
        put = new if what == "replace" or stopped else None
        register.correct(one.inspection.id, "another line", EXAMINER, day(number), put)
        logged.remove(one)
        if put is not None:
            logged.append(new)
