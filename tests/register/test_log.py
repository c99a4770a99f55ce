"""Heads, and records that cannot be read."""

import hashlib
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
from sqlalchemy import insert

from app.register import Register, RegisterError
from app.register.bodies import Correction, ItemRevised, write
from app.register.log import append
from app.register.tables import table
from inspection_rules.words import Answer, Door, State

from .making import MATE, START, condemn, day, inspection, judgement, on, pendant, ruling

Sql = Callable[..., list[Any]]


def revise_apart(register: Register, place: str, device: str, number: int) -> None:
    """Enter a revision of the first revision, as a phone does that has not heard of any other."""
    with register._engine.begin() as connection:
        record = table("record")
        first = connection.scalar(record.select().with_only_columns(record.c.id).order_by(record.c.at).limit(1))
        body = ItemRevised(
            id=f"by {device}", at=day(number), by=MATE, device=device, parents=(str(first),),
            item=pendant(place=place),
        )  # fmt: skip
        append(connection, body, {})


def test_two_revisions_of_the_same_one_are_both_shown(register: Register) -> None:
    revise_apart(register, "quay yard", "tablet", 2)
    revise_apart(register, "foredeck", "deck phone", 1)
    assert [one.place for one in register.heads("pendant")] == ["foredeck", "quay yard"]
    assert register.item("pendant").place == "quay yard"


def test_the_next_revision_settles_both(register: Register) -> None:
    revise_apart(register, "quay yard", "tablet", 2)
    revise_apart(register, "foredeck", "deck phone", 1)
    register.revise_item(pendant(place="locker"), MATE, day(3))
    assert [one.place for one in register.heads("pendant")] == ["locker"]
    assert register.verify() == []


@pytest.fixture
def unreadable(register: Register, folder: Path, unguarded_sql: Sql) -> Iterator[Register]:
    """The pendant was found fit for use, and then that record was damaged on the disk."""
    register.log_inspection(inspection("n1", 1), judgement(1))
    register.close()
    unguarded_sql("UPDATE record SET body = CAST(substr(body, 1, 200) || x'ff' AS TEXT) WHERE id = 'n1'")
    with Register.open(folder) as again:
        yield again


def test_an_item_with_an_unreadable_record_is_held(unreadable: Register) -> None:
    stands = unreadable.standing("pendant", on(2))
    assert (stands.state, stands.answer, stands.door) == (State.QUARANTINED, Answer.HOLD, Door.REFER)
    assert "Record n1 cannot be read" in stands.sentence


def test_the_list_holds_it_too_once_made_anew(unreadable: Register) -> None:
    unreadable.rebuild()
    (row,) = unreadable.find(on=on(2))
    assert (row.answer, row.tag) == (Answer.HOLD, "SP-101")
    assert "Record n1 cannot be read" in row.sentence


@pytest.mark.parametrize("ask", ["judged", "history", "corrections"])
def test_its_past_is_not_shown_as_if_it_were_whole(unreadable: Register, ask: str) -> None:
    with pytest.raises(RegisterError, match=r"item pendant: record n1 cannot be read.*others were kept"):
        getattr(unreadable, ask)("pendant")


def test_it_is_not_judged_without_that_record(unreadable: Register) -> None:
    with pytest.raises(RegisterError, match="record n1 cannot be read"):
        unreadable.case(inspection("n2", 2), on=on(2))


def test_an_unreadable_record_never_makes_a_removal_better(unreadable: Register) -> None:
    unreadable.log_inspection(inspection("bad", 2), judgement(2, ruling(Answer.REMOVE)))
    assert unreadable.standing("pendant", on(3)).answer is Answer.REMOVE


def test_a_record_of_a_newer_program_holds_its_item(register: Register) -> None:
    with register._engine.begin() as connection:
        body = write(pendant()).replace('{"', '{"kind":"load log","version":7,"', 1)
        row = connection.execute(table("record").select()).mappings().one()
        values = {**row, "id": "new", "seq": 2, "body": body, "body_hash": hashlib.sha256(body.encode()).hexdigest()}
        connection.execute(insert(table("record")), values)
    assert "newer version of this program" in register.standing("pendant", on(1)).sentence
    assert register.standing("pendant", on(1)).answer is Answer.HOLD


def test_a_correction_from_elsewhere_does_not_lift_a_condemnation_either(register: Register) -> None:
    register.log_decision(condemn("c", 1))
    with register._engine.begin() as connection:
        body = Correction(
            id="theirs", at=day(2), by=MATE, device="tablet", item="pendant", supersedes="c", reason="a mistake"
        )
        append(connection, body, {})
    assert register.standing("pendant", on(3)).state is State.CONDEMNED


def test_an_unknown_item_is_told(register: Register, folder: Path) -> None:
    for ask in (register.item, register.heads, register.judged, register.history):
        with pytest.raises(RegisterError, match="item ghost is not in this register"):
            ask("ghost")
    with pytest.raises(RegisterError, match="item ghost is not in this register"):
        register.standing("ghost", START.date())
