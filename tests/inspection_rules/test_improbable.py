"""What value is asked about before it is recorded, and what is only bad news for the rope and is not."""

from datetime import UTC, date, datetime
from typing import Any

import pytest

from inspection_rules.book import shipped
from inspection_rules.improbable import Past, odd_place, oddities, past_readings
from inspection_rules.item import Item
from inspection_rules.quantity import parse
from inspection_rules.record import Inspection, Reading
from inspection_rules.words import InspectionKind

from .building import EXAMINER, MATE, buried_sling, laid_sling

BURIED = Item.model_validate(buried_sling(length="6 m"))
LAID = Item.model_validate(laid_sling(length="6 m"))
AT = datetime(2050, 10, 12, 9, tzinfo=UTC)


def visit(*readings: Reading, kind: str = "periodic", by: dict[str, str] = MATE, at: datetime = AT) -> Inspection:
    return Inspection.model_validate(
        {"id": at.isoformat(), "item": "sling", "at": at, "by": by, "kind": kind, "readings": readings}
    )


def read(part: str, observation: str, *values: str, **more: Any) -> Reading:
    method = shipped().observations[observation].methods[0]
    return Reading.model_validate(
        {"part": part, "observation": observation, "values": values, "method": method, **more}
    )


def odd(reading: Reading, *past: Inspection, item: Item = BURIED, now: Inspection | None = None) -> str:
    observation = shipped().observations[reading.observation]
    return " ".join(oddities(reading, observation, item, now or visit(), past_readings(past)))


def before(*readings: Reading, kind: str = "periodic") -> Inspection:
    return visit(*readings, kind=kind, by=EXAMINER, at=datetime(2050, 9, 12, tzinfo=UTC))


def test_a_slip_of_half_the_bury_is_asked_about() -> None:
    assert "half of the bury of 1728 mm" in odd(read("A", "mark_offset", "900 mm"))


def test_a_slip_that_is_only_bad_news_is_not_asked_about() -> None:
    assert odd(read("A", "mark_offset", "60 mm")) == ""


def test_the_bury_as_made_counts_before_the_bury_asked_for() -> None:
    made = before(read("A", "bury", "1000 mm"), kind="as made")
    assert "half of the bury of 1000 mm" in odd(read("A", "mark_offset", "600 mm"), made)


def test_a_girth_that_is_a_diameter_is_asked_about() -> None:
    assert "all the way round" in odd(read("body", "girth_worst", "24 mm"))


def test_a_rope_thicker_than_as_made_is_asked_about() -> None:
    made = before(read("body", "girth_sound", "75 mm"), kind="as made")
    assert "75 mm read as made" in odd(read("body", "girth_sound", "81 mm"), made)
    assert odd(read("body", "girth_sound", "76 mm"), made) == ""


def test_a_thinner_rope_is_believed() -> None:
    made = before(read("body", "girth_sound", "75 mm"), kind="as made")
    assert odd(read("body", "girth_sound", "69 mm"), made) == ""


def test_a_length_beyond_the_item_is_asked_about() -> None:
    assert "longer than the item, which is 6 m long" in odd(read("A", "eye_length", "60 m"))


def test_a_place_beyond_the_item_is_asked_about() -> None:
    assert "which is 6 m long" in odd_place(parse("60 m", "length"), BURIED)
    assert odd_place(parse("6 m", "length"), BURIED) == ""


def test_a_place_on_an_item_of_unknown_length_is_believed() -> None:
    assert odd_place(parse("60 m", "length"), Item.model_validate(buried_sling())) == ""


def test_a_value_far_from_the_last_is_asked_about() -> None:
    last = before(read("A", "eye_length", "400 mm"))
    assert "far from the last value, 400 mm of 2050-09-12" in odd(read("A", "eye_length", "300 mm"), last)
    assert odd(read("A", "eye_length", "410 mm"), last) == ""


def test_a_value_in_the_other_unit_is_asked_about_once() -> None:
    last = before(read("A", "eye_length", "16 in"))
    assert odd(read("A", "eye_length", "16 mm"), last).startswith("16 mm beside the last value, 406.4 mm of")


def test_a_digit_too_many_is_asked_about() -> None:
    last = before(read("A", "tucks", "4"))
    assert "one is ten times the other" in odd(read("A", "tucks", "40"), last, item=LAID)


def test_repeats_that_no_rule_shows_apart_are_asked_about() -> None:
    assert "farther apart" in odd(read("A", "mark_offset", "0 mm", "20 mm"))
    assert odd(read("A", "mark_offset", "2 mm", "4 mm")) == ""


def test_an_impossible_pair_in_two_units_shows_both_in_one() -> None:
    assert "5 mm, 2 in (50.8 mm)" in odd(read("A", "mark_offset", "5 mm", "2 in"))


def test_counts_of_one_thing_that_differ_are_asked_about() -> None:
    assert "counts of one thing agree" in odd(read("A", "tucks", "4", "5"), item=LAID)


def test_a_worst_place_thicker_than_the_sound_one_is_asked_about() -> None:
    now = visit(read("body", "girth_sound", "72 mm"))
    assert "cannot be thicker" in odd(read("body", "girth_worst", "76 mm"), now=now)


def test_more_strands_cut_than_the_rope_has_are_asked_about() -> None:
    assert "the rope has 3" in odd(read("body", "cut_strands", "4"), item=LAID)
    assert odd(read("body", "cut_strands", "2"), item=LAID) == ""


def test_more_than_all_of_it_is_asked_about() -> None:
    assert "more than all of it" in odd(read("body", "fibre_rope", "120 %"))


def test_damages_need_not_agree_with_each_other_or_the_last() -> None:
    last = before(read("body", "fibre_rope", "2 %"))
    assert odd(read("body", "fibre_rope", "2 %", "40 %"), last) == ""


def test_nothing_to_measure_is_asked_about() -> None:
    assert "nothing to measure" in odd(read("A", "eye_length", "0 mm"))
    assert odd(read("A", "mark_offset", "0 mm")) == ""


def test_a_break_test_that_fits_no_certificate_is_asked_about() -> None:
    line = Item.model_validate(buried_sling(breaking_force="500 kN"))
    assert "does not fit the breaking force" in odd(read("", "break_test", "5 kN"), item=line)
    assert odd(read("", "break_test", "430 kN"), item=line) == ""


def test_what_was_once_read_as_something_else_is_not_compared() -> None:
    last = before(read("A", "mark_offset", "4"), read("A", "bury", "6"))
    assert odd(read("A", "mark_offset", "2 mm"), last) == ""


def test_earlier_readings_are_gathered_oldest_first() -> None:
    first, second = before(read("A", "tucks", "4")), visit(read("A", "tucks", "5"))
    assert [one.on for one in past_readings([first, second])[("A", "tucks")]] == [date(2050, 9, 12), date(2050, 10, 12)]


@pytest.mark.parametrize("name", sorted(n for n, o in shipped().observations.items() if o.kind == "reading"))
def test_the_last_value_read_again_is_never_odd(name: str) -> None:
    """Every kind of reading can be made without being asked about, or nobody would read the questions."""
    value = {"mm": "75 mm", "": "3", "%": "5 %", "kN": "400 kN"}[shipped().observations[name].unit]
    part = "" if shipped().observations[name].on == "item" else "body" if name in _OF_BODY else "A"
    reading = read(part, name, value)
    past = {(part, name): (Past(InspectionKind.PERIODIC, AT.date(), reading),)}
    odd_item = BURIED.model_copy(update={"diameter": parse("75 mm" if "caliper" in name else "24 mm", "length")})
    assert oddities(reading, shipped().observations[name], odd_item, visit(), past) == ()


_OF_BODY = {name for name, one in shipped().observations.items() if one.on == "body"}
