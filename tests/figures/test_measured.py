"""What was measured is taken from the judgements as they were made, and nothing else."""

import math
from datetime import UTC, datetime, timedelta
from decimal import Decimal
from typing import Any

import pytest

from app.figures.measured import as_read, measured, number
from inspection_rules.item import Item, Part
from inspection_rules.judgement import Judgement, Ruling, Source
from inspection_rules.record import Inspection, Person, Reading
from inspection_rules.standing import Judged
from inspection_rules.words import Answer, InspectionKind, Method, Moisture, Tension

START = datetime(2050, 3, 1, 8, tzinfo=UTC)
EXAMINER = Person(name="yard examiner", competence="competent person")
SOURCE = Source(document="Common practice", kind="common practice", verified="none")
LINE = Item(
    id="x", tag="ML-01", kind="line", duty="mooring", fibre="HMPE", diameter="24 mm",
    parts=(Part(id="A", kind="termination", end="A", splice="buried eye"),),
)  # fmt: skip
DRY = (Tension.HAND_TAUT, Moisture.DRY)


def bury(value: str, limit: str | None = "1728", **changes: Any) -> Ruling:
    margin = None if limit is None else str(Decimal(value) - Decimal(limit))
    values: dict[str, Any] = {
        "rule": "remaining-bury", "pack": "practice", "title": "Remaining bury", "part": "A",
        "answer": Answer.SERVICEABLE, "observation": "bury", "measure": "remaining_bury", "value": value,
        "limit": limit, "margin": margin, "unit": "mm", "u": "3", "source": SOURCE, "sentence": "As found.",
    }  # fmt: skip
    return Ruling(**{**values, **changes})


def slip(value: str, limit: str, margin: str, **changes: Any) -> Ruling:
    return bury(
        value, limit, rule="slip", title="Slip", measure="slip", observation="mark_offset", margin=margin, **changes
    )


def reading(observation: str = "bury", *values: str, **changes: Any) -> Reading:
    return Reading(part="A", observation=observation, values=values or ("1790 mm",), method=Method.TAPE, **changes)


def look(
    days: int, *rulings: Ruling, read: tuple[Reading, ...] = (), kind: InspectionKind = InspectionKind.PERIODIC
) -> Judged:
    at = START + timedelta(days=days)
    inspection = Inspection(id=f"look-{days}", item="x", at=at, by=EXAMINER, kind=kind, readings=read)
    judgement = Judgement(
        on=at.date(), answer=Answer.SERVICEABLE, door=None, rulings=rulings, packs=(), rules_version="1"
    )
    return Judged(inspection=inspection, judgement=judgement)


def test_a_rule_on_a_part_is_one_series_oldest_first() -> None:
    (found,) = measured([look(0, bury("1790"), read=(reading(),)), look(30, bury("1780"), read=(reading(),))])
    assert [(one.value, one.limit) for one in found.taken] == [(1790, 1728), (1780, 1728)]
    assert [one.on for one in found.taken] == [START.date(), START.date() + timedelta(days=30)]


def test_two_parts_are_two_series() -> None:
    both = (reading(), reading().model_copy(update={"part": "B"}))
    found = measured([look(0, bury("1790"), bury("1785", part="B"), read=both)])
    assert {one.part for one in found} == {"A", "B"}


def test_what_was_not_read_that_day_has_no_state() -> None:
    (found,) = measured([look(0, bury("1790"), read=(reading(),)), look(30, bury("1785"))])
    assert [one.state for one in found.taken] == [DRY, None]


def test_what_was_never_read_is_left_out() -> None:
    assert not measured([look(0, bury("1790")), look(30, bury("1790"))])


def test_the_doubt_is_what_the_sentence_calls_good_to() -> None:
    (found,) = measured([look(0, bury("1790", u="3.4241"), read=(reading(),))])
    assert found.taken[0].good == pytest.approx(5.632, abs=1e-3)


def test_the_side_of_a_limit_is_told_by_the_margin() -> None:
    (least,) = measured([look(0, bury("1790"), read=(reading(),))])
    (most,) = measured([look(0, slip("2", "12", "10"), read=(reading("mark_offset", "2 mm"),))])
    assert (least.at_least, most.at_least) == (True, False)


def test_exactly_at_the_limit_the_sentence_tells_its_side() -> None:
    said = "1728 mm, limit at least 1728 mm. Exactly at the limit."
    (found,) = measured([look(0, bury("1728", sentence=said), read=(reading(),))])
    assert found.at_least


def test_movement_into_the_bury_that_was_held_has_its_limit_below() -> None:
    read = (reading("mark_offset", "-5 mm"),)
    (found,) = measured([look(0, slip("-5", "3.3", "-1.7", answer=Answer.HOLD, door="refer"), read=read)])
    assert found.taken[0].limit == -3.3


def test_baselines_are_those_at_which_it_was_read() -> None:
    made = look(0, bury("1790"), read=(reading(),), kind=InspectionKind.AS_MADE)
    bedded = look(10, bury("1790"), kind=InspectionKind.BEDDED_IN)
    (found,) = measured([made, bedded])
    assert found.baselines == ((START.date(), InspectionKind.AS_MADE),)


def test_the_worst_answer_comes_first_then_the_least_room() -> None:
    rulings = (
        bury("1900", rule="wide"),
        bury("1730", rule="narrow"),
        slip("5", "3", "-2", answer=Answer.HOLD, door="refer"),
    )
    found = measured([look(0, *rulings, read=(reading(), reading("mark_offset", "5 mm")))])
    assert [one.rule for one in found] == ["slip", "narrow", "wide"]


def test_readings_as_taken_are_the_mean_of_each_visit_without_a_limit() -> None:
    (found,) = as_read([look(0, read=(reading("mark_offset", "2 mm", "3 mm"),))], LINE, "A")
    assert [(one.value, one.limit) for one in found.taken] == [(2.5, None)]


def test_readings_as_taken_are_as_good_as_their_method() -> None:
    # An offset on a 24 mm rope: 1.5 mm of reading, which two readings divide by √2, and 3 % of the diameter.
    (found,) = as_read([look(0, read=(reading("mark_offset", "2 mm", "3 mm"),))], LINE, "A")
    assert found.taken[0].good == pytest.approx(1.645 * math.hypot(1.5 / math.sqrt(2), 0.72), abs=1e-3)


def test_what_a_count_is_good_to_is_exact() -> None:
    read = Reading(part="A", observation="tucks", values=("5",), method=Method.COUNTED)
    (found,) = as_read([look(0, read=(read,))], LINE, "A")
    assert found.taken[0].good == 0


def test_readings_in_another_unit_are_given_in_the_last_one() -> None:
    several = [look(0, read=(reading("bury", "100 mm"),)), look(9, read=(reading("bury", "4 in"),))]
    (found,) = as_read(several, LINE, "A")
    assert found.unit == "in"
    assert found.taken[0].value == pytest.approx(100 / 25.4)
    assert found.taken[0].good < 1


@pytest.mark.parametrize(
    ("value", "unit", "text"), [(5.04, "mm", "5 mm"), (-0.5, "%", "-0.5 %"), (4, "", "4"), (61.25, "°", "61.3°")]
)
def test_a_number_is_written_with_its_unit_and_one_decimal(value: float, unit: str, text: str) -> None:
    assert number(value, unit) == text
