"""What is projected of parts, readings and findings, row by row."""

from collections.abc import Callable
from typing import Any

import pytest

from app.register import Register, RegisterError
from inspection_rules.item import Part
from inspection_rules.record import Finding, Reading
from inspection_rules.words import Answer, Method, Moisture, PartKind, Seen, SpliceKind, Tension, Thimble

from .making import EXAMINER, MATE, day, inspection, judgement, pendant, ruling

Sql = Callable[..., list[Any]]


# Exact by definition: inch, pound (1959 agreement), standard gravity (CGPM 1901); 68 °F is 20 °C.
@pytest.mark.parametrize(
    ("written", "value", "unit"),
    [
        ("24,5 mm", 24.5, "mm"),
        ('1 1/8"', 28.575, "mm"),
        ("-3 mm", -3.0, "mm"),
        ("1 m", 1000.0, "mm"),
        ("4", 4.0, ""),
        ("1 lbf", 4.4482216152605, "N"),
        ("2 t", 2000.0, "kg"),
        ("68 °F", 20.0, "°C"),
        ("10 %", 10.0, "%"),
        ("2 months", 2.0, "months"),
    ],
)
def test_a_value_lies_beside_its_text_in_one_unit_for_all_of_its_dimension(
    register: Register, strangers_sql: Sql, written: str, value: float, unit: str
) -> None:
    reading = Reading(observation="girth_worst", part="body", values=(written,), method=Method.GIRTH_TAPE)
    register.log_inspection(inspection("n1", 1, readings=(reading,)), judgement(1))
    assert strangers_sql("SELECT text, value, unit, typeof(value) FROM reading") == [(written, value, unit, "real")]


def test_a_reading_has_a_row_for_each_value_in_the_order_read(register: Register, strangers_sql: Sql) -> None:
    reading = Reading(
        observation="girth_worst", part="body", values=("75 mm", "74 mm"), method=Method.GIRTH_TAPE,
        tension=Tension.SLACK, moisture=Moisture.WET,
    )  # fmt: skip
    register.log_inspection(inspection("n1", 1, readings=(reading,)), judgement(1))
    shared = ("pendant", "n1", "2050-03-02", "2050-03-02T08:00:00.000000Z", "body", "girth_worst")
    columns = 'item, inspection, "on", at, part, observation, position, text, method, tension, moisture'
    assert strangers_sql(f"SELECT {columns} FROM reading ORDER BY position") == [
        (*shared, 1, "75 mm", "girth tape", "slack", "wet"),
        (*shared, 2, "74 mm", "girth tape", "slack", "wet"),
    ]


def test_a_finding_keeps_what_was_seen_and_its_conditions(register: Register, strangers_sql: Sql) -> None:
    findings = (
        Finding(observation="body_surface", part="body", seen=Seen.PRESENT, conditions=("cut", "glazed")),
        Finding(observation="tag", seen=Seen.ABSENT),
    )
    register.log_inspection(inspection("n1", 1, findings=findings), judgement(1))
    columns = 'item, inspection, "on", at, part, observation, seen, conditions'
    shared = ("pendant", "n1", "2050-03-02", "2050-03-02T08:00:00.000000Z")
    assert strangers_sql(f"SELECT {columns} FROM finding ORDER BY part") == [
        (*shared, "", "tag", "absent", ""),
        (*shared, "body", "body_surface", "present", "cut, glazed"),
    ]


def test_parts_are_those_of_the_revision_that_stands(register: Register, strangers_sql: Sql) -> None:
    spliced = Part(
        id="A2", kind=PartKind.TERMINATION, end="A", splice=SpliceKind.TUCKED_EYE, thimble=Thimble.CAPTIVE,
        lock_stitched=True, required_bury="20 in", required_by="yard instruction", marks_at="240 mm",
    )  # fmt: skip
    register.revise_item(pendant(parts=(spliced, Part(id="body", kind=PartKind.BODY))), MATE, day(1))
    assert strangers_sql("SELECT * FROM part ORDER BY part") == [
        ("pendant", "A2", "termination", "A", "tucked eye", "captive", 1, 0, "20 in", "yard instruction", "240 mm"),
        ("pendant", "body", "body", None, None, "none", 0, 0, None, "", None),
    ]


@pytest.mark.parametrize("table", ["reading", "finding", "ruling"])
def test_a_corrected_inspection_leaves_no_row(register: Register, strangers_sql: Sql, table: str) -> None:
    findings = (Finding(observation="tag", seen=Seen.ABSENT),)
    for name in ("wrong", "other"):
        register.log_inspection(inspection(name, 1, findings=findings), judgement(1, ruling(Answer.WATCH)))
    register.correct("wrong", "another line", EXAMINER, day(2))
    assert {name for (name,) in strangers_sql(f"SELECT inspection FROM {table}")} == {"other"}


def test_logging_the_same_once_more_adds_no_row(register: Register, strangers_sql: Sql) -> None:
    for _ in range(2):
        register.log_inspection(inspection("n1", 1), judgement(1, ruling(Answer.WATCH)))
    assert strangers_sql("SELECT (SELECT count(*) FROM reading), (SELECT count(*) FROM ruling)") == [(2, 1)]


def test_an_entry_that_fails_leaves_no_row(register: Register, strangers_sql: Sql) -> None:
    strangers_sql("CREATE TRIGGER full BEFORE INSERT ON ruling BEGIN SELECT RAISE(ABORT, 'no'); END")
    with pytest.raises(RegisterError):
        register.log_inspection(inspection("n1", 1), judgement(1, ruling(Answer.WATCH)))
    assert strangers_sql("SELECT (SELECT count(*) FROM reading), (SELECT count(*) FROM record)") == [(0, 1)]
