"""What stands beside a new reading."""

from datetime import timedelta

from harbour import BURIED, NOW, sound

from app.touch.memory import remembered
from inspection_rules.judgement import Judgement
from inspection_rules.standing import Judged
from inspection_rules.words import Answer, InspectionKind

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
