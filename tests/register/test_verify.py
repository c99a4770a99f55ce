"""Whatever is changed behind the register's back is found and named."""

import hashlib
from collections.abc import Callable
from typing import Any

import pytest

from app.register import Register
from inspection_rules.record import Finding
from inspection_rules.words import Answer, Seen

from .making import (
    EXAMINER,
    MATE,
    accept,
    condemn,
    day,
    incident,
    inspection,
    judgement,
    may_be_accepted,
    pendant,
    photo,
    ruling,
    stamp,
    work,
)

Sql = Callable[..., list[Any]]
PACK = "[pack]\nid = 'yard'\n"


@pytest.fixture
def filled(register: Register) -> Register:
    """Six records of the pendant (its own is first), one of another item; a picture, a pack."""
    cuts = Finding(observation="body_surface", part="body", seen=Seen.PRESENT, conditions=("cut", "glazed"))
    register.keep_pack(PACK)
    first = judgement(1, ruling(Answer.HOLD), packs=(stamp(PACK.encode()),))
    register.log_inspection(inspection("n1", 1, findings=(cuts,), pictures=(photo(1).sha256,)), first, [photo(1)])
    register.log_inspection(inspection("n2", 2), judgement(2))
    register.log_work(work("w", 3))
    register.correct("n2", "another line", EXAMINER, day(4))
    register.log_decision(condemn("c", 5))
    register.add_item(pendant("tail", tag="SP-102"), MATE, day(6))
    return register


def found(register: Register) -> list[tuple[str, str]]:
    """Which records have which kind of fault."""
    return [(one.record_id, one.kind) for one in register.verify()]


def test_a_register_as_written_has_no_fault(filled: Register) -> None:
    assert filled.verify() == []


@pytest.mark.parametrize("record", ["a", "i"])
def test_a_changed_acceptance_or_incident_is_named(register: Register, unguarded_sql: Sql, record: str) -> None:
    register.log_inspection(inspection("n1", 1), judgement(1, may_be_accepted()))
    register.accept(accept("a", 2, "n1", pictures=(photo(1).sha256,)), [photo(1)])
    register.log_incident(incident("i", 3, "tail", pictures=(photo(2).sha256,)), [photo(2)])
    assert register.verify() == []
    unguarded_sql("UPDATE record SET body = replace(body, '2050', '2049') WHERE id = ?", record)
    assert found(register)[0] == (record, "body")


@pytest.mark.parametrize("record", ["n1", "n2", "w", "c"])
def test_a_changed_body_is_named(filled: Register, unguarded_sql: Sql, record: str) -> None:
    unguarded_sql("UPDATE record SET body = replace(body, '2050', '2049') WHERE id = ?", record)
    assert found(filled)[0] == (record, "body")
    assert {name for name, kind in found(filled) if kind == "body"} == {record}


@pytest.mark.parametrize("change", ["x'00ff'", "x'ff'", "12", "CAST(x'7bff' AS TEXT)"])
def test_a_body_of_the_wrong_type_or_bytes_is_named(filled: Register, unguarded_sql: Sql, change: str) -> None:
    unguarded_sql(f"UPDATE record SET body = {change} WHERE id = 'n2'")
    assert found(filled)[0] == ("n2", "body")


def test_a_changed_body_with_its_hash_is_named_by_its_seal(filled: Register, unguarded_sql: Sql) -> None:
    ((body,),) = unguarded_sql("SELECT body FROM record WHERE id = 'w'")
    body = body.replace("lock stitching", "nothing")
    body_hash = hashlib.sha256(body.encode()).hexdigest()
    unguarded_sql("UPDATE record SET body = ?, body_hash = ? WHERE id = 'w'", body, body_hash)
    assert found(filled)[0] == ("w", "seal")


def test_a_changed_seal_is_named_with_the_one_that_followed_it(filled: Register, unguarded_sql: Sql) -> None:
    unguarded_sql("UPDATE record SET seal = ? WHERE id = 'n1'", "0" * 64)
    assert found(filled) == [("n1", "seal"), ("n2", "seal")]


def test_a_record_taken_out_leaves_a_gap(filled: Register, unguarded_sql: Sql) -> None:
    unguarded_sql("DELETE FROM record WHERE id = 'n2'")
    assert found(filled)[0] == ("w", "order")


@pytest.mark.parametrize(
    "change", ["at = '2050-03-01T00:00:00.000000Z'", "kind = 'decision'", "item = 'tail'", "id = 'w2'"]
)
def test_a_changed_header_is_named(filled: Register, unguarded_sql: Sql, change: str) -> None:
    unguarded_sql(f"UPDATE record SET {change} WHERE id = 'w'")
    name = "w2" if change.startswith("id") else "w"
    assert (name, "header") in found(filled)


def test_the_record_that_happened_first_is_named_first(filled: Register, unguarded_sql: Sql) -> None:
    for record in ("w", "n1", "c"):
        unguarded_sql("UPDATE record SET body = body || ' ' WHERE id = ?", record)
    assert [name for name, kind in found(filled) if kind == "body"] == ["n1", "w", "c"]


@pytest.mark.parametrize(
    ("statement", "item"),
    [
        ("UPDATE listed SET answer = 'serviceable' WHERE id = 'pendant'", "pendant"),
        ("UPDATE listed SET due = '2099-01-01' WHERE id = 'tail'", "tail"),
        ("UPDATE listed SET late_sentence = 'Use it.' WHERE id = 'tail'", "tail"),
        ("DELETE FROM listed WHERE id = 'tail'", "tail"),
        ("DELETE FROM listed_word WHERE item = 'pendant' AND word = 'towing'", "pendant"),
        ("INSERT INTO listed_word VALUES ('new', 'tail')", "tail"),
        ("INSERT INTO listed_word VALUES ('new', 'ghost')", "ghost"),
        ("UPDATE part SET splice = 'locked eye' WHERE item = 'tail' AND part = 'B'", "tail"),
        ("DELETE FROM part WHERE item = 'tail' AND part = 'body'", "tail"),
        ("INSERT INTO part VALUES ('ghost', 'A', 'body', NULL, NULL, 'none', 0, 0, NULL, '', NULL)", "ghost"),
        ("UPDATE reading SET value = 241 WHERE position = 1", "pendant"),
        ("UPDATE reading SET text = '241 mm' WHERE position = 1", "pendant"),
        ("UPDATE reading SET \"on\" = 'some day' WHERE position = 1", "pendant"),
        ('UPDATE reading SET "on" = 12 WHERE position = 1', "pendant"),
        ("UPDATE reading SET tension = 'slack' WHERE position = 2", "pendant"),
        ("UPDATE reading SET inspection = 'n2'", "pendant"),
        ("DELETE FROM reading WHERE position = 2", "pendant"),
        ("UPDATE finding SET seen = 'absent'", "pendant"),
        ("UPDATE finding SET conditions = 'cut'", "pendant"),
        ("DELETE FROM finding", "pendant"),
        ("UPDATE ruling SET answer = 'watch'", "pendant"),
        ("UPDATE ruling SET door = NULL", "pendant"),
        ("UPDATE ruling SET value = '12.5'", "pendant"),
        ("UPDATE ruling SET u = '0.1'", "pendant"),
        ("UPDATE ruling SET sentence = 'Use it.'", "pendant"),
        ("DELETE FROM ruling", "pendant"),
        ("UPDATE open_ruling SET answer = 'watch'", "pendant"),
        ("UPDATE open_ruling SET mends = 'nothing'", "pendant"),
        ("DELETE FROM open_ruling", "pendant"),
        (
            "INSERT INTO open_ruling SELECT 'tail', position, inspection, \"on\", rule, pack, part, answer, door, "
            "sentence, mends FROM open_ruling",
            "tail",
        ),
    ],
)
def test_a_changed_projection_is_named_and_mended_by_a_rebuild(
    filled: Register, strangers_sql: Sql, statement: str, item: str
) -> None:
    strangers_sql(statement)
    assert found(filled) == [(item, "projection")]
    filled.rebuild()
    assert found(filled) == []


@pytest.mark.parametrize(
    "statement",
    [
        "UPDATE picture SET jpeg = x'ffd8'",
        "UPDATE picture SET jpeg = 'text'",
        "DELETE FROM picture",
        "UPDATE thumbnail SET jpeg = x'ffd8'",
        "DELETE FROM thumbnail",
    ],
)
def test_a_changed_or_lost_picture_is_named(filled: Register, unguarded_sql: Sql, statement: str) -> None:
    unguarded_sql(statement, file="pictures.db")
    assert found(filled) == [("n1", "picture")]


@pytest.mark.parametrize("statement", ["UPDATE pack_text SET text = 'looser'", "DELETE FROM pack_text"])
def test_a_changed_or_lost_pack_is_named(filled: Register, unguarded_sql: Sql, statement: str) -> None:
    unguarded_sql(statement)
    assert found(filled) == [("n1", "pack")]


def test_guards_taken_off_are_told(filled: Register, strangers_sql: Sql) -> None:
    strangers_sql("DROP TRIGGER record_no_update")
    strangers_sql("DROP TRIGGER picture_no_delete", file="pictures.db")
    assert [(one.kind, one.sentence.split(":")[0]) for one in filled.verify()] == [
        ("guard", "register.db"),
        ("guard", "pictures.db"),
    ]


def test_two_devices_chains_are_checked_apart(filled: Register, unguarded_sql: Sql) -> None:
    folder = filled.folder
    filled.close()
    with Register.open(folder, "a tablet") as tablet:
        tablet.log_work(work("t1", 7))
        tablet.log_work(work("t2", 8))
        assert tablet.verify() == []
        unguarded_sql("UPDATE record SET seal = ? WHERE id = 't1'", "f" * 64)
        assert found(tablet) == [("t1", "seal"), ("t2", "seal")]


def test_progress_counts_records_and_pictures(filled: Register) -> None:
    told: list[tuple[int, int]] = []
    filled.verify(lambda done, all_: told.append((done, all_)))
    assert told == [(done, 8) for done in range(1, 9)]
