"""Questions about many inspections: a reading over time, what is open, what a rule has judged."""

from datetime import UTC, date, datetime
from typing import Any

import pytest

from app.register import OpenRow, Point, Register, RuledRow
from inspection_rules.record import Dropped, Reading
from inspection_rules.standing import Judged
from inspection_rules.words import Answer, Door, Mend, Method, Moisture, Scope, Tension

from .making import (
    EXAMINER,
    MATE,
    START,
    condemn,
    day,
    disposal,
    inspection,
    judgement,
    on,
    pendant,
    photo,
    release,
    ruling,
    work,
)


def read(*values: str, **changes: Any) -> tuple[Reading, ...]:
    """A reading of the tail mark at end A."""
    return (
        Reading(**{"observation": "mark_tail", "part": "A", "values": values, "method": Method.STEEL_RULE, **changes}),
    )


def test_a_series_is_oldest_first_with_values_as_written_and_their_mean(register: Register) -> None:
    register.log_inspection(inspection("a", 20, readings=read("243 mm")), judgement(20))
    register.log_inspection(inspection("b", 10, readings=read("240 mm", "9 1/2 in")), judgement(10))
    # 9 1/2 in is 241.3 mm: one inch is 25.4 mm exactly (1959 agreement).
    assert register.series("pendant", "A", "mark_tail") == [
        Point(on(10), "b", 240.65, "mm", ("240 mm", "9 1/2 in"), Tension.HAND_TAUT, Moisture.DRY),
        Point(on(20), "a", 243.0, "mm", ("243 mm",), Tension.HAND_TAUT, Moisture.DRY),
    ]


def test_a_series_says_in_which_state_each_reading_was_taken(register: Register) -> None:
    slack = read("240 mm", tension=Tension.SLACK, moisture=Moisture.WET)
    register.log_inspection(inspection("n1", 1, readings=slack), judgement(1))
    (point,) = register.series("pendant", "A", "mark_tail")
    assert (point.tension, point.moisture) == (Tension.SLACK, Moisture.WET)


def test_a_point_stands_on_the_local_date(register: Register) -> None:
    late = inspection("n1", at=datetime(2050, 3, 9, 23, 30, tzinfo=UTC), utc_offset_minutes=120)
    register.log_inspection(late, judgement(9))
    (point,) = register.series("pendant", "A", "mark_tail")
    assert point.on == date(2050, 3, 10)


def test_a_dropped_value_is_no_part_of_a_series(register: Register) -> None:
    readings = read("240 mm", dropped=(Dropped(value="420 mm", reason="digits turned round"),))
    register.log_inspection(inspection("n1", 1, readings=readings), judgement(1))
    assert [one.values for one in register.series("pendant", "A", "mark_tail")] == [("240 mm",)]


def test_values_without_a_common_unit_make_a_point_each(register: Register) -> None:
    register.log_inspection(inspection("n1", 1, readings=read("3 days", "2 months", "5 days")), judgement(1))
    points = register.series("pendant", "A", "mark_tail")
    assert [(one.mean, one.unit) for one in points] == [(4.0, "days"), (2.0, "months")]


@pytest.mark.parametrize(
    "asked", [("tail", "A", "mark_tail"), ("pendant", "B", "mark_tail"), ("pendant", "A", "mark_standing")]
)
def test_a_series_holds_nothing_of_another_item_part_or_observation(
    register: Register, asked: tuple[str, str, str]
) -> None:
    register.add_item(pendant("tail", tag="SP-102"), MATE, START)
    register.log_inspection(inspection("n1", 1), judgement(1))
    assert register.series(*asked) == []


def test_a_corrected_inspection_leaves_the_series_to_its_replacement(register: Register) -> None:
    register.log_inspection(inspection("wrong", 1, readings=read("24 mm")), judgement(1))
    right = inspection("right", 1, readings=read("240 mm"))
    register.correct("wrong", "a digit was lost", EXAMINER, day(2), Judged(inspection=right, judgement=judgement(1)))
    assert [(one.inspection, one.mean) for one in register.series("pendant", "A", "mark_tail")] == [("right", 240.0)]


def test_open_rulings_are_worst_first_then_oldest_first(register: Register) -> None:
    register.add_item(pendant("tail", tag="SP-102", place="quay yard"), MATE, START)
    register.log_inspection(inspection("n2", 7), judgement(7, ruling(Answer.HOLD, "wear", part="body")))
    register.log_inspection(inspection("n1", 5), judgement(5, ruling(Answer.HOLD)))
    cut = ruling(Answer.REMOVE, "cut", part="", sentence="A strand is cut.", mends=Mend.NOTHING)
    register.log_inspection(inspection("t1", 9, item="tail"), judgement(9, cut, ruling(Answer.WATCH, "fuzz")))
    assert [(row.item, row.inspection, row.on, row.rule) for row in register.open_rulings()] == [
        ("tail", "t1", on(9), "cut"),
        ("pendant", "n1", on(5), "tail-slip"),
        ("pendant", "n2", on(7), "wear"),
    ]
    assert register.open_rulings(Answer.REMOVE) == [
        OpenRow(
            "tail", "SP-102", "quay yard", "t1", on(9), "cut", "common-practice", "", Answer.REMOVE, None,
            "A strand is cut.", "nothing",
        )
    ]  # fmt: skip
    assert [row.door for row in register.open_rulings(Answer.HOLD)] == [Door.REFER, Door.REFER]


def test_a_ruling_is_open_until_a_record_closes_it(register: Register) -> None:
    stopped = judgement(1, ruling(Answer.REMOVE, mends=Mend.RE_STITCH), ruling(Answer.HOLD, "wear"))
    register.log_inspection(inspection("n1", 1), stopped)
    register.log_work(work("w", 2))
    assert [row.rule for row in register.open_rulings()] == ["tail-slip", "wear"]
    register.log_decision(release("r1", 3, "n1"))
    assert [row.rule for row in register.open_rulings()] == ["wear"]
    register.log_decision(release("r2", 4, "n1", rule="wear"))
    assert register.open_rulings() == []


def test_a_corrected_inspection_stops_nothing_any_more(register: Register) -> None:
    register.log_inspection(inspection("n1", 1), judgement(1, ruling(Answer.HOLD)))
    right = Judged(inspection=inspection("right", 1), judgement=judgement(1))
    register.correct("n1", "read off the wrong mark", EXAMINER, day(2), right)
    assert register.open_rulings() == []


def test_nothing_is_open_on_an_item_disposed_of(register: Register) -> None:
    register.log_inspection(inspection("n1", 1), judgement(1, ruling(Answer.REMOVE)))
    register.log_decision(condemn("c", 2))
    assert [row.item for row in register.open_rulings()] == ["pendant"]
    picture = photo(1)
    register.log_disposal(disposal("d", 3, picture.sha256), [picture])
    assert register.open_rulings() == []


def test_a_rule_tells_how_it_judged_each_item(register: Register) -> None:
    register.add_item(pendant("ten", tag="SP-10"), MATE, START)
    register.add_item(pendant("two", tag="SP-2"), MATE, START)
    register.log_inspection(inspection("late", 9, item="two"), judgement(9, ruling(Answer.SERVICEABLE, value="0.5")))
    register.log_inspection(inspection("early", 3, item="two"), judgement(3, ruling(Answer.WATCH)))
    register.log_inspection(inspection("x", 1, item="ten"), judgement(1, ruling(Answer.HOLD), ruling(Answer.HOLD, "y")))
    assert [(row.tag, row.inspection, row.answer, row.value) for row in register.ruled_by("tail-slip")] == [
        ("SP-2", "early", Answer.WATCH, "12.50"),
        ("SP-2", "late", Answer.SERVICEABLE, "0.5"),
        ("SP-10", "x", Answer.HOLD, "12.50"),
    ]


def test_a_ruling_keeps_its_numbers_as_they_were_judged(register: Register) -> None:
    one = ruling(Answer.HOLD, limit="1E+2", u="0.80", scope=Scope.USE)
    register.log_inspection(inspection("n1", 1), judgement(1, not_for_this_use=(one,)))
    assert register.ruled_by("tail-slip") == [
        RuledRow(
            "pendant", "SP-101", "n1", on(1), "common-practice", "A", Scope.USE, Answer.HOLD, Door.REFER,
            "12.50", "100", "0.80", "mm", "The tail has slipped 12.5 mm.",
        )
    ]  # fmt: skip


def test_a_corrected_inspection_was_judged_by_no_rule(register: Register) -> None:
    register.log_inspection(inspection("n1", 1), judgement(1, ruling(Answer.WATCH)))
    register.correct("n1", "another line", EXAMINER, day(2))
    assert register.ruled_by("tail-slip") == []
