"""What stands beside a new reading."""

from datetime import timedelta

from harbour import BURIED, NOW, sound

from app.touch.memory import remembered
from inspection_rules.judgement import Judgement
from inspection_rules.standing import Judged
from inspection_rules.words import Answer, InspectionKind, Moisture, Tension

NOTHING = Judgement(on=NOW.date(), answer=Answer.SERVICEABLE, door=None, rulings=(), packs=(), rules_version="1")


def past(kind: InspectionKind, days: int) -> Judged:
    return Judged(inspection=sound(BURIED, kind, NOW - timedelta(days=days)), judgement=NOTHING)


def test_baselines_stand_before_the_last_value() -> None:
    memory = remembered([past(InspectionKind.BEDDED_IN, 170), past(InspectionKind.PERIODIC, 30)])
    assert memory.lines(("A", "mark_offset")) == [
        "bedded in 0 mm, 0 mm · 25 Apr 2050",
        "last 0 mm, 0 mm · 12 Sep 2050",
    ]


def test_a_newer_baseline_of_a_kind_replaces_the_older() -> None:
    memory = remembered([past(InspectionKind.BEDDED_IN, 170), past(InspectionKind.BEDDED_IN, 20)])
    assert memory.lines(("A", "mark_offset")) == ["bedded in 0 mm, 0 mm · 22 Sep 2050"]


def test_where_nothing_was_read_nothing_is_written() -> None:
    assert remembered([]).lines(("A", "mark_offset")) == []


def test_a_value_in_another_unit_than_the_persons_stands_in_both() -> None:
    memory = remembered([past(InspectionKind.PERIODIC, 30)])
    assert memory.lines(("A", "bury"), "in") == []
    assert memory.lines(("A", "mark_offset"), "in") == ["last 0 mm (0 in), 0 mm (0 in) · 12 Sep 2050"]


def test_earlier_readings_in_another_state_are_said_to_be_not_comparable() -> None:
    memory = remembered([past(InspectionKind.BEDDED_IN, 170), past(InspectionKind.PERIODIC, 30)])
    assert memory.other_states(("A", "mark_offset"), (Tension.HAND_TAUT, Moisture.DRY)) == []
    assert memory.other_states(("A", "mark_offset"), (Tension.HAND_TAUT, Moisture.WET)) == [
        "Not comparable with this: bedded in, last, read hand-taut, dry.",
    ]


def test_the_last_state_is_told_with_its_date() -> None:
    assert remembered([past(InspectionKind.PERIODIC, 30)]).last_state(("A", "mark_offset")) == (
        "Last time, 12 Sep 2050: hand-taut, dry"
    )
